//! Links between families → the signed graph of one repeat, each link with the shift it makes.
//!
//! With accents one repeat of the whole is as many repeats of the base as bring every accent back to
//! its start: the least common multiple of their periods.

use super::signs::{Link, Links};
use super::sublattice::gcd;
use crate::pattern::{Family, FamilyId, Pattern, Shift};
use petgraph::graph::{NodeIndex, UnGraph};
use std::collections::BTreeMap;

/// The most rings one repeat may have.
pub const MOST_IN_REPEAT: i64 = 20_000;
/// The most links and lying relations one repeat may have.
const MOST_LINKS_IN_REPEAT: i64 = 400_000;

/// One ring of the repeat.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CellRing {
    /// Its family.
    pub family: FamilyId,
    /// Which repeat of the base it stands in, from 0, within one repeat of the whole.
    pub phase: Shift,
}

/// One link of the repeat: from the edge's source to its target, `shift` repeats of the whole away.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CellLink {
    /// Shift, in repeats of the whole.
    pub shift: Shift,
    /// +1 down, −1 up.
    pub sign: i8,
    /// Number of the family link it comes from.
    pub link: usize,
}

/// The accents come back to their start together only after too many repeats.
#[derive(Clone, Copy, Debug)]
pub struct TooWide {
    /// Rings in one repeat of the whole.
    pub rings: i64,
}

/// The signed quotient graph of one repeat.
#[derive(Clone, Debug)]
pub struct Cell {
    /// The graph; an edge runs from the ring that passes to the ring it passes.
    pub graph: UnGraph<CellRing, CellLink>,
    /// Repeats of the base in one repeat of the whole, along each way.
    pub period: Shift,
    numbers: BTreeMap<(FamilyId, Shift), NodeIndex>,
}

impl Cell {
    /// The graph of one repeat.
    ///
    /// # Errors
    /// [`TooWide`] when one repeat of the whole has more than [`MOST_IN_REPEAT`] rings.
    pub fn of(pattern: &Pattern, links: &Links) -> Result<Self, TooWide> {
        let mut period = [1_i64, 1];
        for accent in &pattern.accents {
            for (p, every) in period.iter_mut().zip(accent.every.to_array()) {
                *p = least_common_multiple(*p, i64::from(every)).min(10_000_000);
            }
        }
        let repeats = period[0] * period[1];
        let count = |n: usize| i64::try_from(n).unwrap_or(i64::MAX);
        let rings = repeats.saturating_mul(count(pattern.families.len()));
        let links_and_lying = repeats.saturating_mul(count(links.links.len() + pattern.lying.len()));
        if rings > MOST_IN_REPEAT || links_and_lying > MOST_LINKS_IN_REPEAT {
            return Err(TooWide { rings });
        }
        let [rows, columns] = period.map(|p| i32::try_from(p).unwrap_or(1));
        Ok(Self::with(pattern, links, Shift::new(rows, columns), |_| true))
    }

    /// The graph of one repeat of the base, without the accents.
    pub fn of_base(pattern: &Pattern, links: &Links) -> Self {
        Self::with(pattern, links, Shift::ONE, |family| family.accent.is_none())
    }

    fn with(pattern: &Pattern, links: &Links, period: Shift, kept: impl Fn(&Family) -> bool) -> Self {
        let mut cell = Self { graph: UnGraph::default(), period, numbers: BTreeMap::new() };
        for (id, family) in pattern.families.numbered().filter(|(_, family)| kept(family)) {
            for phase in period.places().filter(|phase| on_accent(pattern, family.accent, *phase)) {
                let number = cell.graph.add_node(CellRing { family: id, phase });
                cell.numbers.insert((id, phase), number);
            }
        }
        for (number, link) in links.links.iter().enumerate() {
            cell.add(pattern, number, link);
        }
        cell
    }

    fn add(&mut self, pattern: &Pattern, number: usize, link: &Link) {
        for phase in self.period.places().filter(|phase| on_accent(pattern, link.accent, *phase)) {
            let (to, shift) = self.fold(phase + link.offset);
            let ends = (self.numbers.get(&(link.from, phase)), self.numbers.get(&(link.to, to)));
            if let (Some(from), Some(to)) = ends {
                self.graph.add_edge(*from, *to, CellLink { shift, sign: link.sign, link: number });
            }
        }
    }

    /// The repeat of the base a place folds to, and how many repeats of the whole away it was.
    pub fn fold(&self, at: Shift) -> (Shift, Shift) {
        at.fold(self.period)
    }

    /// The ring of a family at a repeat of the base (0 is the first), if the family stands there.
    pub fn ring(&self, family: FamilyId, at: Shift) -> Option<NodeIndex> {
        self.numbers.get(&(family, self.fold(at).0)).copied()
    }

    /// How many links each ring of a family has inside the piece, over all its places in the repeat:
    /// least and most.
    pub fn links_inside(&self, family: FamilyId) -> Option<(usize, usize)> {
        let of_family =
            self.graph.node_indices().filter(|n| self.graph.node_weight(*n).is_some_and(|r| r.family == family));
        let degrees: Vec<usize> = of_family.map(|n| self.degree(n)).collect();
        Some((*degrees.iter().min()?, *degrees.iter().max()?))
    }

    /// How many links a ring of the repeat has: a ring linked with its own neighbours counts both.
    pub fn degree(&self, ring: NodeIndex) -> usize {
        self.graph
            .edges(ring)
            .map(|e| if petgraph::visit::EdgeRef::source(&e) == petgraph::visit::EdgeRef::target(&e) { 2 } else { 1 })
            .sum()
    }
}

/// Whether an accent falls on a repeat (from 0), with no regard to start or finish.
fn on_accent(pattern: &Pattern, accent: Option<usize>, at: Shift) -> bool {
    accent
        .and_then(|a| pattern.accents.get(a))
        .is_none_or(|accent| (at + Shift::ONE - accent.from).fold(accent.every).0 == Shift::ZERO)
}

fn least_common_multiple(a: i64, b: i64) -> i64 {
    (a / gcd(a, b).max(1)).saturating_mul(b)
}
