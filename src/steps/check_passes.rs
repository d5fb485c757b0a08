//! Whether a ring that instructions weave in passes the rings the weave has it pass, and the same way.

use super::check::{CANNOT_BE_DONE, Checker, WRONG_RING, WRONG_WAY, span};
use super::events::{ByPair, Direction, InText, Name, Passed, PassedPair, Woven};
use super::would_make::would_be;
use crate::report::{Diagnostic, Fix};
use petgraph::graph::NodeIndex;
use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;

/// Links of one ring where all fronts face the maker: with which ring, and their signs.
type Links = BTreeMap<NodeIndex, i8>;

/// The rings of the piece that a ring passes, as the text has it.
type ToldPasses = BTreeMap<NodeIndex, InText<Option<Direction>>>;

/// What is wrong with how a ring goes.
struct WrongPass {
    rule: &'static str,
    at: Range<usize>,
    message: String,
    label: &'static str,
}

impl Checker<'_> {
    /// Which rings it passes, and which way.
    pub(super) fn passes(&mut self, woven: &Woven, ring: NodeIndex) {
        // What was found where it was told first is not found again; of an item one finding is enough.
        let again = woven.repeated.as_ref().is_some_and(|here| self.spans.contains(&here.span));
        if again || self.items.contains(&woven.item) || self.items.contains(&woven.item_told()) {
            return;
        }
        let right = self.expected.passes(ring, &self.there);
        let Some(wrong) = self.wrong_pass(woven, ring, &right) else { return self.picks(woven, &right) };
        self.items.insert(woven.item_told());
        let words = self.expected.right_words(ring, &self.there);
        let fix = self.fix(woven, &words);
        let help = fix.is_none().then(|| format!("the right words: “{words}”"));
        let made = would_be(self.expected, woven, ring, &right).map_or(String::new(), |made| format!("; {made}"));
        let WrongPass { rule, at, message, label } = wrong;
        let finding = Diagnostic::error(rule, span(&at), message + &made).label(label);
        self.add(&at, Diagnostic { help, fix, ..finding });
    }

    /// The first thing that is wrong: a ring that does not exist, another ring, a ring left out, another way.
    fn wrong_pass(&self, woven: &Woven, ring: NodeIndex, right: &Links) -> Option<WrongPass> {
        let own = &woven.ring.what;
        // Of what is told again the sentence that has it done again is wrong.
        let at = |sentence: &Range<usize>| woven.repeated.as_ref().map_or(sentence, |here| &here.span).clone();
        let wrong_ring = |sentence: &Range<usize>, message: String, label| {
            Some(WrongPass { rule: WRONG_RING, at: at(sentence), message, label })
        };
        let moves = &woven.moves;
        if let Some(strange) = moves.passes.iter().find(|p| !self.expected.nodes.contains_key(&p.what.ring)) {
            let name = &strange.what.ring;
            let message = format!("{own} goes through {name}, which is not in this piece; {}", self.last_of(name));
            return wrong_ring(&strange.span, message, "no such ring");
        }
        let told = self.told_passes(woven);
        let extra: Vec<NodeIndex> = told.keys().filter(|r| !right.contains_key(*r)).copied().collect();
        let missing: Vec<NodeIndex> = right.keys().filter(|r| !told.contains_key(*r)).copied().collect();
        let names = |rings: &[NodeIndex]| self.expected.names(rings.iter().copied());
        let in_the_weave = || format!("in the weave it goes through {}", self.expected.names(right.keys().copied()));
        if let Some(first) = extra.first() {
            let place = told.get(first).map_or(&woven.ring.span, |pass| &pass.span);
            let instead = if missing.is_empty() { String::new() } else { format!(" instead of {}", names(&missing)) };
            let message = format!("{own} goes through {}{instead}; {}", names(&extra), in_the_weave());
            return wrong_ring(place, message, "another ring");
        }
        if !missing.is_empty() && !moves.unread {
            let place = moves.passes.first().map_or(&woven.ring.span, |p| &p.span);
            let message = format!("{own} does not go through {}; {}", names(&missing), in_the_weave());
            return wrong_ring(place, message, "a ring is left out");
        }
        let wrong = self.wrong_direction(own, ring, right, &told).or_else(|| self.wrong_pair(woven, ring, right));
        let (place, message) = wrong?;
        Some(WrongPass { rule: WRONG_WAY, at: at(&place), message, label: "the other way" })
    }

    /// The rings of the piece that a ring passes, as the text has it.
    fn told_passes(&self, woven: &Woven) -> ToldPasses {
        let told = woven.moves.passes.iter().filter_map(|InText { what: Passed { ring, direction }, span }| {
            Some((*self.expected.nodes.get(ring)?, InText { what: *direction, span: span.clone() }))
        });
        told.collect()
    }

    /// A change of text that puts the right words where the wrong ones are.
    fn fix(&self, woven: &Woven, words: &str) -> Option<Fix> {
        if woven.repeated.is_some() {
            return None;
        }
        let moves = &woven.moves;
        let mut places: Vec<Range<usize>> = moves.passes.iter().map(|p| p.span.clone()).collect();
        places.extend(moves.pairs.iter().map(|p| p.span.clone()));
        places.sort_by_key(|r| (r.start, r.end));
        places.dedup();
        // Sentences that say other things as well are left to the writer.
        let also = |r: &Range<usize>| {
            *r == woven.ring.span || moves.picks.iter().any(|p| p.span == *r) || moves.lies.iter().any(|l| l.span == *r)
        };
        if places.is_empty() || places.iter().any(also) {
            return None;
        }
        // A sentence that goes takes the blank before it along.
        let gone = |r: &Range<usize>| match r.start.checked_sub(1) {
            Some(before) if self.text.get(before..r.start) == Some(" ") => before..r.end,
            _ => r.clone(),
        };
        let edits = places.iter().enumerate();
        let edits =
            edits.map(|(n, r)| if n == 0 { (span(r), words.to_owned()) } else { (span(&gone(r)), String::new()) });
        // Whether the step or the weave is wrong is for the writer to say.
        Some(Fix { title: format!("write “{words}”"), edits: edits.collect(), safe: false })
    }

    /// Where a ring that passes the right rings goes down where the weave goes up, or the other way round. From which end it
    /// is threaded makes no difference: what counts is which rings it passes another way than the others.
    fn wrong_direction(
        &self,
        own: &Name,
        ring: NodeIndex,
        right: &Links,
        told: &ToldPasses,
    ) -> Option<(Range<usize>, String)> {
        let mut as_in_the_weave: BTreeMap<NodeIndex, bool> = BTreeMap::new();
        for (other, pass) in told {
            if let Some(direction) = pass.what {
                as_in_the_weave.insert(*other, *right.get(other)? == direction.sign());
            }
        }
        let same = as_in_the_weave.values().filter(|same| **same).count();
        let from_this_end = 2 * same >= as_in_the_weave.len();
        let (fine, odd): (Vec<NodeIndex>, Vec<NodeIndex>) =
            as_in_the_weave.keys().copied().partition(|r| as_in_the_weave.get(r) == Some(&from_this_end));
        let pass = told.get(odd.first()?)?;
        let turned = right.iter().map(|(r, sign)| (*r, if odd.contains(r) { -*sign } else { *sign })).collect();
        if self.expected.same_with(ring, &turned) {
            return None;
        }
        let direction = pass.what?;
        let rest = match fine.len() {
            0 => String::new(),
            1 => format!(" ({} is right)", self.expected.names(fine)),
            _ => format!(" ({} are right)", self.expected.names(fine)),
        };
        let message = format!(
            "{own} goes {} through {}; in the weave it goes {}{rest}",
            direction.word(),
            self.expected.names(odd),
            direction.other().word()
        );
        Some((pass.span.clone(), message))
    }

    /// Where a ring goes through an eye instead of around it, or the other way round, and the text says neither down nor up.
    fn wrong_pair(&self, woven: &Woven, ring: NodeIndex, right: &Links) -> Option<(Range<usize>, String)> {
        for InText { what: PassedPair { one, other, goes }, span } in &woven.moves.pairs {
            let (a, b) = (self.expected.nodes.get(one)?, self.expected.nodes.get(other)?);
            if ByPair::of_signs(*right.get(a)?, *right.get(b)?) == *goes {
                continue;
            }
            let turned = right.iter().map(|(r, sign)| (*r, if r == b { -*sign } else { *sign })).collect();
            if !self.expected.same_with(ring, &turned) {
                let (own, told, right) = (&woven.ring.what, goes.word(), goes.other().word());
                let message =
                    format!("{own} goes {told} the eye of {one} and {other}; in the weave it goes {right} it");
                return Some((span.clone(), message));
            }
        }
        None
    }

    /// Closed rings that come in with it.
    fn picks(&mut self, woven: &Woven, right: &Links) {
        if woven.repeated.is_some() {
            return;
        }
        let fresh: BTreeSet<NodeIndex> = right.keys().filter(|r| !self.there.contains(r)).copied().collect();
        let moves = &woven.moves;
        let told: BTreeMap<NodeIndex, Range<usize>> =
            moves.picks.iter().filter_map(|p| Some((*self.expected.nodes.get(&p.what)?, p.span.clone()))).collect();
        if let Some((ring, at)) = told.iter().find(|(r, _)| !fresh.contains(r)) {
            let name = self.expected.name(*ring);
            self.items.insert(woven.item_told());
            self.find(
                CANNOT_BE_DONE,
                at,
                format!("{name} is already in the work, so it cannot be picked up"),
                "not loose",
            );
        } else if let Some(ring) = fresh.iter().find(|r| !told.contains_key(*r) && !self.on_the_tie(**r)) {
            let name = self.expected.name(*ring);
            let place = moves.passed(&name).map_or(&woven.ring.span, |p| &p.span).clone();
            self.items.insert(woven.item_told());
            let finding = Diagnostic::error(CANNOT_BE_DONE, span(&place), format!("{name} is not in the work yet"));
            self.add(&place, finding.label("not there").help(format!("first say “Pick up {name}.”")));
        }
    }
}
