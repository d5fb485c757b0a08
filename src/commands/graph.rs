//! `byrnie graph`

use super::{Outcome, files, piece_of, size_of, sound_weave};
use crate::cli::SizeArgs;
use byrnie::weave::{GRAPH_SCHEMA, graph_dot, graph_json};
use std::path::Path;

pub fn run(file: &Path, size: &SizeArgs, one_repeat: bool, dot: bool) -> Outcome {
    let weave = sound_weave(file)?;
    let piece = if one_repeat { None } else { Some(piece_of(&weave, size_of(&weave, size)?)?) };
    if dot {
        files::print(&graph_dot(&weave, piece.as_ref()))?;
    } else {
        files::print(&graph_json(&weave, piece.as_ref()))?;
    }
    Ok(0)
}

pub fn schema() -> Outcome {
    files::print(GRAPH_SCHEMA)?;
    Ok(0)
}
