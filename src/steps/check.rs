//! Instructions compared with the weave they claim to make, ring by ring. Every step is checked as if all before it had been
//! right, so that one mistake gives one finding.

use super::events::{Claim, Claimed, Fault, Name, Woven};
use super::expected::Expected;
use super::follow::{Letters, Work, follow};
use super::read::{Numbered, Reading, read};
use crate::notation::State;
use crate::pattern::{Lattice, Repeats};
use crate::report::Diagnostic;
use crate::settle::Settled;
use crate::text::Span;
use crate::weave::Weave;
use petgraph::graph::NodeIndex;
use std::collections::BTreeSet;
use std::ops::Range;

/// A step passes other rings than the weave does.
pub const WRONG_RING: &str = "step-wrong-ring";
/// A step passes a ring the wrong way.
pub const WRONG_WAY: &str = "step-wrong-way";
/// A step lays a ring where it does not lie in the weave.
pub const LIES_OTHERWISE: &str = "step-lies-otherwise";
/// A step cannot be done as it is told.
pub const CANNOT_BE_DONE: &str = "step-cannot-be-done";
/// Rings are never woven in.
pub const LEFT_OUT: &str = "step-left-out";
/// Rings are miscounted.
pub const MISCOUNTED: &str = "step-miscounted";
/// The lean is told wrongly.
pub const WRONG_LEAN: &str = "step-wrong-lean";

/// Instructions as they were checked.
#[derive(Clone, Debug, Default)]
pub struct Checked {
    /// What is wrong, in the order of the text.
    pub findings: Vec<Diagnostic>,
    /// Sentences of numbered items that could not be read.
    pub unread: Vec<Span>,
    /// How many sentences there are.
    pub sentences: usize,
    /// The size of the piece the steps make, where there are any.
    pub size: Option<Repeats>,
    /// The text as it was read.
    pub reading: Reading,
}

/// Checks instructions in Markdown against a weave. Spans are in source 0. A weave whose ring graph is broken has nothing to
/// be compared with: its own findings come first.
pub fn check(weave: &Weave, settled: Option<&Settled>, text: &str) -> Checked {
    let reading = read(text);
    let work = follow(&reading, letters(weave));
    let unread = work.unread.iter().map(span).collect();
    let sentences = reading.items.iter().map(|i| i.sentences.len()).sum();
    let expected = Expected::of(weave, settled, &reading, &work).filter(|_| sentences > 0);
    let size = expected.as_ref().map(|expected| expected.piece.size);
    let mut findings = expected.map_or_else(Vec::new, |expected| {
        let mut checker = Checker::of(text, &expected, &reading, &work);
        checker.needs(&reading);
        checker.faults(&work.faults);
        checker.work(&work.woven, &work.claims);
        checker.findings
    });
    findings.sort_by_key(|f| (f.span.start, f.span.end, f.rule));
    Checked { findings, unread, sentences, size, reading }
}

/// The letters of the closed and of the open rings of a chain's base, where there is one of each; `None` where rings are no
/// chain, and so not counted off.
pub fn letters(weave: &Weave) -> Option<Letters> {
    let of_state = |state| {
        let mut own = weave.pattern().families.iter().filter(|f| f.state == state && f.accent.is_none());
        own.next().filter(|_| own.next().is_none()).map(|f| f.name.value.clone())
    };
    (weave.pattern().lattice == Lattice::Chain)
        .then(|| Letters { closed: of_state(State::Closed), open: of_state(State::Open) })
}

pub(super) fn span(range: &Range<usize>) -> Span {
    let [start, end] = [range.start, range.end].map(|at| u32::try_from(at).unwrap_or(u32::MAX));
    Span { source: 0, start, end }
}

/// More missing rings than this are counted, not named.
const MOST_NAMED: usize = 3;

pub(super) struct Checker<'c> {
    pub(super) text: &'c str,
    pub(super) expected: &'c Expected<'c>,
    /// The rings in the work, had all been done right.
    pub(super) there: BTreeSet<NodeIndex>,
    /// Every ring that the text weaves in anywhere.
    pub(super) told: BTreeSet<Name>,
    pub(super) findings: Vec<Diagnostic>,
    /// Items of which it is known already that rings go wrong in them.
    pub(super) items: BTreeSet<usize>,
    /// Sentences that are wrong: what is told again is not found again.
    pub(super) spans: Vec<Range<usize>>,
    /// Rings on the tie with which the work begins.
    pub(super) threaded: BTreeSet<Name>,
    /// The place of every item in the text, and its number.
    pub(super) numbered: Vec<(Range<usize>, usize)>,
    /// Sentences that were not read and may weave rings in.
    pub(super) doubtful: Vec<Range<usize>>,
    /// The first sentence of all.
    pub(super) begin: Range<usize>,
}

/// Words as they are quoted: in one line, and not too many.
fn shortened(words: &str) -> String {
    const MOST: usize = 60;
    let words = words.split_whitespace().collect::<Vec<_>>().join(" ");
    let words = words.trim_end_matches('.');
    if words.chars().count() <= MOST {
        return words.to_owned();
    }
    let kept: String = words.chars().take(MOST).collect();
    let whole = kept.rsplit_once(' ').map_or(kept.as_str(), |(whole, _)| whole);
    format!("{whole} …")
}

/// Whether a sentence that was not read may speak of rings that are woven in.
fn may_weave(text: &str, sentence: &Range<usize>) -> bool {
    const WORDS: [&str; 18] = [
        "add", "again", "carry", "close", "connect", "continue", "go", "join", "link", "make", "open", "repeat",
        "rest", "same", "start", "thread", "through", "weave",
    ];
    let words = text.get(sentence.clone()).unwrap_or("").to_lowercase();
    words.split(|c: char| !c.is_alphabetic()).any(|word| WORDS.contains(&word))
}

impl<'c> Checker<'c> {
    fn of(text: &'c str, expected: &'c Expected<'c>, reading: &Reading, work: &Work) -> Self {
        let numbered = |i: &Numbered| Some((i.sentences.first()?.span.start..i.sentences.last()?.span.end, i.number));
        Self {
            text,
            expected,
            there: BTreeSet::new(),
            told: work.woven.iter().map(|w| w.ring.what.clone()).collect(),
            findings: Vec::new(),
            items: BTreeSet::new(),
            spans: Vec::new(),
            threaded: BTreeSet::new(),
            numbered: reading.items.iter().filter_map(numbered).collect(),
            doubtful: work.unread.iter().filter(|r| may_weave(text, r)).cloned().collect(),
            begin: reading.items.iter().flat_map(|i| &i.sentences).next().map_or(0..0, |s| s.span.clone()),
        }
    }
}

impl Checker<'_> {
    pub(super) fn find(&mut self, rule: &'static str, at: &Range<usize>, message: String, label: &str) {
        self.add(at, Diagnostic::error(rule, span(at), message).label(label));
    }

    /// Adds a finding, with the step and its words before it.
    pub(super) fn add(&mut self, at: &Range<usize>, mut finding: Diagnostic) {
        if let Some(step) = self.step_at(at) {
            let words = shortened(self.text.get(at.clone()).unwrap_or(""));
            finding.message = format!("step {step}, “{words}”: {}", finding.message);
        }
        self.spans.push(at.clone());
        self.findings.push(finding);
    }

    /// The number of the item that contains a sentence.
    fn step_at(&self, at: &Range<usize>) -> Option<usize> {
        let next = self.numbered.partition_point(|(item, _)| item.start <= at.start);
        let (item, number) = self.numbered.get(next.checked_sub(1)?)?;
        (at.start < item.end).then_some(*number)
    }

    /// What is wrong in itself, not because of an earlier step.
    fn faults(&mut self, faults: &[Fault]) {
        for fault in faults.iter().filter(|f| !f.why.follows()) {
            if self.items.insert(fault.item) {
                self.find(CANNOT_BE_DONE, &fault.span, fault.why.to_string(), "this cannot be done");
            }
        }
    }

    fn work(&mut self, woven: &[Woven], claims: &[Claimed]) {
        let mut claims = claims.iter().peekable();
        let mut last: Option<&Woven> = None;
        for (number, ring) in woven.iter().enumerate() {
            while let Some(claimed) = claims.next_if(|c| c.woven <= number) {
                self.claim(claimed, Some(ring));
            }
            self.weave(ring, last);
            last = Some(ring);
        }
        for claimed in claims {
            if matches!(claimed.claim.what, Claim::Rings(_)) {
                self.left_out(self.expected.order.steps.len(), last, None);
            }
            self.claim(claimed, None);
        }
        self.left_out(self.expected.order.steps.len(), last, None);
    }

    /// A ring comes into the work, with the closed rings it picks up.
    pub(super) fn enter(&mut self, ring: NodeIndex) {
        let passed = self.expected.passes(ring, &self.there).into_keys();
        let fresh: Vec<NodeIndex> = passed.collect();
        self.there.extend(fresh);
        self.there.insert(ring);
    }

    /// Rings of steps before `step` that are not there and never will be.
    fn left_out(&mut self, step: usize, last: Option<&Woven>, next: Option<&Woven>) {
        let steps: Vec<NodeIndex> = self.expected.order.steps.iter().take(step).map(|s| s.ring).collect();
        let missing: Vec<NodeIndex> = steps
            .into_iter()
            .filter(|r| !self.there.contains(r) && !self.told.contains(&self.expected.name(*r)))
            .collect();
        for ring in &missing {
            self.enter(*ring);
        }
        // Where no ring is woven in at all, nothing tells how.
        let Some(first) = missing.first().filter(|_| !self.told.is_empty()) else { return };
        // What was not read between the two may have told them.
        let (from, to) = (last.map_or(0, |w| w.place().start), next.map_or(usize::MAX, |w| w.place().start));
        if self.doubtful.iter().any(|r| r.start >= from && r.start < to) {
            return;
        }
        let which = if missing.len() > MOST_NAMED {
            format!("{} rings from {} on", missing.len(), self.expected.name(*first))
        } else {
            self.expected.names(missing.iter().copied())
        };
        let it = if missing.len() == 1 { "it" } else { "them" };
        let at = last.map_or(self.begin.clone(), |w| w.place().clone());
        let message = format!("the piece has {which}; the text never weaves {it} in");
        self.find(LEFT_OUT, &at, message, "the work stops short here");
    }

    fn weave(&mut self, woven: &Woven, last: Option<&Woven>) {
        let (name, at) = (&woven.ring.what, woven.place());
        let found = self.spans.contains(at);
        let Some(ring) = self.expected.nodes.get(name).copied() else {
            if !found {
                let message = format!("{name} is not in this piece; {}", self.last_of(name));
                self.find(WRONG_RING, at, message, "no such ring");
            }
            return;
        };
        if let Some(step) = self.expected.steps.get(&ring) {
            self.left_out(*step, last, Some(woven));
        } else if !found {
            let message = format!("{name} is closed beforehand, so it cannot be woven in");
            self.find(CANNOT_BE_DONE, at, message, "closed");
        }
        if self.there.contains(&ring) {
            let known = self.spans.contains(at) || self.items.contains(&woven.item);
            if !known && self.items.insert(woven.item_told()) {
                self.find(CANNOT_BE_DONE, at, format!("{name} is already in the work"), "once more");
            }
            return;
        }
        self.passes(woven, ring);
        if woven.repeated.is_none() {
            for lies in &woven.moves.lies {
                self.lies(lies);
            }
        }
        self.enter(ring);
    }

    /// The last ring of a letter, in words.
    pub(super) fn last_of(&self, name: &Name) -> String {
        let letter = &name.letter;
        match self.expected.nodes.keys().rev().find(|n| n.letter == *letter) {
            Some(last) if last.numbers.len() == 1 => format!("its last {letter} is {last}"),
            Some(_) => format!("its last row or place of {letter} comes before that"),
            None => format!("it has no ring {letter}"),
        }
    }

    /// Whether a ring is on the tie when the first of all is woven in; that not all are that should be was said there.
    pub(super) fn on_the_tie(&self, ring: NodeIndex) -> bool {
        self.there.is_empty() && (!self.threaded.is_empty() || self.threaded.contains(&self.expected.name(ring)))
    }
}
