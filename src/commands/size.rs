//! `byrnie size`

use super::{Outcome, Stop, files};
use byrnie::measure::{coiled, conversion, read_size};

/// Says what a size is in every unit, and what a mandrel of that size gives.
pub fn run(words: &[String], coil: Option<&str>, kerf: Option<&str>) -> Outcome {
    let words = words.join(" ");
    let read = |words: &str| read_size(words, None).map_err(|why| Stop::usage(format!("`{words}` {why}")));
    let size = read(&words)?;
    let kerf = kerf.map(read).transpose()?;
    let coil = coil.map(|material| coiled(&size, material, kerf.as_ref())).transpose();
    let coil = coil.map_err(|why| Stop::usage(why.to_string()))?;
    files::print(&(conversion(&size).unwrap_or_default() + &coil.unwrap_or_default()))?;
    Ok(0)
}
