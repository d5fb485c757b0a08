//! In which order pairs of sizes are settled. Nothing in an answer but this order rests on these numbers.

use std::collections::{BTreeMap, BTreeSet};

use super::survey::Ratios;

/// The room that is looked for first, as a part of the wires: rings as close as they easily go.
pub(super) const SOUGHT: f64 = 0.06;
/// But no more than this part of the room the base has alone. In our trials an accent that takes up half of that was held
/// straight, and one that takes up less rocked. This and the numbers below: common practice, no source.
const OF_BASE: f64 = 0.5;
/// This much more or less room, as a part of the wires, counts as one.
const OFF_ROOM: f64 = 0.01;
/// Wires that differ by this part count as one: accents are chosen with wire like that of the base.
const OFF_WIRE: f64 = 0.1;
/// Where the base alone has more room than the whole by this part of the wires, its rings are larger than the accent needs.
/// Each such part beyond counts as one.
const OFF_BASE: f64 = 0.05;
/// This is added where a larger ring of the second kind would have as much room: it has space to rock in.
const OFF_FREE: f64 = 1.5;
/// Shapes of which both ratios together differ by less than this part are taken as equally near.
const NEAR: f64 = 0.03;

/// How a choice looks before it is settled.
#[derive(Clone, Copy, Debug)]
pub(super) struct Look {
    /// About how much room it has, as a part of the wires.
    pub room: f64,
    /// How much room the base has alone; that of the whole where it is not known.
    pub alone: f64,
    /// Wire of the second kind, divided by that of the first.
    pub wires: f64,
    /// Whether a larger ring of the second kind would have less room: it lies against its neighbours, which may hold it.
    pub held: bool,
}

impl Look {
    /// How far it is from what is looked for.
    fn off(&self) -> f64 {
        let sought = SOUGHT.min(OF_BASE * self.alone.max(0.0));
        let room = (self.room - sought).abs() / OFF_ROOM;
        let wires = (self.wires.max(1.0 / self.wires) - 1.0) / OFF_WIRE;
        let large_base = (self.alone - self.room - OFF_BASE).max(0.0) / OFF_BASE;
        let free = if self.held { 0.0 } else { OFF_FREE };
        // To halves, so that of nearly equal choices the larger second ring comes first: it has less space to rock in.
        libm::round(2.0 * (room + wires + large_base + free))
    }
}

/// A choice that looks as if it closes.
#[derive(Clone, Debug)]
pub(super) struct Candidate {
    /// The sizes, by number, one for each kind.
    pub picks: Vec<usize>,
    /// How its rings compare.
    pub ratios: Ratios,
    /// Core radius of the second kind, mm.
    pub radius: f64,
    /// How it looks.
    pub look: Look,
}

/// The best of each first size in turn, then the second best, and so on: every size of the base gets its turn.
pub(super) fn in_turn(candidates: Vec<Candidate>) -> Vec<Candidate> {
    let mut by_first: BTreeMap<Option<usize>, Vec<(f64, Candidate)>> = BTreeMap::new();
    for candidate in candidates {
        let ranked = (candidate.look.off(), candidate);
        by_first.entry(ranked.1.picks.first().copied()).or_default().push(ranked);
    }
    let order = |(off_a, a): &(f64, Candidate), (off_b, b): &(f64, Candidate)| {
        off_a.total_cmp(off_b).then(b.radius.total_cmp(&a.radius)).then_with(|| a.picks.cmp(&b.picks))
    };
    let mut turns: Vec<(usize, (f64, Candidate))> = Vec::new();
    for mut of_one in by_first.into_values() {
        of_one.sort_by(order);
        turns.extend(of_one.into_iter().enumerate());
    }
    turns.sort_by(|(turn, a), (other, b)| turn.cmp(other).then_with(|| order(a, b)));
    turns.into_iter().map(|(_, (_, candidate))| candidate).collect()
}

/// The next candidates to settle, with their numbers. As long as nothing was found to sit straight they come in their
/// order; then those that come nearest to what does, one for each first size that has nothing straight yet.
pub(super) fn next<'c>(
    ordered: &'c [Candidate],
    tried: &BTreeSet<usize>,
    straight: &[&Candidate],
    count: usize,
) -> Vec<(usize, &'c Candidate)> {
    let left = ordered.iter().enumerate().filter(|(number, _)| !tried.contains(number));
    if straight.is_empty() {
        return left.take(count).collect();
    }
    let far = |c: &Candidate| {
        let nearest = straight.iter().map(|s| apart(s.ratios, c.ratios)).fold(f64::INFINITY, f64::min);
        libm::round(nearest / NEAR)
    };
    let done = |c: &Candidate| straight.iter().any(|s| s.picks.first() == c.picks.first());
    let mut left: Vec<(usize, &Candidate)> = left.collect();
    left.sort_by(|(i, a), (j, b)| done(a).cmp(&done(b)).then(far(a).total_cmp(&far(b))).then(i.cmp(j)));
    let mut seen: BTreeSet<usize> = BTreeSet::new();
    let (first, more): (Vec<_>, Vec<_>) =
        left.into_iter().partition(|(_, c)| c.picks.first().is_some_and(|n| seen.insert(*n)));
    first.into_iter().chain(more).take(count).collect()
}

/// By what part both ratios differ, added up.
fn apart(one: Ratios, other: Ratios) -> f64 {
    one.iter().zip(other).map(|(a, b)| (a / b).max(b / a) - 1.0).sum()
}
