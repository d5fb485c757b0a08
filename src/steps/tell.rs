//! The sentences of every step.

use super::colours::sorting;
use super::directions::Directions;
use super::events::Direction;
use super::order::{Order, Step};
use super::parts::Part;
use super::words::{number, ring_name, rings};
use super::write::{Item, MOST_ITEMS, NotTold};
use crate::pattern::{FamilyId, Lattice, Lies, Meet, Sense, Shift, Target};
use crate::rings::Piece;
use crate::settle::Settled;
use crate::text::{count, list};
use crate::weave::Weave;
use petgraph::graph::NodeIndex;
use std::collections::BTreeMap;

/// Items as they are told.
pub(super) struct Teller<'t> {
    weave: &'t Weave,
    piece: &'t Piece,
    order: &'t Order,
    directions: Directions,
    pub items: Vec<Item>,
    /// How many links every ring in the work has so far.
    there: BTreeMap<NodeIndex, usize>,
    /// Whether a ring that dangles was pointed out.
    dangled: bool,
}

impl<'t> Teller<'t> {
    pub fn of(weave: &'t Weave, settled: Option<&Settled>, piece: &'t Piece, order: &'t Order) -> Self {
        Self {
            weave,
            piece,
            order,
            directions: Directions::of(weave, settled, piece, order),
            items: Vec::new(),
            there: BTreeMap::new(),
            dangled: false,
        }
    }

    fn place(&self, ring: NodeIndex) -> (FamilyId, Shift) {
        let ring = &self.piece.graph[ring];
        (ring.family, ring.at)
    }

    fn name(&self, ring: NodeIndex) -> String {
        let (family, at) = self.place(ring);
        ring_name(self.weave.pattern(), family, at)
    }

    fn names(&self, all: &[NodeIndex]) -> String {
        rings(self.weave.pattern(), &all.iter().map(|r| self.place(*r)).collect::<Vec<_>>())
    }

    /// What is done before the first ring is woven in.
    pub fn begin(&mut self) {
        let mut closed: BTreeMap<FamilyId, usize> = BTreeMap::new();
        for ring in &self.order.closed {
            *closed.entry(self.place(*ring).0).or_insert(0) += 1;
        }
        let name = |family: FamilyId| self.weave.pattern().family_name(family);
        let words: Vec<String> =
            closed.iter().map(|(family, rings)| format!("{} {}", count(*rings, "ring"), name(*family))).collect();
        if !words.is_empty() {
            self.say(format!("Close {}.", list(&words, "and")), None, false);
        }
        let sorting = sorting(self.weave.pattern(), self.piece);
        if !sorting.is_empty() {
            self.say(sorting.join(" "), None, false);
        }
        let start = self.order.start();
        if !start.is_empty() {
            self.say(format!("Thread {} on a tie.", self.names(&start)), None, false);
        }
    }

    fn say(&mut self, words: String, step: Option<usize>, accent: bool) {
        self.items.push(Item { words, step, accent });
    }

    /// Tells a part of the work: of repeated steps the first round, and how it goes on.
    pub fn part(&mut self, part: &Part, deep: usize) -> Result<(), NotTold> {
        if self.items.len() > MOST_ITEMS {
            return Err(NotTold::TooLong(self.order.steps.len()));
        }
        if part.times == 1 {
            if let Some(step) = self.order.steps.get(part.first) {
                let words = self.step(step, deep > 0);
                self.say(words, Some(part.first), step.accent.is_some());
            }
            return Ok(());
        }
        let from = self.items.len() + 1;
        for inner in &part.round {
            self.part(inner, deep + 1)?;
        }
        let to = self.items.len();
        let ring = |step: usize| self.order.steps.get(step).map(|s| s.ring);
        let (Some(first), Some(next)) = (ring(part.first), ring(part.first + part.steps)) else { return Ok(()) };
        let Some(last) = ring(part.first + part.steps * part.times - 1) else { return Ok(()) };
        let which = if from == to { format!("step {from}") } else { format!("steps {from} to {to}") };
        let times = match part.times - 1 {
            1 => "once more".to_owned(),
            n => format!("another {} times", number(n)),
        };
        let words =
            format!("Repeat {which} {times}, each time {}, until {} is closed.", self.on(first, next), self.name(last));
        // Those rings are there now as well.
        let steps = self.order.steps.iter().skip(part.first + part.steps).take(part.steps * (part.times - 1));
        for step in steps {
            came(&mut self.there, step);
        }
        let accent = self.order.steps.get(part.first).is_some_and(|s| s.accent.is_some());
        self.say(words, None, accent);
        Ok(())
    }

    /// How far on the next round is from the one before.
    fn on(&self, first: NodeIndex, next: NodeIndex) -> String {
        let (from, to) = (self.place(first).1, self.place(next).1);
        let apart = to - from;
        let count = |n: i32, one: &str| {
            let n = usize::try_from(n.unsigned_abs()).unwrap_or(0);
            if n == 1 { format!("one {one}") } else { format!("{} {one}s", number(n)) }
        };
        if self.weave.pattern().lattice == Lattice::Chain {
            return format!("{} further on", count(apart.row, "place"));
        }
        let down = format!("{} {}", count(apart.row, "row"), if apart.row < 0 { "up" } else { "down" });
        let aside =
            format!("{} to the {}", count(apart.column, "place"), if apart.column < 0 { "left" } else { "right" });
        match apart {
            Shift { row: 0, .. } => aside,
            Shift { column: 0, .. } => down,
            _ => format!("{down} and {aside}"),
        }
    }

    /// The sentences of a step.
    fn step(&mut self, step: &Step, goes_on: bool) -> String {
        let name = self.name(step.ring);
        let mut all: Vec<String> = Vec::new();
        if step.passes.is_empty() {
            all.push(format!("Close {name}."));
        } else {
            all.push(format!("Open {name}."));
            let fresh: Vec<NodeIndex> = step.picked_up().collect();
            let begins = fresh.len() == step.passes.len();
            // The first of all are on the tie.
            if !(fresh.is_empty() || begins && self.there.is_empty()) {
                all.push(format!("Pick up {}.", self.names(&fresh)));
            }
            let (before, after) = self.stays(step);
            all.extend(before);
            all.extend(self.goes(step));
            all.extend(after);
            all.push(format!("Close {name}."));
        }
        let first = self.there.is_empty();
        came(&mut self.there, step);
        if first && !step.passes.is_empty() {
            all.push(format!("Now {} hang together.", number(self.there.len()) + " rings"));
        }
        let dangles: Vec<NodeIndex> = step.picked_up().collect();
        let dangles: Vec<NodeIndex> = dangles.into_iter().filter(|r| self.there.get(r) == Some(&1)).collect();
        if goes_on && !self.dangled && !dangles.is_empty() {
            self.dangled = true;
            let verb = if dangles.len() == 1 { "dangles" } else { "dangle" };
            let each = if dangles.len() == 1 { "" } else { " each" };
            all.push(format!("{} {verb}, held by one ring{each}.", capital(&self.names(&dangles))));
        }
        all.join(" ")
    }

    /// Which way its ring goes, in the order of the text.
    pub fn goes(&self, step: &Step) -> Vec<String> {
        let passes = self.directions.passes(self.piece, step);
        let mut all = Vec::new();
        for run in passes.chunk_by(|a, b| a.1 == b.1) {
            let together: Vec<NodeIndex> = run.iter().map(|(ring, _)| *ring).collect();
            let go = if run.iter().any(|(_, direction)| *direction == Direction::Down) { "Go down" } else { "Come up" };
            let eye = if self.is_eye(&together) { "the eye of " } else { "" };
            all.push(format!("{go} through {eye}{}.", self.names(&together)));
        }
        all.extend(self.around(step));
        all
    }

    /// Whether the text speaks of two rings as an eye.
    fn is_eye(&self, together: &[NodeIndex]) -> bool {
        let [one, other] = together else { return false };
        let (one, other) = (self.place(*one), self.place(*other));
        let same = |a: &Target, b: &Target| {
            let on = other.1 - one.1;
            (a.family, b.family) == (one.0, other.0) && on == b.offset - a.offset
        };
        let meets = self.weave.pattern().passes.iter().flat_map(|p| &p.meets).filter(|m| m.eye);
        meets.filter_map(|m| Some((m.at.first()?, m.at.get(1)?))).any(|(a, b)| same(a, b) || same(b, a))
    }

    /// "It goes around the eye of a1 and a2", where the text says so and both rings are there.
    fn around(&self, step: &Step) -> Vec<String> {
        let own = self.place(step.ring);
        let passes = self.weave.pattern().passes.iter().filter(|p| p.family == own.0);
        let meets = passes.flat_map(|p| &p.meets).filter(|m| m.eye && m.sense == Sense::Around);
        let there = |target: &Target| {
            let at = (target.family, own.1 + target.offset);
            step.passes.iter().map(|p| p.ring).find(|r| self.place(*r) == at)
        };
        let eye = |meet: &Meet| meet.at.iter().map(there).collect::<Option<Vec<_>>>();
        meets.filter_map(eye).map(|both| format!("It goes around the eye of {}.", self.names(&both))).collect()
    }

    /// How rings lie: what is done before the ring goes in, and what after.
    fn stays(&self, step: &Step) -> (Vec<String>, Vec<String>) {
        let (mut before, mut after) = (Vec::new(), Vec::new());
        let own = self.place(step.ring);
        for stay in &step.stays {
            let Some(lying) = self.weave.pattern().lying.get(stay.statement) else { continue };
            let place = |t: &Target| (t.family, stay.at + t.offset);
            let name = |t: &Target| ring_name(self.weave.pattern(), place(t).0, place(t).1);
            let both = |a: &Target, b: &Target| rings(self.weave.pattern(), &[place(a), place(b)]);
            let mentions = |all: &[&Target]| all.iter().any(|t| place(t) == own);
            let came = |all: &[&Target]| step.came().any(|ring| all.iter().any(|t| place(t) == self.place(ring)));
            match &lying.lies {
                Lies::Behind(a, b) => {
                    let words = format!("Lay {} behind {}.", name(a), name(b));
                    if mentions(&[a, b]) { after.push(words) } else { before.push(words) }
                }
                Lies::Over(a, b) => after.push(format!("Keep {} over {}.", name(a), name(b))),
                Lies::Between(r, a, b) => after.push(format!("{} lies between {}.", capital(&name(r)), both(a, b))),
                Lies::Folded(a, b) => {
                    let words = format!("Fold {} back.", both(a, b));
                    if came(&[a, b]) { after.push(words) } else { before.push(words) }
                }
                Lies::On(r, side) => after.push(format!("Keep {} on the {} side.", name(r), side.word())),
                Lies::Turning(_) => {}
            }
        }
        (before, after)
    }

    /// What to look at when all is done.
    pub fn finish(&mut self, settled: Option<&Settled>) {
        let mut words = format!("Now all {} hang together.", count(self.there.len(), "ring"));
        if let Some(lean) = settled.and_then(|s| s.lean) {
            words.push_str(&format!(" The eyes lean to the {}.", lean.word()));
        }
        let accent = self.items.last().is_some_and(|i| i.accent);
        self.say(words, None, accent);
    }
}

/// Counts what comes into the work with a step, and its links.
fn came(there: &mut BTreeMap<NodeIndex, usize>, step: &Step) {
    there.insert(step.ring, step.passes.len());
    for pass in &step.passes {
        *there.entry(pass.ring).or_insert(0) += 1;
    }
}

/// A sentence begins with a capital; a ring's name keeps its letter.
fn capital(words: &str) -> String {
    match words.strip_prefix("ring") {
        Some(rest) if rest.starts_with([' ', 's']) => format!("Ring{rest}"),
        _ => words.to_owned(),
    }
}
