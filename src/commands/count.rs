//! `byrnie count`

use super::{Outcome, files, patiently, piece_of, size_of, sound_weave};
use crate::cli::SizeArgs;
use byrnie::supply::Counts;
use std::path::Path;

pub fn run(file: &Path, size: &SizeArgs, json: bool) -> Outcome {
    let weave = sound_weave(file)?;
    let piece = piece_of(&weave, size_of(&weave, size)?)?;
    let counts = patiently(format!("settling {}", weave.name()), || Counts::of(&weave, &piece));
    if json {
        files::print(&format!("{:#}\n", counts.json()))?;
    } else {
        files::print(&counts.table())?;
    }
    Ok(0)
}
