//! Following `base "…"` from file to file.

use crate::notation;
use crate::notation::{Tree, What};
use crate::pattern::MOST_BASES;
use crate::report::Diagnostic;
use crate::text::{Source, Sources, Span};

/// What looking for a base brought.
pub enum Found {
    /// Its text.
    Text(Source),
    /// No such weave; the nearest name there is.
    Missing {
        /// A name that is nearly the one asked for.
        nearest: Option<String>,
    },
    /// It is there and cannot be read; why.
    Unreadable(String),
}

/// Where bases come from: the built-in library, and the folder of the file. Reading files is for the
/// rim of the program; the pipeline only asks.
pub trait Bases {
    /// The text of the weave called `name`.
    fn find(&self, name: &str) -> Found;
}

/// No bases at all, for texts that stand alone.
pub struct NoBases;

impl Bases for NoBases {
    fn find(&self, _: &str) -> Found {
        Found::Missing { nearest: None }
    }
}

/// Why a base could not be followed.
#[derive(Clone, Debug)]
pub enum BaseFault {
    /// Not there; the nearest name.
    Missing(Option<String>),
    /// Cannot be read; why.
    Unreadable(String),
    /// It stands on itself.
    Circle,
    /// More than the most bases on one another.
    TooDeep,
}

/// One file of a compilation.
#[derive(Clone, Debug)]
pub struct WeaveFile {
    /// Its number in the sources.
    pub source: u16,
    /// What was read.
    pub tree: Tree,
    /// The `base` statement's name and words.
    pub base: Option<(String, Span)>,
    /// Why its base could not be followed.
    pub base_fault: Option<BaseFault>,
    /// Whether every line of it was read.
    pub read_whole: bool,
}

/// Reads a weave and, one after the other, its bases. Number 0 is the file asked for.
pub fn gather(source: Source, bases: &dyn Bases) -> (Sources, Vec<WeaveFile>, Vec<Diagnostic>) {
    let mut sources = Sources::default();
    let mut files: Vec<WeaveFile> = Vec::new();
    let mut findings = Vec::new();
    let mut followed: Vec<String> = Vec::new();
    let mut next = Some(source);
    while let Some(source) = next.take() {
        let number = sources.add(source);
        let text = sources.get(number).map_or("", Source::text);
        let (tree, mut found) = notation::read(number, text);
        let read_whole = !found.iter().any(|f| f.rule == notation::UNREADABLE);
        findings.append(&mut found);
        let base = tree.statements.iter().find_map(|s| match &s.what {
            What::Base(name) => Some((name.value.clone(), name.span)),
            _ => None,
        });
        let mut base_fault = None;
        if let Some((name, _)) = &base {
            if followed.contains(name) {
                base_fault = Some(BaseFault::Circle);
            } else if followed.len() >= MOST_BASES {
                base_fault = Some(BaseFault::TooDeep);
            } else {
                followed.push(name.clone());
                match bases.find(name) {
                    Found::Text(text) => next = Some(text),
                    Found::Missing { nearest } => base_fault = Some(BaseFault::Missing(nearest)),
                    Found::Unreadable(why) => base_fault = Some(BaseFault::Unreadable(why)),
                }
            }
        }
        files.push(WeaveFile { source: number, tree, base, base_fault, read_whole });
    }
    (sources, files, findings)
}
