//! `byrnie graph`

use super::{Outcome, Stop, files, size_of, sound_weave};
use crate::cli::GraphArgs;
use byrnie::weave::{graph_dot, graph_json};

pub fn run(args: &GraphArgs) -> Outcome {
    let weave = sound_weave(&args.file)?;
    let piece = if args.one_repeat {
        None
    } else {
        Some(weave.piece(size_of(&weave, &args.size)?).map_err(Stop::TooManyRings)?)
    };
    let print = if args.dot { graph_dot } else { graph_json };
    files::print(&print(&weave, piece.as_ref()))?;
    Ok(0)
}
