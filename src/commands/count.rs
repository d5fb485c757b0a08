//! `byrnie count`

use super::{Outcome, Stop, busy, files, shelf, size_of, sound_weave};
use crate::cli::{CountArgs, SizeArgs};
use byrnie::Weave;
use byrnie::count::{BagCount, Class, Counts, gauges, gauges_table, wants};
use byrnie::shelf::{CountJson, Need, needs, shopping};
use byrnie::text::Layout;

pub fn run(args: &CountArgs) -> Outcome {
    let weave = sound_weave(&args.file)?;
    let shelf = args.shelf.as_deref().map(shelf::shelf).transpose()?;
    let class = class(&weave, &args.size)?;
    let side_by_side = busy("settling", weave.name(), || gauges(&weave)).map_err(Stop::TooManyRings)?;
    let wants = wants(&class);
    let needs = shelf.as_ref().map(|shelf| needs(&wants, shelf));
    let text = if args.json {
        files::json(&CountJson::of(&class, &side_by_side, &wants, needs.as_deref()))?
    } else {
        let layout = if args.markdown { Layout::Markdown } else { Layout::Plain };
        let mut parts = vec![class.table(layout), gauges_table(&side_by_side, layout)];
        parts.extend(needs.as_deref().map(|needs| shopping(&class, needs, layout)));
        together(&parts)
    };
    files::print(&text)?;
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
pub fn table(weave: &Weave) -> Result<String, Stop> {
    let class = class(weave, &SizeArgs::default())?;
    let side_by_side = gauges(weave).map_err(Stop::TooManyRings)?;
    Ok(together(&[class.table(Layout::Plain), gauges_table(&side_by_side, Layout::Plain)]))
}

/// All that is made; the one piece of a size that is asked for on the command line.
fn class(weave: &Weave, size: &SizeArgs) -> Result<Class, Stop> {
    if !weave.pattern().bags.is_empty() && !size.any() {
        return busy("settling", weave.name(), || Class::of(weave)).map_err(Stop::TooManyRings);
    }
    let piece = weave.piece(size_of(weave, size)?).map_err(Stop::TooManyRings)?;
    let counts = busy("settling", weave.name(), || Counts::of(weave, &piece));
    let counts = if size.any() { counts.of_chosen_size() } else { counts };
    Ok(Class { name: weave.name().to_owned(), bags: vec![BagCount { name: None, rings: None, counts }] })
}
