//! Whether what instructions say of the work is so: counts of rings, what is on the tie, the lean.

use super::check::{CANNOT_BE_DONE, Checker, MISCOUNTED, WRONG_LEAN};
use super::events::{Claim, Claimed, InText, Name, Need, Woven};
use super::read::Reading;
use crate::notation::{Hand, State};
use crate::text;
use std::collections::BTreeSet;
use std::ops::Range;

impl Checker<'_> {
    /// How many rings of a letter the piece has, closed or open.
    fn count(&self, letter: &str, state: State) -> usize {
        let nodes = self.expected.nodes.iter().filter(|(name, _)| name.letter == letter);
        nodes.filter(|(_, node)| self.expected.closed(**node) == (state == State::Closed)).count()
    }

    /// The list of what is needed, against the piece.
    pub(super) fn needs(&mut self, reading: &Reading) {
        for InText { what: Need { count, letter, state }, span: at } in &reading.needs {
            let right = self.count(letter, *state);
            let state = state.word();
            if !self.expected.nodes.keys().any(|n| n.letter == *letter) {
                let message =
                    format!("the list has rings `{letter}`; {} has no such rings", self.expected.weave.name());
                self.find(MISCOUNTED, at, message, "not in the weave");
            } else if right != *count && self.doubtful.is_empty() {
                let said = text::count(*count, &format!("{state} ring"));
                let message = format!("the list says {said} `{letter}`; the piece needs {right}");
                self.find(MISCOUNTED, at, message, &format!("{right} {state} rings {letter}"));
            }
        }
    }

    /// A statement on the work. `next`: the ring that is woven in after it.
    pub(super) fn claim(&mut self, claimed: &Claimed, next: Option<&Woven>) {
        let Claimed { claim: InText { what, span: at }, item, .. } = claimed;
        if let Claim::Threaded(names) = what {
            self.threaded.extend(names.iter().cloned());
        }
        // What cannot be done there was found already.
        if self.items.contains(item) && !matches!(what, Claim::Repeated(_)) {
            return;
        }
        match what {
            Claim::Closed(count, letter) => self.closed_beforehand(*count, letter, at),
            Claim::Rings(count) => {
                let right = self.there.len();
                if right != *count && !self.doubtful.iter().any(|r| r.start < at.start) {
                    let message = format!("the text says {}; the work has {right}", text::count(*count, "ring"));
                    self.find(MISCOUNTED, at, message, "another number");
                }
            }
            Claim::Dangles(name) => self.dangles(name, at),
            Claim::Threaded(names) => self.threaded(names, next, at),
            Claim::Leans(hand) => self.leans(*hand, at),
            Claim::Repeated(until) => self.repeated(until.as_ref(), next),
        }
    }

    fn closed_beforehand(&mut self, count: usize, letter: &str, at: &Range<usize>) {
        let right = self.count(letter, State::Closed);
        // How large the piece is, what was not read may say.
        if right != count && self.doubtful.is_empty() {
            let said = text::count(count, "ring");
            let message = format!("the text closes {said} `{letter}` beforehand; the piece has {right}");
            self.find(MISCOUNTED, at, message, &format!("{right} rings {letter}"));
        }
    }

    fn dangles(&mut self, name: &Name, at: &Range<usize>) {
        let ring = self.expected.nodes.get(name).copied();
        let held = |r| self.expected.piece.graph.neighbors(r).filter(|n| self.there.contains(n)).count();
        let held = ring.map_or(0, held);
        if held != 1 {
            let message = format!("{name} is held by {} here, so it does not dangle", text::count(held, "ring"));
            self.find(MISCOUNTED, at, message, "it does not dangle");
        }
    }

    fn threaded(&mut self, names: &[Name], next: Option<&Woven>, at: &Range<usize>) {
        let first = next.and_then(|n| self.expected.nodes.get(&n.ring.what));
        let right: BTreeSet<Name> = match first {
            Some(ring) => self.expected.passes(*ring, &BTreeSet::new()).into_keys().collect(),
            None => self.expected.order.start(),
        }
        .into_iter()
        .map(|ring| self.expected.name(ring))
        .collect();
        let closed = |name: &Name| self.expected.nodes.get(name).is_some_and(|ring| self.expected.closed(*ring));
        if let Some(missing) = right.iter().find(|r| !names.contains(r)) {
            let message = format!("{missing} is not on the tie; the first ring goes through it");
            self.find(CANNOT_BE_DONE, at, message, "a ring is left out");
        } else if let Some(odd) = names.iter().find(|n| !right.contains(*n) && !closed(n)) {
            let message = format!("{odd} is not a closed ring of this piece");
            self.find(CANNOT_BE_DONE, at, message, "not a closed ring");
        }
    }

    fn leans(&mut self, said: Hand, at: &Range<usize>) {
        let lean = self.expected.settled.and_then(|settled| settled.lean);
        if let Some(lean) = lean.filter(|lean| *lean != said) {
            let message = format!("the text says the eyes lean {}; they lean {}", said.word(), lean.word());
            self.find(WRONG_LEAN, at, message, "the other way");
        }
    }

    /// What could not be repeated is taken as done: up to the ring it names, or to the next that is told.
    fn repeated(&mut self, until: Option<&Name>, next: Option<&Woven>) {
        let step = |name: &Name| self.expected.nodes.get(name).and_then(|r| self.expected.steps.get(r)).copied();
        let before_next = next.and_then(|n| step(&n.ring.what));
        let up_to = before_next.or_else(|| Some(step(until?)? + 1)).unwrap_or(0);
        let rings: Vec<_> = self.expected.order.steps.iter().take(up_to).map(|s| s.ring).collect();
        for ring in rings {
            if !self.there.contains(&ring) {
                self.enter(ring);
            }
        }
    }
}
