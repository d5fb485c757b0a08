//! `byrnie steps`

use super::picture::{Pictured, picture_name, settled};
use super::{Outcome, Stop, files, size_of, sound_weave};
use crate::cli::SizeArgs;
use byrnie::draw::picture::{Options, Scale};
use byrnie::steps::Instructions;
use std::path::Path;

/// Width and height of a step's picture at most, mm: two go side by side on a page.
const FRAME: (f64, f64) = (80.0, 80.0);

pub fn run(file: &Path, output: Option<&Path>, pictures: Option<&Path>, size: &SizeArgs) -> Outcome {
    let weave = sound_weave(file)?;
    let size = size_of(&weave, size)?;
    // Instructions do not need to know where rings lie; they are better if they do.
    let lies = settled(&weave).ok();
    let told = Instructions::of(&weave, lies, size).map_err(|why| Stop::found(format!("{}: {why}", weave.name())))?;
    if let Some(folder) = pictures {
        let options = Options { scale: Scale::Fit(FRAME.0, FRAME.1), ..Options::default() };
        Pictured::of_told(&weave, told.clone(), size, &options)?.write(folder)?;
    }
    let link = |number| {
        let folder = pictures?.to_string_lossy();
        Some(format!("{folder}/{}", picture_name(&weave, &told, number)))
    };
    let text = told.markdown(link);
    match output {
        Some(path) => files::write(path, &text)?,
        None => files::print(&text)?,
    }
    Ok(0)
}
