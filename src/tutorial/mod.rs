//! A tutorial, a Markdown text about a weave.
//!
//! 1. [`weave_in`](mod@weave_in) says which weave it is about.
//! 2. Its numbered steps are carried out and compared ([`crate::steps::check`]).
//! 3. [`passage`](mod@passage) takes the rest apart ([`table`] the rows of tables); [`mention`](mod@mention) finds sizes, counts, ratios and lean
//!    in it. [`sizes`](mod@sizes) and [`claims`](mod@claims) write them as a weave file would have them, so that the same rules
//!    look at them ([`check`](mod@check)); [`compare`] compares sizes and lengths with the weave.

mod check;
mod claims;
mod compare;
mod mention;
mod passage;
mod several;
mod sizes;
mod table;
mod weave_in;

pub use check::prose;
pub use weave_in::{WeaveIn, only, weave_in};

use crate::lint::Needs;
use crate::report::{Diagnostic, Note};
use crate::steps::Checked;
use crate::text::{Source, Sources};
use crate::weave::Weave;
use crate::{lint, steps};

/// What was found in a tutorial.
#[derive(Clone, Debug)]
pub struct Tutorial {
    /// The text, and the files of its weave.
    pub sources: Sources,
    /// What is wrong, in all of them.
    pub findings: Vec<Diagnostic>,
    /// What could be read of the steps.
    pub checked: Checked,
    /// Claims of its weave that are not checked.
    pub unchecked: Vec<Note>,
    /// Whether the ring graph of its weave cannot be relied on; the rest of the text is not checked then.
    pub broken: bool,
}

impl Tutorial {
    /// Checks a text, and the weave it is about: a weave in a fence was compiled from the same text, see [`only`].
    pub fn of(text: Source, weave: &Weave) -> Self {
        Self::up_to(text, weave, Needs::Pose)
    }

    /// The same by those rules only that need no more than this; below [`Needs::Pose`] nothing is settled.
    pub fn up_to(text: Source, weave: &Weave, most: Needs) -> Self {
        let own = lint::check_up_to(weave, most);
        let in_the_text = weave.sources().get(0).is_some_and(|s| s.name() == text.name());
        let shift = u16::from(!in_the_text);
        let after = |n: u16| n.saturating_add(shift);
        let unchecked = if most >= Needs::Pose { lint::unchecked_notes(weave, &own) } else { Vec::new() };
        let mut findings: Vec<Diagnostic> = own.into_iter().map(|f| f.renumbered(after)).collect();
        let mut checked = Checked::default();
        let broken = lint::graph_broken(weave).is_some();
        if !broken && most >= Needs::Graph {
            let settled = if most >= Needs::Pose { weave.settled().ok() } else { None };
            checked = steps::check(weave, settled, text.text());
            findings.extend(checked.findings.iter().cloned());
            let (number, prose) = prose(weave, &text, &checked.reading, checked.size, most);
            let place = |n: u16| if n == number { 0 } else { after(n) };
            findings.extend(prose.into_iter().map(|f| f.renumbered(place)));
        }
        // The text comes first; words of a weave in a fence have their places in it.
        let mut sources = Sources::default();
        sources.add(text);
        for source in (u16::from(in_the_text)..).map_while(|n| weave.sources().get(n).cloned()) {
            sources.add(source);
        }
        findings.sort_by_key(|f| (f.span.source, f.span.start, f.span.end, f.rule));
        let unchecked = unchecked.into_iter().map(|n| n.shifted(shift)).collect();
        Self { sources, findings, checked, unchecked, broken }
    }
}
