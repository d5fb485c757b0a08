//! `byrnie weaves`

use super::{Outcome, Stop, files};
use byrnie::Library;
use byrnie::pattern::{Bases, Found};

pub fn run(name: Option<&str>) -> Outcome {
    match name {
        None => {
            let list: String = Library::weaves()
                .into_iter()
                .map(|(short, text)| format!("{}\n", Library::name(text).unwrap_or_else(|| short.to_owned())))
                .collect();
            files::print(&list)?;
        }
        Some(name) => match Library.find(name) {
            Found::Text(source) => files::print(source.text())?,
            Found::Missing { nearest: Some(near) } => {
                return Err(Stop::usage(format!("there is no built-in weave `{name}`; did you mean `{near}`?")));
            }
            Found::Missing { nearest: None } | Found::Unreadable(_) => {
                return Err(Stop::usage(format!("there is no built-in weave `{name}`; `byrnie weaves` lists them")));
            }
        },
    }
    Ok(0)
}
