//! Instructions held against the weave they claim to make, ring by ring. Every step is checked as if all before it had been
//! right, so that one mistake gives one finding.

use super::becomes::would_lie;
use super::expected::Expected;
use super::follow::follow_with;
use super::read::{Reading, read};
use super::told::{Claim, Claimed, Fault, Lies, Name, Told, Woven};
use super::words::{counted, list};
use crate::notation::{Hand, State};
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
/// A ring is said to lie where it does not.
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
/// be held against: its own findings come first.
pub fn check(weave: &Weave, settled: Option<&Settled>, text: &str) -> Checked {
    let reading = read(text);
    let work = follow_with(&reading, letters(weave));
    let unread = work.unread.iter().map(|(_, range)| span(range)).collect();
    let sentences = reading.items.iter().map(|i| i.sentences.len()).sum();
    let mut size = None;
    let findings = match Expected::of(weave, settled, &reading, &work) {
        Some(expected) if sentences > 0 => {
            size = Some(expected.piece.size);
            let told: BTreeSet<Name> = work.woven.iter().map(|w| w.ring.what.clone()).collect();
            let mut checker = Checker {
                text,
                expected: &expected,
                there: BTreeSet::new(),
                told,
                findings: Vec::new(),
                items: BTreeSet::new(),
                spans: Vec::new(),
                threaded: BTreeSet::new(),
                numbered: reading
                    .items
                    .iter()
                    .filter_map(|i| Some((i.sentences.first()?.span.start..i.sentences.last()?.span.end, i.number)))
                    .collect(),
                doubtful: work.unread.iter().map(|(_, r)| r.clone()).filter(|r| may_weave(text, r)).collect(),
                begin: reading.items.iter().flat_map(|i| &i.sentences).next().map_or(0..0, |s| s.span.clone()),
            };
            checker.needs(&reading);
            checker.faults(&work.faults);
            checker.work(&work.woven, &work.claims);
            checker.findings
        }
        _ => Vec::new(),
    };
    let mut checked = Checked { findings, unread, sentences, size, reading };
    checked.findings.sort_by_key(|f| (f.span.start, f.span.end, f.rule));
    checked
}

/// The letters of the closed and of the open rings of a chain's base, where there is one of each; `None` where rings are no
/// chain, and so not counted off.
pub fn letters(weave: &Weave) -> Option<[Option<String>; 2]> {
    let of_state = |state| {
        let mut own = weave.pattern().families.iter().filter(|f| f.state == state && f.accent.is_none());
        own.next().filter(|_| own.next().is_none()).map(|f| f.name.value.clone())
    };
    (weave.pattern().lattice == Lattice::Chain).then(|| [State::Closed, State::Open].map(of_state))
}

pub(super) fn span(range: &Range<usize>) -> Span {
    let [start, end] = [range.start, range.end].map(|at| u32::try_from(at).unwrap_or(u32::MAX));
    Span { source: 0, start, end }
}

pub(super) struct Checker<'c> {
    pub(super) text: &'c str,
    pub(super) expected: &'c Expected<'c>,
    /// The rings in the work, had all been done right.
    pub(super) there: BTreeSet<NodeIndex>,
    /// Every ring that is woven in anywhere in the text.
    pub(super) told: BTreeSet<Name>,
    pub(super) findings: Vec<Diagnostic>,
    /// Items of which it is known already that rings go wrong in them.
    pub(super) items: BTreeSet<usize>,
    /// Sentences that are wrong: what is told again is not found again.
    pub(super) spans: Vec<Range<usize>>,
    /// Rings on the tie with which the work begins.
    pub(super) threaded: BTreeSet<Name>,
    /// Where the items stand, and their numbers.
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

    /// The number of the item in which something stands.
    fn step_at(&self, at: &Range<usize>) -> Option<usize> {
        let next = self.numbered.partition_point(|(item, _)| item.start <= at.start);
        let (item, number) = self.numbered.get(next.checked_sub(1)?)?;
        (at.start < item.end).then_some(*number)
    }

    fn count(&self, letter: &str, closed: bool) -> usize {
        let nodes = self.expected.nodes.iter();
        nodes.filter(|(name, node)| name.0 == letter && self.expected.closed(**node) == closed).count()
    }

    /// The list of what is needed, against the piece.
    fn needs(&mut self, reading: &Reading) {
        for Told { what: (count, letter, closed), span: at } in &reading.needs {
            let right = self.count(letter, *closed);
            let state = if *closed { "closed" } else { "open" };
            if !self.expected.nodes.keys().any(|n| n.0 == *letter) {
                self.find(
                    MISCOUNTED,
                    at,
                    format!("no ring of {} is called {letter}", self.expected.weave.name()),
                    "not in the weave",
                );
            } else if right != *count && self.doubtful.is_empty() {
                let message =
                    format!("{} {letter}, {state}, are listed, and the piece takes {right}", counted(*count, "ring"));
                self.find(MISCOUNTED, at, message, &format!("{right} {state} rings {letter}"));
            }
        }
    }

    /// What is wrong whatever came before.
    fn faults(&mut self, faults: &[Fault]) {
        for fault in faults.iter().filter(|f| !f.follows) {
            if self.items.insert(fault.item) {
                self.find(CANNOT_BE_DONE, &fault.span, fault.message.clone(), "this cannot be done");
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
    fn enter(&mut self, ring: NodeIndex) {
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
        let names: Vec<String> = missing.iter().map(|r| self.expected.name(*r).to_string()).collect();
        for ring in missing {
            self.enter(ring);
        }
        // Where no ring is woven in at all, nothing tells how.
        let Some(first) = names.first().filter(|_| !self.told.is_empty()) else { return };
        // What was not read between the two may have told them.
        let stands = |w: &Woven| w.again.clone().unwrap_or_else(|| w.ring.span.clone()).start;
        let (from, to) = (last.map_or(0, stands), next.map_or(usize::MAX, stands));
        if self.doubtful.iter().any(|r| r.start >= from && r.start < to) {
            return;
        }
        let which = if names.len() > 3 { format!("{} rings from {first} on", names.len()) } else { list(&names) };
        let (verb, it) = if names.len() == 1 { ("is", "it") } else { ("are", "them") };
        let at = last.map_or(self.begin.clone(), |w| w.again.clone().unwrap_or_else(|| w.ring.span.clone()));
        self.find(
            LEFT_OUT,
            &at,
            format!("{which} {verb} never woven in; the piece has {it}"),
            "the work stops short here",
        );
    }

    fn weave(&mut self, woven: &Woven, last: Option<&Woven>) {
        let at = woven.again.as_ref().unwrap_or(&woven.ring.span);
        let Some(ring) = self.expected.nodes.get(&woven.ring.what).copied() else {
            if !self.spans.contains(at) {
                let message = format!("{} is not in this piece; {}", woven.ring.what, self.last_of(&woven.ring.what));
                self.find(WRONG_RING, at, message, "no such ring");
            }
            return;
        };
        if let Some(step) = self.expected.steps.get(&ring) {
            self.left_out(*step, last, Some(woven));
        } else if !self.spans.contains(at) {
            self.find(
                CANNOT_BE_DONE,
                at,
                format!("{} is closed beforehand, and cannot be woven in", woven.ring.what),
                "closed",
            );
        }
        if self.there.contains(&ring) {
            let known = self.spans.contains(at) || self.items.contains(&woven.first);
            if !known && self.items.insert(woven.item) {
                self.find(CANNOT_BE_DONE, at, format!("{} is in the work already", woven.ring.what), "once more");
            }
            return;
        }
        self.goes(woven, ring);
        for lay in &woven.lays {
            self.lay(woven, lay);
        }
        self.enter(ring);
    }

    /// The last ring of a letter, in words.
    pub(super) fn last_of(&self, name: &Name) -> String {
        match self.expected.nodes.keys().rev().find(|n| n.0 == name.0) {
            Some(last) if last.1.len() == 1 => format!("its last {} is {last}", name.0),
            Some(_) => format!("its rows and places of {} end before", name.0),
            None => format!("no ring of it is called {}", name.0),
        }
    }

    /// Whether a ring is on the tie when the first of all is woven in; that not all are that should be was said there.
    pub(super) fn on_the_tie(&self, ring: NodeIndex) -> bool {
        self.there.is_empty() && (!self.threaded.is_empty() || self.threaded.contains(&self.expected.name(ring)))
    }

    /// How rings lie, where the weave says how.
    fn lay(&mut self, woven: &Woven, lay: &Told<Lies>) {
        if woven.again.is_some() {
            return;
        }
        let lies = &self.expected.lies;
        let right = match &lay.what {
            Lies::Behind(a, b) => [Lies::Behind(b.clone(), a.clone()), Lies::Over(a.clone(), b.clone())]
                .into_iter()
                .find(|l| lies.contains(l)),
            Lies::Over(a, b) => [Lies::Over(b.clone(), a.clone()), Lies::Behind(a.clone(), b.clone())]
                .into_iter()
                .find(|l| lies.contains(l)),
            Lies::Side(a, far) => Some(Lies::Side(a.clone(), !far)).filter(|l| lies.contains(l)),
            Lies::Between(a, all) => {
                let same = |l: &&Lies| matches!(l, Lies::Between(b, others) if b == a && !alike(others, all));
                lies.iter().find(same).cloned()
            }
            Lies::Folded(all) => {
                let told = |l: &Lies| matches!(l, Lies::Folded(others) if alike(others, all));
                let shares = |l: &&Lies| matches!(l, Lies::Folded(others) if others.iter().any(|o| all.contains(o)));
                if lies.iter().any(told) { None } else { lies.iter().find(shares).cloned() }
            }
        };
        if let Some(right) = right {
            let becomes = would_lie(self.expected, &lay.what).map_or(String::new(), |b| format!("; {b}"));
            let message = format!("{}; in the weave {}{becomes}", said(&lay.what), said(&right));
            self.find(LIES_OTHERWISE, &lay.span, message, "it lies otherwise");
        }
    }

    fn claim(&mut self, claimed: &Claimed, next: Option<&Woven>) {
        let Claimed { claim: Told { what, span: at }, item, .. } = claimed;
        if let Claim::Threaded(names) = what {
            self.threaded.extend(names.iter().cloned());
        }
        // What cannot be done there was said.
        if self.items.contains(item) && !matches!(what, Claim::Repeated(_)) {
            return;
        }
        match what {
            Claim::Closed(count, letter) => {
                let right = self.count(letter, true);
                // How large the piece is, what was not read may say.
                if right != *count && self.doubtful.is_empty() {
                    let message = format!(
                        "{} {letter} are closed beforehand, and the piece has {right}",
                        counted(*count, "ring")
                    );
                    self.find(MISCOUNTED, at, message, &format!("{right} rings {letter}"));
                }
            }
            Claim::Rings(count) => {
                let right = self.there.len();
                if right != *count && !self.doubtful.iter().any(|r| r.start < at.start) {
                    self.find(
                        MISCOUNTED,
                        at,
                        format!("{right} rings are in the work here, not {count}"),
                        "another number",
                    );
                }
            }
            Claim::Dangles(name) => {
                let ring = self.expected.nodes.get(name).copied();
                let held = ring
                    .map_or(0, |r| self.expected.piece.graph.neighbors(r).filter(|n| self.there.contains(n)).count());
                if held != 1 {
                    self.find(
                        MISCOUNTED,
                        at,
                        format!("{name} is held by {} here", counted(held, "ring")),
                        "it does not dangle",
                    );
                }
            }
            Claim::Threaded(names) => {
                let first = self.expected.order.start();
                let right: BTreeSet<Name> = match next.and_then(|n| self.expected.nodes.get(&n.ring.what)) {
                    Some(ring) => self
                        .expected
                        .passes(*ring, &BTreeSet::new())
                        .into_keys()
                        .map(|r| self.expected.name(r))
                        .collect(),
                    None => first.into_iter().map(|r| self.expected.name(r)).collect(),
                };
                if let Some(missing) = right.iter().find(|r| !names.contains(r)) {
                    self.find(
                        CANNOT_BE_DONE,
                        at,
                        format!("{missing} is not on the tie, and the first ring passes it"),
                        "a ring is left out",
                    );
                } else if let Some(odd) = names.iter().find(|n| {
                    !right.contains(*n) && !self.expected.nodes.get(*n).is_some_and(|r| self.expected.closed(*r))
                }) {
                    self.find(
                        CANNOT_BE_DONE,
                        at,
                        format!("{odd} is not a closed ring of this piece"),
                        "not a closed ring",
                    );
                }
            }
            Claim::LeansLeft(left) => {
                let lean = self.expected.settled.and_then(|s| s.lean);
                let word = |left: bool| if left { "left" } else { "right" };
                if let Some(lean) = lean.filter(|l| (*l == Hand::Left) != *left) {
                    let message = format!(
                        "the eyes are said to lean {}; as the weave settles they lean {}",
                        word(*left),
                        word(lean == Hand::Left)
                    );
                    self.find(WRONG_LEAN, at, message, "the other way");
                }
            }
            // What could not be repeated is taken as done: up to the ring it names, or to the next that is told.
            Claim::Repeated(until) => {
                let step =
                    |name: &Name| self.expected.nodes.get(name).and_then(|r| self.expected.steps.get(r)).copied();
                let up_to = next
                    .and_then(|n| step(&n.ring.what))
                    .or_else(|| until.as_ref().and_then(|u| step(u).map(|s| s + 1)));
                let steps =
                    self.expected.order.steps.iter().take(up_to.unwrap_or(0)).map(|s| s.ring).collect::<Vec<_>>();
                for ring in steps {
                    if !self.there.contains(&ring) {
                        self.enter(ring);
                    }
                }
            }
        }
    }
}

fn alike(one: &[Name], other: &[Name]) -> bool {
    one.iter().collect::<BTreeSet<_>>() == other.iter().collect::<BTreeSet<_>>()
}

/// How rings lie, in words.
fn said(lies: &Lies) -> String {
    let all = |names: &[Name]| list(&names.iter().map(ToString::to_string).collect::<Vec<_>>());
    match lies {
        Lies::Behind(a, b) => format!("{a} lies behind {b}"),
        Lies::Over(a, b) => format!("{a} lies over {b}"),
        Lies::Side(a, far) => format!("{a} lies on the {} side", if *far { "far" } else { "near" }),
        Lies::Between(a, others) => format!("{a} lies between {}", all(others)),
        Lies::Folded(others) => format!("{} are folded back", all(others)),
    }
}
