//! Whether a ring that instructions weave in passes the rings the weave has it pass, and the same way.

use super::becomes::would_be;
use super::check::{CANNOT_BE_DONE, Checker, WRONG_RING, WRONG_WAY, span};
use super::told::{Name, Told, Woven};
use super::words::list;
use crate::report::Diagnostic;
use petgraph::graph::NodeIndex;
use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;

impl Checker<'_> {
    /// Which rings it passes, and which way.
    pub(super) fn goes(&mut self, woven: &Woven, ring: NodeIndex) {
        let right = self.expected.passes(ring, &self.there);
        let mut told: BTreeMap<NodeIndex, (Option<bool>, Range<usize>)> = BTreeMap::new();
        let mut strange: Option<Told<Name>> = None;
        for Told { what: (name, down), span } in &woven.passes {
            match self.expected.nodes.get(name) {
                Some(other) => drop(told.insert(*other, (*down, span.clone()))),
                None => strange = strange.or(Some(Told { what: name.clone(), span: span.clone() })),
            }
        }
        // What was found where it was told first is not found again; of an item one finding is enough.
        let known = |own: &Self| {
            let again = woven.again.as_ref().is_some_and(|again| own.spans.contains(again));
            again || own.items.contains(&woven.first) || own.items.contains(&woven.item)
        };
        if known(self) {
            return;
        }
        let at = |own: &Range<usize>| woven.again.clone().unwrap_or_else(|| own.clone());
        let extra: Vec<NodeIndex> = told.keys().filter(|r| !right.contains_key(*r)).copied().collect();
        let missing: Vec<NodeIndex> = right.keys().filter(|r| !told.contains_key(*r)).copied().collect();
        let name = |r: &NodeIndex| self.expected.name(*r).to_string();
        let names = |all: &[NodeIndex]| list(&all.iter().map(name).collect::<Vec<_>>());
        let own = &woven.ring.what;
        let wrong = if let Some(strange) = strange {
            Some((
                WRONG_RING,
                at(&strange.span),
                format!(
                    "{own} is sent through {}, which is not in this piece; {}",
                    strange.what,
                    self.last_of(&strange.what)
                ),
                "no such ring",
            ))
        } else if let Some(first) = extra.first() {
            let place = told.get(first).map_or_else(|| woven.ring.span.clone(), |(_, s)| s.clone());
            let there =
                if missing.is_empty() { String::new() } else { format!(", and not through {}", names(&missing)) };
            let message = format!(
                "{own} is sent through {}{there}; in the weave it passes {}",
                names(&extra),
                names(&right.keys().copied().collect::<Vec<_>>())
            );
            Some((WRONG_RING, at(&place), message, "another ring"))
        } else if !missing.is_empty() && !woven.unread {
            let place = woven.passes.first().map_or_else(|| woven.ring.span.clone(), |p| p.span.clone());
            let message = format!(
                "{own} is not sent through {}; in the weave it passes {}",
                names(&missing),
                names(&right.keys().copied().collect::<Vec<_>>())
            );
            Some((WRONG_RING, at(&place), message, "a ring is left out"))
        } else {
            self.wrong_way(woven, ring, &right, &told)
                .map(|(place, message)| (WRONG_WAY, at(&place), message, "the other way"))
        };
        let words = self.expected.right_words(ring, &self.there);
        if let Some((rule, place, message, label)) = wrong {
            self.items.insert(woven.item);
            let fix = self.fix(woven, &words);
            let becomes = would_be(self.expected, woven, ring, &right).map_or(String::new(), |b| format!("; {b}"));
            let finding = Diagnostic::error(rule, span(&place), message + &becomes).label(label);
            let help = fix.is_none().then(|| format!("the right words: “{words}”"));
            self.add(&place, Diagnostic { help, fix, ..finding });
            return;
        }
        self.picks(woven, &right);
    }

    /// A change of text that puts the right words where the wrong ones are.
    fn fix(&self, woven: &Woven, words: &str) -> Option<crate::report::Fix> {
        if woven.again.is_some() {
            return None;
        }
        let mut places: Vec<Range<usize>> = woven.passes.iter().map(|p| p.span.clone()).collect();
        places.extend(woven.pairs.iter().map(|p| p.span.clone()));
        places.sort_by_key(|r| (r.start, r.end));
        places.dedup();
        // Sentences that say other things as well are left to the writer.
        let also = |r: &Range<usize>| {
            *r == woven.ring.span || woven.picks.iter().any(|p| p.span == *r) || woven.lays.iter().any(|l| l.span == *r)
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
        Some(crate::report::Fix { title: format!("write “{words}”"), edits: edits.collect(), safe: false })
    }

    /// Where a ring that passes the right rings passes them otherwise than the weave does.
    fn wrong_way(
        &self,
        woven: &Woven,
        ring: NodeIndex,
        right: &BTreeMap<NodeIndex, i8>,
        told: &BTreeMap<NodeIndex, (Option<bool>, Range<usize>)>,
    ) -> Option<(Range<usize>, String)> {
        // Whether a ring is passed as in the weave; which end the new ring is threaded from does not matter.
        let as_told = |r: &NodeIndex, down: bool| right.get(r).map(|sign| if down { *sign } else { -*sign });
        let mut ways: BTreeMap<NodeIndex, i8> = BTreeMap::new();
        for (other, (down, _)) in told {
            if let Some(down) = down {
                ways.insert(*other, as_told(other, *down)?);
            }
        }
        let turned = ways.values().filter(|w| **w < 0).count() * 2 > ways.len();
        let odd: Vec<NodeIndex> = ways.iter().filter(|(_, w)| (**w < 0) != turned).map(|(r, _)| *r).collect();
        if let Some(first) = odd.first() {
            let signs = right.iter().map(|(r, sign)| (*r, if odd.contains(r) { -*sign } else { *sign })).collect();
            if !self.expected.same_with(ring, &signs) {
                let (down, place) = told.get(first)?;
                let way = if *down == Some(true) { ["down", "up"] } else { ["up", "down"] };
                let rings = list(&odd.iter().map(|r| self.expected.name(*r).to_string()).collect::<Vec<_>>());
                let rest: Vec<String> =
                    ways.keys().filter(|r| !odd.contains(r)).map(|r| self.expected.name(*r).to_string()).collect();
                let with = if rest.is_empty() { String::new() } else { format!(", with {} as told", list(&rest)) };
                return Some((
                    place.clone(),
                    format!(
                        "{} goes {} through {rings} here; in the weave it goes {} there{with}",
                        woven.ring.what, way[0], way[1]
                    ),
                ));
            }
        }
        // Pairs, where it is not said which way: through is one way, around is in by the one and out by the other.
        for Told { what: (one, other, one_way), span } in &woven.pairs {
            let (a, b) = (self.expected.nodes.get(one)?, self.expected.nodes.get(other)?);
            let same = right.get(a)? == right.get(b)?;
            if same == *one_way {
                continue;
            }
            let signs = right.iter().map(|(r, sign)| (*r, if r == b { -*sign } else { *sign })).collect();
            if !self.expected.same_with(ring, &signs) {
                let said = if *one_way { ["through", "around"] } else { ["around", "through"] };
                return Some((
                    span.clone(),
                    format!(
                        "{} goes {} the eye of {one} and {other}; the weave goes {} it",
                        woven.ring.what, said[0], said[1]
                    ),
                ));
            }
        }
        None
    }

    /// Closed rings that come in with it.
    fn picks(&mut self, woven: &Woven, right: &BTreeMap<NodeIndex, i8>) {
        if woven.again.is_some() {
            return;
        }
        let fresh: BTreeSet<NodeIndex> = right.keys().filter(|r| !self.there.contains(r)).copied().collect();
        let told: BTreeMap<NodeIndex, Range<usize>> =
            woven.picks.iter().filter_map(|p| Some((*self.expected.nodes.get(&p.what)?, p.span.clone()))).collect();
        if let Some((ring, at)) = told.iter().find(|(r, _)| !fresh.contains(r)) {
            let message = format!("{} is in the work already, and cannot be picked up", self.expected.name(*ring));
            self.items.insert(woven.item);
            self.find(CANNOT_BE_DONE, at, message, "not loose");
        } else if let Some(ring) = fresh.iter().find(|r| !told.contains_key(*r) && !self.on_the_tie(**r)) {
            let name = self.expected.name(*ring);
            let place = woven
                .passes
                .iter()
                .find(|p| p.what.0 == name)
                .map_or_else(|| woven.ring.span.clone(), |p| p.span.clone());
            self.items.insert(woven.item);
            let finding = Diagnostic::error(CANNOT_BE_DONE, span(&place), format!("{name} is not in the work yet"));
            self.add(&place, finding.label("not there").help(format!("first say “Pick up {name}.”")));
        }
    }
}
