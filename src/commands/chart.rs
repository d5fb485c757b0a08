//! `byrnie chart`

use super::{Outcome, files, sound_weave};
use std::path::Path;

pub fn run(file: &Path, output: Option<&Path>) -> Outcome {
    let weave = sound_weave(file)?;
    let chart = byrnie::draw::chart(&weave);
    match output {
        Some(path) => files::write(path, &chart)?,
        None => files::print(&chart)?,
    }
    Ok(0)
}
