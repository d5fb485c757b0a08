//! `byrnie count`

use super::{Outcome, files, patiently, piece_of, size_of, sound_weave};
use crate::cli::SizeArgs;
use byrnie::supply::{Counts, Need, needs, shopping, shopping_json};
use std::path::Path;

pub fn run(file: &Path, size: &SizeArgs, shelf: Option<&Path>, json: bool) -> Outcome {
    let weave = sound_weave(file)?;
    let piece = piece_of(&weave, size_of(&weave, size)?)?;
    let shelf = shelf.map(super::shelf::shelf).transpose()?;
    let counts = patiently(format!("settling {}", weave.name()), || Counts::of(&weave, &piece));
    let needs = shelf.as_ref().map(|shelf| needs(&counts, shelf));
    if json {
        let mut value = counts.json();
        if let (Some(needs), Some(whole)) = (&needs, value.as_object_mut()) {
            whole.insert("shopping".to_owned(), shopping_json(needs));
        }
        files::print(&format!("{value:#}\n"))?;
    } else {
        let list = needs.as_deref().map_or(String::new(), |needs| format!("\n{}", shopping(needs)));
        files::print(&format!("{}{list}", counts.table()))?;
    }
    let short = needs.iter().flatten().any(|need: &Need<'_>| need.short() > 0);
    Ok(u8::from(short || shelf.is_some_and(|s| !s.faults.is_empty())))
}
