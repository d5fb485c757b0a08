//! `byrnie count`

use super::{Outcome, files, patiently, piece_of, size_of, sound_weave, too_many};
use crate::cli::SizeArgs;
use byrnie::Weave;
use byrnie::count::{BagCount, COUNT_SCHEMA, Class, Counts, gauges, gauges_json, gauges_table, wants};
use byrnie::shelf::{Need, needs, shopping, shopping_json};
use byrnie::text::Layout;
use std::path::Path;

/// What is counted and how it is shown.
pub struct Options<'o> {
    /// So many repeats instead of what the text says.
    pub size: &'o SizeArgs,
    /// The shelf.
    pub shelf: Option<&'o Path>,
    /// As JSON.
    pub json: bool,
    /// In Markdown.
    pub markdown: bool,
}

pub fn run(file: &Path, options: &Options<'_>) -> Outcome {
    let weave = sound_weave(file)?;
    let shelf = options.shelf.map(super::shelf::shelf).transpose()?;
    let class = class(&weave, options.size)?;
    let side_by_side = patiently(format!("settling {}", weave.name()), || gauges(&weave)).map_err(too_many)?;
    let needs = shelf.as_ref().map(|shelf| needs(&wants(&class), shelf));
    if options.json {
        let mut value = class.json();
        if let Some(whole) = value.as_object_mut() {
            if !side_by_side.is_empty() {
                whole.insert("gauges".to_owned(), gauges_json(&side_by_side));
            }
            if let Some(needs) = &needs {
                whole.insert("shopping".to_owned(), shopping_json(needs));
            }
        }
        files::print(&format!("{value:#}\n"))?;
    } else {
        let layout = if options.markdown { Layout::Markdown } else { Layout::Plain };
        let mut parts = vec![class.table(layout), gauges_table(&side_by_side, layout)];
        parts.extend(needs.as_deref().map(|needs| shopping(&class, needs, layout)));
        files::print(&together(&parts))?;
    }
    let short = needs.iter().flatten().any(|need: &Need<'_>| need.short() > 0);
    Ok(u8::from(short || shelf.is_some_and(|s| !s.faults.is_empty())))
}

/// The parts that say something, with an empty line between them.
fn together(parts: &[String]) -> String {
    let parts: Vec<&str> = parts.iter().map(|part| part.trim_end()).filter(|part| !part.is_empty()).collect();
    format!("{}\n", parts.join("\n\n"))
}

/// What a text takes, for people.
///
/// # Errors
/// Exit code 2 where a piece has too many rings.
pub fn table(weave: &Weave) -> Result<String, super::Stop> {
    let none = SizeArgs { repeats: None, rows: None, columns: None };
    let class = class(weave, &none)?;
    let side_by_side = gauges(weave).map_err(too_many)?;
    Ok(together(&[class.table(Layout::Plain), gauges_table(&side_by_side, Layout::Plain)]))
}

/// All that is made; the one piece of a size that is asked for on the command line.
fn class(weave: &Weave, size: &SizeArgs) -> Result<Class, super::Stop> {
    let settling = format!("settling {}", weave.name());
    if weave.pattern().bags.is_empty() || size.any() {
        let piece = piece_of(weave, size_of(weave, size)?)?;
        let counts = patiently(settling, || Counts::of(weave, &piece));
        let bags = vec![BagCount { name: None, rings: None, counts }];
        return Ok(Class { name: weave.name().to_owned(), bags });
    }
    patiently(settling, || Class::of(weave)).map_err(too_many)
}

pub fn schema() -> Outcome {
    files::print(COUNT_SCHEMA)?;
    Ok(0)
}
