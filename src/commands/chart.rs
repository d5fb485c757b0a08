//! `byrnie chart`

use super::{Outcome, image, sound_weave};
use crate::cli::ChartArgs;

pub fn run(args: &ChartArgs) -> Outcome {
    let weave = sound_weave(&args.file)?;
    image::put(&args.output, &byrnie::draw::chart(&weave))?;
    Ok(0)
}
