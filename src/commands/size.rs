//! `byrnie size`

use super::{Outcome, Stop, files};
use crate::cli::SizeOfArgs;
use byrnie::measure::{coiled, conversion, read_size};
use std::fmt::Display;

/// Says what a size is in every unit, and what a mandrel of that size gives.
pub fn run(args: &SizeOfArgs) -> Outcome {
    let words = args.size.join(" ");
    let size = read_size(&words, None).map_err(|why| unread(&words, &why))?;
    let text = conversion(&size).ok_or_else(|| unread(&words, &"is no size"))?;
    let kerf = args.kerf.as_deref().map(|words| read_size(words, None).map_err(|why| unread(words, &why)));
    let kerf = kerf.transpose()?;
    let coil = args.coil.as_deref().map(|material| coiled(&size, material, kerf.as_ref()).map_err(Stop::Coil));
    files::print(&(text + &coil.transpose()?.unwrap_or_default()))?;
    Ok(0)
}

fn unread(words: &str, why: &dyn Display) -> Stop {
    Stop::Size { words: words.to_owned(), why: why.to_string() }
}
