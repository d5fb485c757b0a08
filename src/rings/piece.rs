//! The whole piece: so many repeats, with its ends.

use super::signs::Links;
use crate::notation::{EndVerb, State};
use crate::pattern::{EndPlace, Lattice, Offset, Pattern, Repeats};
use petgraph::graph::{NodeIndex, UnGraph};

/// The most rings a piece may have.
pub const MOST_RINGS: u64 = 2_000_000;
/// The most links a piece may have, reckoned before any is made.
const MOST_LINKS: u64 = 20_000_000;
/// The most rings that the lines of `ends` may touch, all together.
const MOST_TOUCHED: u64 = 8_000_000;

/// One ring of the piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Ring {
    /// Its family.
    pub family: u32,
    /// Its repeat, from 1: repeat and 1 for a chain, row and column for a sheet.
    pub at: Offset,
    /// Closed before weaving or open.
    pub state: State,
}

/// One link of the piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PieceLink {
    /// Number of the family link it comes from.
    pub link: u32,
    /// +1 down, −1 up.
    pub sign: i8,
}

/// The piece would have too many rings.
#[derive(Clone, Copy, Debug)]
pub struct TooMany {
    /// How many.
    pub rings: u64,
}

/// Every ring and every link of a piece.
#[derive(Clone, Debug)]
pub struct Piece {
    /// How many repeats it has.
    pub size: Repeats,
    /// The graph; an edge runs from the ring that passes to the ring it passes.
    pub graph: UnGraph<Ring, PieceLink>,
    /// Numbers of `ends` lines that name a ring the piece does not have, or add one it has.
    pub idle_ends: Vec<usize>,
}

/// The rings of one family: a box of repeats, each with its number in the graph.
struct Family {
    low: Offset,
    high: Offset,
    rings: Vec<u32>,
}

const ABSENT: u32 = u32::MAX;

impl Family {
    fn slot(&self, at: Offset) -> Option<usize> {
        let inside = (0..2).all(|i| at.get(i) >= self.low.get(i) && at.get(i) <= self.high.get(i));
        let width = usize::try_from(self.high[1] - self.low[1] + 1).ok()?;
        let row = usize::try_from(at[0] - self.low[0]).ok()?;
        let column = usize::try_from(at[1] - self.low[1]).ok()?;
        inside.then_some(row * width + column)
    }

    fn get(&self, at: Offset) -> Option<u32> {
        self.slot(at).and_then(|s| self.rings.get(s)).copied().filter(|r| *r != ABSENT)
    }

    fn set(&mut self, at: Offset, ring: u32) {
        if let Some(slot) = self.slot(at).and_then(|s| self.rings.get_mut(s)) {
            *slot = ring;
        }
    }

    fn places(&self) -> impl Iterator<Item = Offset> + use<> {
        let (low, high) = (self.low, self.high);
        (low[0]..=high[0]).flat_map(move |r| (low[1]..=high[1]).map(move |c| [r, c]))
    }
}

impl Piece {
    /// The piece of `size` repeats. A link to a ring beyond either end is left out; `ends` add, drop,
    /// close and open rings. Time and memory grow with the number of rings and links.
    ///
    /// # Errors
    /// [`TooMany`] beyond [`MOST_RINGS`].
    pub fn expand(pattern: &Pattern, links: &Links, size: Repeats) -> Result<Self, TooMany> {
        let mut families = boxes(pattern, size)?;
        let mut closed = Vec::new();
        let idle_ends = apply_ends(pattern, size, &mut families, &mut closed)?;
        let reckoned: u64 = links.links.iter().filter_map(|l| families.get(l.from)).map(|f| f.rings.len() as u64).sum();
        if reckoned > MOST_LINKS {
            return Err(TooMany { rings: reckoned });
        }
        let mut piece = Self { size, graph: UnGraph::default(), idle_ends };
        number_rings(pattern, &mut families, &closed, &mut piece.graph)?;
        for (number, link) in links.links.iter().enumerate() {
            let (Some(from), Some(to)) = (families.get(link.from), families.get(link.to)) else { continue };
            let weight = PieceLink { link: u32::try_from(number).unwrap_or(ABSENT), sign: link.sign };
            let accent = link.accent.and_then(|a| pattern.accents.get(a));
            for at in from.places() {
                let falls = accent.is_none_or(|a| {
                    (0..2).all(|i| {
                        let step = at.get(i).copied().unwrap_or(0) - a.from.get(i).copied().unwrap_or(0);
                        step >= 0 && step % a.every.get(i).copied().unwrap_or(1) == 0
                    })
                });
                let Some(ring) = from.get(at).filter(|_| falls) else { continue };
                if let Some(other) = to.get([at[0] + link.offset[0], at[1] + link.offset[1]]) {
                    piece.graph.add_edge(NodeIndex::new(ring as usize), NodeIndex::new(other as usize), weight);
                }
            }
        }
        Ok(piece)
    }

    /// A ring's name as a maker writes it: `b[7]`, `a[2,5]`, in a unit `a`.
    pub fn ring_name(&self, pattern: &Pattern, ring: NodeIndex) -> String {
        let Some(ring) = self.graph.node_weight(ring) else { return "?".to_owned() };
        let family = pattern.families.get(ring.family as usize).map_or("?", |f| f.name.value.as_str());
        match pattern.lattice {
            Lattice::Unit => family.to_owned(),
            Lattice::Chain => format!("{family}[{}]", ring.at[0]),
            Lattice::Sheet => format!("{family}[{},{}]", ring.at[0], ring.at[1]),
        }
    }
}

/// Room for every family's rings, present where the repeat or its accent puts one.
fn boxes(pattern: &Pattern, size: Repeats) -> Result<Vec<Family>, TooMany> {
    let last = size.0.map(|n| i32::try_from(n).unwrap_or(i32::MAX - 1000));
    let per_family = u64::from(size.0[0]) * u64::from(size.0[1]);
    let mut rings = 0_u64;
    for family in &pattern.families {
        let accent = family.accent.and_then(|a| pattern.accents.get(a));
        let thinned = accent.map_or(1, |a| a.every.map(|e| u64::from(e.unsigned_abs())).iter().product::<u64>());
        rings = rings.saturating_add(per_family / thinned.max(1));
    }
    if rings > MOST_RINGS || per_family.saturating_mul(pattern.families.len() as u64) > 4 * MOST_RINGS {
        return Err(TooMany { rings });
    }
    let mut slots = 0_u64;
    let mut families = Vec::with_capacity(pattern.families.len());
    for number in 0..pattern.families.len() {
        let mut family = Family { low: [1, 1], high: last, rings: Vec::new() };
        for end in pattern.ends.iter().filter(|e| e.family == number && e.verb == EndVerb::Add) {
            for (i, place) in end.at.iter().enumerate() {
                let (Some(low), Some(high), Some(last)) = (family.low.get_mut(i), family.high.get_mut(i), last.get(i))
                else {
                    continue;
                };
                match place {
                    EndPlace::At(n) => (*low, *high) = ((*low).min(*n), (*high).max(*n)),
                    EndPlace::Last(n) => (*low, *high) = ((*low).min(last + n), (*high).max(last + n)),
                    EndPlace::All => {}
                }
            }
        }
        let wide: u64 =
            family.high.iter().zip(family.low).map(|(high, low)| u64::from(high.abs_diff(low)) + 1).product();
        slots = slots.saturating_add(wide);
        if slots > 4 * MOST_RINGS {
            return Err(TooMany { rings: slots });
        }
        family.rings = vec![ABSENT; usize::try_from(wide).unwrap_or(0)];
        let accent = pattern.families.get(number).and_then(|f| f.accent).and_then(|a| pattern.accents.get(a));
        let (from, every) = accent.map_or(([1, 1], [1, 1]), |a| (a.from, a.every));
        for row in (from[0]..=last[0]).step_by(usize::try_from(every[0]).unwrap_or(1)) {
            for column in (from[1]..=last[1]).step_by(usize::try_from(every[1]).unwrap_or(1)) {
                family.set([row, column], 0);
            }
        }
        families.push(family);
    }
    Ok(families)
}

/// Applies the lines of `ends` in order; returns the numbers of those that change nothing.
fn apply_ends(
    pattern: &Pattern,
    size: Repeats,
    families: &mut [Family],
    states: &mut Vec<(usize, Offset, State)>,
) -> Result<Vec<usize>, TooMany> {
    let mut touched = 0_u64;
    let mut idle = Vec::new();
    for (number, end) in pattern.ends.iter().enumerate() {
        let Some(family) = families.get_mut(end.family) else { continue };
        let reach = |i: usize| -> std::ops::RangeInclusive<i32> {
            let last = size.0.get(i).map_or(1, |n| i32::try_from(*n).unwrap_or(i32::MAX - 1000));
            match end.at.get(i) {
                None => 1..=1,
                Some(EndPlace::At(n)) => *n..=*n,
                Some(EndPlace::Last(n)) => last + n..=last + n,
                Some(EndPlace::All) => 1..=last,
            }
        };
        let wide = |r: std::ops::RangeInclusive<i32>| u64::from(r.end().abs_diff(*r.start())) + 1;
        touched = touched.saturating_add(wide(reach(0)).saturating_mul(wide(reach(1))));
        if touched > MOST_TOUCHED {
            return Err(TooMany { rings: touched });
        }
        let mut did = false;
        for row in reach(0) {
            for column in reach(1) {
                let at = [row, column];
                let there = family.get(at).is_some();
                match end.verb {
                    EndVerb::Add if !there => family.set(at, 0),
                    EndVerb::Drop if there => family.set(at, ABSENT),
                    EndVerb::Close if there => states.push((end.family, at, State::Closed)),
                    EndVerb::Open if there => states.push((end.family, at, State::Open)),
                    EndVerb::Add | EndVerb::Drop | EndVerb::Close | EndVerb::Open => continue,
                }
                did = true;
            }
        }
        if !did {
            idle.push(number);
        }
    }
    Ok(idle)
}

fn number_rings(
    pattern: &Pattern,
    families: &mut [Family],
    states: &[(usize, Offset, State)],
    graph: &mut UnGraph<Ring, PieceLink>,
) -> Result<(), TooMany> {
    for (number, family) in families.iter_mut().enumerate() {
        let state = pattern.families.get(number).map_or(State::Open, |f| f.state);
        for at in family.places() {
            if family.get(at).is_none() {
                continue;
            }
            if graph.node_count() as u64 >= MOST_RINGS {
                return Err(TooMany { rings: MOST_RINGS + 1 });
            }
            let ring = graph.add_node(Ring { family: u32::try_from(number).unwrap_or(ABSENT), at, state });
            family.set(at, u32::try_from(ring.index()).unwrap_or(ABSENT));
        }
    }
    for (family, at, state) in states {
        let ring = families.get(*family).and_then(|f| f.get(*at)).map(|r| NodeIndex::new(r as usize));
        if let Some(ring) = ring.and_then(|r| graph.node_weight_mut(r)) {
            ring.state = *state;
        }
    }
    Ok(())
}
