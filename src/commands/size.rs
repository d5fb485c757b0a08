//! `byrnie size`

use super::{Outcome, Stop, files};
use crate::cli::SizeOfArgs;
use byrnie::measure::{coiled, conversion, read_size};
use byrnie::notation::Size;

/// Says what a size is in every unit, and what a mandrel of that size gives.
pub fn run(args: &SizeOfArgs) -> Outcome {
    let words = args.size.join(" ");
    let size = read(&words)?;
    let text = conversion(&size).ok_or_else(|| Stop::Size { words, why: "is no size".into() })?;
    let kerf = args.kerf.as_deref().map(read).transpose()?;
    let coil = args.coil.as_deref().map(|material| coiled(&size, material, kerf.as_ref()));
    let coil = coil.transpose().map_err(|why| Stop::Coil(why.into()))?;
    files::print(&(text + &coil.unwrap_or_default()))?;
    Ok(0)
}

fn read(words: &str) -> Result<Size, Stop> {
    read_size(words, None).map_err(|why| Stop::Size { words: words.to_owned(), why: why.into() })
}
