//! `byrnie weaves`

use super::{Outcome, Stop, files, patiently};
use byrnie::catalogue::{Entry, Folders, WEAVES_SCHEMA, weaves_json, weaves_table};
use byrnie::pattern::{Bases, Found};
use byrnie::text::Source;
use byrnie::{Library, Weave, draw};
use std::path::Path;

/// Lists the weaves by name.
pub fn list() -> Outcome {
    let weaves = Library::weaves().into_iter();
    let list: String =
        weaves.map(|(short, text)| format!("{}\n", Library::name(text).unwrap_or_else(|| short.to_owned()))).collect();
    files::print(&list)?;
    Ok(0)
}

/// Prints the text of one.
pub fn one(name: &str) -> Outcome {
    match Library.find(name) {
        Found::Text(source) => files::print(source.text())?,
        Found::Missing { nearest: Some(near) } => {
            return Err(Stop::usage(format!("there is no built-in weave `{name}`; did you mean `{near}`?")));
        }
        Found::Missing { nearest: None } | Found::Unreadable(_) => {
            return Err(Stop::usage(format!("there is no built-in weave `{name}`; `byrnie weaves` lists them")));
        }
    }
    Ok(0)
}

/// Writes the charts of all of them into a folder, which is made where there is none.
pub fn charts(folder: &Path) -> Outcome {
    files::folder(folder)?;
    for (short, text) in Library::weaves() {
        let weave = Weave::compile(Source::new(format!("library: {short}"), text), &Library);
        files::write(&folder.join(format!("{short}.svg")), &draw::chart(&weave))?;
    }
    Ok(0)
}

/// Settles all of them: writes small pictures into a folder, where one is named, and prints what is computed, as a table or
/// as JSON. The table links to the pictures, and to charts in a folder.
pub fn settled(table: bool, json: bool, charts: Option<&Path>, pictures: Option<&Path>) -> Outcome {
    let entries = patiently("settling every built-in weave".to_owned(), Entry::all);
    if let Some(folder) = pictures {
        files::folder(folder)?;
        for entry in &entries {
            if let Some(drawn) = &entry.thumbnail {
                files::write(&folder.join(format!("{}.svg", entry.short)), drawn)?;
            }
        }
    }
    if json {
        files::print(&format!("{:#}\n", weaves_json(&entries)))?;
    } else if table {
        let (charts, pictures) = (charts.map(Path::to_string_lossy), pictures.map(Path::to_string_lossy));
        let folders = Folders { charts: charts.as_deref(), pictures: pictures.as_deref() };
        files::print(&weaves_table(&entries, folders))?;
    }
    Ok(0)
}

pub fn schema() -> Outcome {
    files::print(WEAVES_SCHEMA)?;
    Ok(0)
}
