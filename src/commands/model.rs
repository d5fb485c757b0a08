//! `byrnie model`

use super::{Outcome, Stop, files, settled, size_of, sound_weave};
use crate::cli::SizeArgs;
use byrnie::draw::model::model;
use std::path::Path;

pub fn run(file: &Path, output: &Path, size: &SizeArgs) -> Outcome {
    if !output.extension().is_some_and(|e| e.eq_ignore_ascii_case("glb")) {
        return Err(Stop::usage(format!(
            "{}: a model is one binary glTF file; let its name end in .glb, as in `-o {}`",
            output.display(),
            output.with_extension("glb").display()
        )));
    }
    let weave = sound_weave(file)?;
    let size = size_of(&weave, size)?;
    let bytes = model(&weave, settled(&weave)?, size).map_err(|why| Stop::found(format!("{}: {why}", weave.name())))?;
    files::write_bytes(output, &bytes)?;
    Ok(0)
}
