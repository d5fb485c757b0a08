//! The built-in weaves: every example by its name, and which of them a text describes.

mod identify;

use crate::notation;
use crate::notation::What;
use crate::pattern::{Bases, Found};
use crate::text::{Source, nearest, short_name};
use include_dir::{Dir, include_dir};

pub use identify::{BasePose, Identity};

static EXAMPLES: Dir<'_> = include_dir!("$CARGO_MANIFEST_DIR/examples");

/// The built-in weaves as bases.
pub struct Library;

impl Library {
    /// Every built-in weave: its short name and its text, in alphabetical order.
    pub fn weaves() -> Vec<(&'static str, &'static str)> {
        let mut weaves: Vec<_> = EXAMPLES
            .files()
            .filter(|f| f.path().extension().is_some_and(|e| e == "weave"))
            .filter_map(|f| Some((f.path().file_stem()?.to_str()?, f.contents_utf8()?)))
            .collect();
        weaves.sort_unstable();
        weaves
    }

    /// The name a weave's text gives it.
    pub fn name(text: &str) -> Option<String> {
        let (tree, _) = notation::read(0, text);
        tree.statements.into_iter().find_map(|s| match s.what {
            What::Weave(name) => Some(name.value),
            _ => None,
        })
    }
}

impl Bases for Library {
    fn find(&self, name: &str) -> Found {
        let short = short_name(name);
        let weaves = Self::weaves();
        if let Some((n, text)) = weaves.iter().find(|(n, _)| *n == short) {
            Found::Text(Source::new(format!("library: {n}"), *text))
        } else {
            let near = nearest(&short, weaves.iter().map(|(n, _)| *n));
            let text = weaves.iter().find(|(n, _)| Some(*n) == near).map(|(_, text)| *text);
            Found::Missing { nearest: text.map(|text| Self::name(text).unwrap_or(short)) }
        }
    }
}
