//! `byrnie model`

use super::{Outcome, Stop, files, settled, size_of, sound_weave};
use crate::cli::ModelArgs;
use byrnie::draw::model::model;

pub fn run(args: &ModelArgs) -> Outcome {
    let weave = sound_weave(&args.file)?;
    let size = size_of(&weave, &args.size)?;
    let bytes = model(&weave, settled(&weave)?, size).map_err(Stop::of(&weave))?;
    files::put(&args.output, &bytes)?;
    Ok(0)
}
