//! `byrnie size`

use super::{Outcome, Stop, files};
use byrnie::measure::{coiled, conversion, read_size};

/// Says what a size is in every unit, and what a mandrel of that size gives.
pub fn run(words: &[String], coil: Option<&str>, kerf: Option<&str>) -> Outcome {
    let words = words.join(" ");
    let fail = |why: String| Stop::usage(format!("`{words}` {why}"));
    let size = read_size(&words, None).map_err(fail)?;
    let text = conversion(&size).ok_or_else(|| fail("is no size".to_owned()))?;
    let kerf =
        kerf.map(|words| read_size(words, None).map_err(|why| Stop::usage(format!("`{words}` {why}")))).transpose()?;
    let coil = coil.map(|material| coiled(&size, material, kerf.as_ref()).map_err(Stop::usage)).transpose()?;
    files::print(&(text + &coil.unwrap_or_default()))?;
    Ok(0)
}
