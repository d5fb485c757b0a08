//! `byrnie settle`

use super::{Outcome, Stop, files, patiently, sound_weave};
use byrnie::settle::SETTLE_SCHEMA;
use std::path::Path;

pub fn run(file: &Path, json: bool) -> Outcome {
    let weave = sound_weave(file)?;
    let settled = patiently(format!("settling {}", weave.name()), || weave.settled());
    let settled = settled.map_err(|why| Stop::found(format!("{}: {why}", weave.name())))?;
    if json {
        files::print(&format!("{:#}\n", settled.json(weave.name(), weave.pattern())))?;
    } else {
        files::print(&settled.table(weave.name(), weave.pattern()))?;
    }
    Ok(u8::from(settled.closes() == Some(false)))
}

pub fn schema() -> Outcome {
    files::print(SETTLE_SCHEMA)?;
    Ok(0)
}
