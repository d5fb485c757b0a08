//! `byrnie fit`

use super::{Outcome, Stop, drawing, files, patiently, sound_weave};
use byrnie::fit::{FIT_SCHEMA, fit, fit_kind};
use byrnie::text::Layout;
use std::path::{Path, PathBuf};

/// How the answer is shown.
pub struct Shown {
    /// The map is written here as well.
    pub map: Option<PathBuf>,
    /// The most rows.
    pub most: usize,
    /// As JSON.
    pub json: bool,
    /// As Markdown.
    pub markdown: bool,
    /// The kind that is chosen, the others as the text has them.
    pub kind: Option<String>,
}

/// Which rings of a shelf, or of the sizes in common use, make a weave.
pub fn run(file: &Path, shelf: Option<&Path>, shown: &Shown) -> Outcome {
    let weave = sound_weave(file)?;
    let shelf = shelf.map(super::shelf::shelf).transpose()?;
    let faults = shelf.as_ref().map_or(0, |shelf| shelf.faults.len());
    let fit = patiently(format!("trying rings for {}", weave.name()), || match &shown.kind {
        Some(kind) => fit_kind(&weave, kind, shelf.as_ref(), shown.most),
        None => fit(&weave, shelf.as_ref(), shown.most),
    });
    let fit = fit.map_err(|why| Stop::found(format!("{}: {why}", weave.name())))?;
    if let Some(map) = &shown.map {
        drawing::write(Some(map), &byrnie::draw::fit_map(&fit))?;
    }
    if shown.json {
        files::print(&format!("{:#}\n", fit.json()))?;
    } else {
        let layout = if shown.markdown { Layout::Markdown } else { Layout::Plain };
        files::print(&fit.table(shown.most, layout))?;
    }
    Ok(u8::from(fit.rows.is_empty() || faults > 0))
}

pub fn schema() -> Outcome {
    files::print(FIT_SCHEMA)?;
    Ok(0)
}
