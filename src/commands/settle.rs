//! `byrnie settle`

use super::{Outcome, files, settled, sound_weave};
use crate::cli::SettleArgs;

pub fn run(args: &SettleArgs) -> Outcome {
    let weave = sound_weave(&args.file)?;
    let settled = settled(&weave)?;
    let text = if args.json {
        files::json(&settled.json(weave.name(), weave.pattern()))?
    } else {
        settled.table(weave.name(), weave.pattern())
    };
    files::print(&text)?;
    Ok(u8::from(settled.closes() == Some(false)))
}
