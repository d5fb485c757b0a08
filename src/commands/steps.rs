//! `byrnie steps`

use super::picture::{Pictured, picture_name};
use super::{Outcome, Stop, files, settled, size_of, sound_weave};
use crate::cli::StepsArgs;
use byrnie::draw::picture::{Options, Scale};
use byrnie::steps::Instructions;

/// Width and height of a step's picture at most, mm: two go side by side on a page.
const FRAME: (f64, f64) = (80.0, 80.0);

pub fn run(args: &StepsArgs) -> Outcome {
    let weave = sound_weave(&args.file)?;
    let size = size_of(&weave, &args.size)?;
    // Instructions do not need to know where rings lie; they are better if they do.
    let lies = settled(&weave).ok();
    let told = Instructions::of(&weave, lies, size).map_err(Stop::of(&weave))?;
    if let Some(folder) = &args.pictures {
        let options = Options { scale: Scale::Fit(FRAME.0, FRAME.1), ..Options::default() };
        Pictured::of_told(&weave, told.clone(), size, &options)?.write(folder)?;
    }
    let link = |number| {
        let folder = args.pictures.as_ref()?.to_string_lossy();
        Some(format!("{folder}/{}", picture_name(&weave, &told, number)))
    };
    files::put(&args.output, told.markdown(link).as_bytes())?;
    Ok(0)
}
