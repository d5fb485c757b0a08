//! Stage 9: a tutorial, a Markdown text about a weave.
//!
//! 1. [`weave_in`](mod@weave_in) says which weave it is about.
//! 2. Its numbered steps are carried out and compared ([`crate::steps::check`]).
//! 3. [`passage`](mod@passage) takes the rest apart ([`table`] the rows of tables); [`mention`](mod@mention) finds sizes, counts, ratios and lean
//!    in it. [`sizes`](mod@sizes) and [`claims`](mod@claims) write them as a weave file would have them, so that the same rules
//!    look at them ([`check`](mod@check)); [`held`] holds sizes and lengths against the weave.

mod check;
mod claims;
mod held;
mod mention;
mod passage;
mod sizes;
mod table;
mod weave_in;

pub use check::prose;
pub use held::WRONG_SIZE;
pub use weave_in::{WeaveIn, only, weave_in};

use crate::lint;
use crate::report::Diagnostic;
use crate::steps::{self, Checked, read};
use crate::text::{Source, Sources};
use crate::weave::Weave;

/// What was found in a tutorial.
#[derive(Clone, Debug)]
pub struct Tutorial {
    /// The text, and the files of its weave.
    pub sources: Sources,
    /// What is wrong, in all of them.
    pub findings: Vec<Diagnostic>,
    /// What could be read of the steps.
    pub checked: Checked,
}

impl Tutorial {
    /// Checks a text, and the weave it is about: a weave in a fence was compiled from the same text, see [`only`].
    pub fn of(text: Source, weave: &Weave) -> Self {
        let own = lint::check(weave);
        let in_the_text = weave.sources.get(0).is_some_and(|s| s.name() == text.name());
        let shift = u16::from(!in_the_text);
        let mut findings: Vec<Diagnostic> =
            own.into_iter().map(|f| f.renumbered(|n| n.saturating_add(shift))).collect();
        let mut checked = Checked::default();
        if lint::graph_broken(weave).is_none() {
            checked = steps::check(weave, weave.settled().ok(), text.text());
            findings.extend(checked.findings.iter().cloned());
            let (number, prose) = prose(weave, &text, &read(text.text()), checked.size);
            let place = |n: u16| if n == number { 0 } else { n.saturating_add(shift) };
            findings.extend(prose.into_iter().map(|f| f.renumbered(place)));
        }
        // The text stands first; words of a weave in a fence have their places in it.
        let mut sources = Sources::default();
        sources.add(text);
        for source in (u16::from(in_the_text)..).map_while(|n| weave.sources.get(n).cloned()) {
            sources.add(source);
        }
        findings.sort_by_key(|f| (f.span.source, f.span.start, f.span.end, f.rule));
        Self { sources, findings, checked }
    }
}
