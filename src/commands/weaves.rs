//! `byrnie weaves`

use super::{Outcome, Stop, busy, files};
use crate::cli::WeavesArgs;
use byrnie::catalogue::{Entry, Folders, weaves_json, weaves_table};
use byrnie::pattern::{Bases, Found};
use byrnie::text::Source;
use byrnie::{Library, Weave, draw};
use std::path::Path;

pub fn run(args: &WeavesArgs) -> Outcome {
    if let Some(name) = &args.name {
        one(name)?;
        return Ok(0);
    }
    if let Some(folder) = &args.charts {
        charts(folder)?;
    }
    if args.table || args.json || args.pictures.is_some() {
        settled(args)?;
    } else if args.charts.is_none() {
        list()?;
    }
    Ok(0)
}

/// Lists the weaves by name.
fn list() -> Result<(), Stop> {
    let weaves = Library::weaves().into_iter();
    let list: String =
        weaves.map(|(short, text)| format!("{}\n", Library::name(text).unwrap_or_else(|| short.to_owned()))).collect();
    files::print(&list)
}

/// Prints the text of one.
fn one(name: &str) -> Result<(), Stop> {
    let near = match Library.find(name) {
        Found::Text(source) => return files::print(source.text()),
        Found::Missing { nearest } => nearest,
        Found::Unreadable(_) => None,
    };
    Err(Stop::NoBuiltInWeave { name: name.to_owned(), near })
}

/// Writes the charts of all of them into a folder, which is made where there is none.
fn charts(folder: &Path) -> Result<(), Stop> {
    files::folder(folder)?;
    for (short, text) in Library::weaves() {
        let weave = Weave::compile(Source::new(format!("library: {short}"), text), &Library);
        files::write(&folder.join(format!("{short}.svg")), draw::chart(&weave))?;
    }
    Ok(())
}

/// Settles all of them: writes small pictures into a folder, where one is named, and prints what is computed, as a table or
/// as JSON. The table links to the pictures, and to charts in a folder.
fn settled(args: &WeavesArgs) -> Result<(), Stop> {
    let entries = busy("settling", "every built-in weave", Entry::all);
    if let Some(folder) = &args.pictures {
        files::folder(folder)?;
        for entry in &entries {
            if let Some(drawn) = &entry.thumbnail {
                files::write(&folder.join(format!("{}.svg", entry.short)), drawn)?;
            }
        }
    }
    if args.json {
        return files::print(&files::json(&weaves_json(&entries))?);
    }
    if args.table {
        let [charts, pictures] = [&args.charts, &args.pictures].map(|f| f.as_deref().map(Path::to_string_lossy));
        let folders = Folders { charts: charts.as_deref(), pictures: pictures.as_deref() };
        files::print(&weaves_table(&entries, folders))?;
    }
    Ok(())
}
