//! The whole piece: all its repeats and its ends.

use super::signs::Links;
use crate::notation::{EndVerb, State};
use crate::pattern::{EndPlace, FamilyId, Lattice, Pattern, PerFamily, Repeats, Shift};
use petgraph::graph::{NodeIndex, UnGraph};

/// The most rings a piece may have.
pub const MOST_RINGS: u64 = 2_000_000;
/// The most links a piece may have, computed before any is made.
const MOST_LINKS: u64 = 20_000_000;
/// The most rings that the lines of `ends` may touch, all together.
const MOST_TOUCHED: u64 = 8_000_000;

/// One ring of the piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Ring {
    /// Its family.
    pub family: FamilyId,
    /// Its repeat, from 1: repeat and 1 for a chain, row and column for a sheet.
    pub at: Shift,
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
    low: Shift,
    high: Shift,
    rings: Vec<u32>,
}

const ABSENT: u32 = u32::MAX;

impl Family {
    fn slot(&self, at: Shift) -> Option<usize> {
        let inside = at.row <= self.high.row && at.column <= self.high.column;
        let width = usize::try_from(self.high.column - self.low.column + 1).ok()?;
        let row = usize::try_from(at.row - self.low.row).ok()?;
        let column = usize::try_from(at.column - self.low.column).ok()?;
        inside.then_some(row * width + column)
    }

    fn get(&self, at: Shift) -> Option<u32> {
        self.slot(at).and_then(|s| self.rings.get(s)).copied().filter(|r| *r != ABSENT)
    }

    fn set(&mut self, at: Shift, ring: u32) {
        if let Some(slot) = self.slot(at).and_then(|s| self.rings.get_mut(s)) {
            *slot = ring;
        }
    }

    fn places(&self) -> impl Iterator<Item = Shift> + use<> {
        self.low.up_to(self.high)
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
        let reckoned: u64 = links.links.iter().map(|l| families[l.from].rings.len() as u64).sum();
        if reckoned > MOST_LINKS {
            return Err(TooMany { rings: reckoned });
        }
        let mut piece = Self { size, graph: UnGraph::default(), idle_ends };
        number_rings(pattern, &mut families, &closed, &mut piece.graph)?;
        for (number, link) in links.links.iter().enumerate() {
            let (from, to) = (&families[link.from], &families[link.to]);
            let weight = PieceLink { link: u32::try_from(number).unwrap_or(ABSENT), sign: link.sign };
            let accent = link.accent.and_then(|a| pattern.accents.get(a));
            for at in from.places() {
                let falls = accent.is_none_or(|a| {
                    let (past, times) = (at - a.from).fold(a.every);
                    past == Shift::ZERO && times.row >= 0 && times.column >= 0
                });
                let Some(ring) = from.get(at).filter(|_| falls) else { continue };
                if let Some(other) = to.get(at + link.offset) {
                    piece.graph.add_edge(NodeIndex::new(ring as usize), NodeIndex::new(other as usize), weight);
                }
            }
        }
        Ok(piece)
    }

    /// A ring's name as a maker writes it: `b[7]`, `a[2,5]`, in a unit `a`.
    pub fn ring_name(&self, pattern: &Pattern, ring: NodeIndex) -> String {
        let Some(ring) = self.graph.node_weight(ring) else { return "?".to_owned() };
        let family = pattern.family_name(ring.family);
        match pattern.lattice {
            Lattice::Unit => family.to_owned(),
            Lattice::Chain => format!("{family}[{}]", ring.at.row),
            Lattice::Sheet => format!("{family}[{},{}]", ring.at.row, ring.at.column),
        }
    }
}

/// Room for every family's rings, present where the repeat or its accent puts one.
fn boxes(pattern: &Pattern, size: Repeats) -> Result<PerFamily<Family>, TooMany> {
    let last = size.last();
    let per_family = u64::from(size.0[0]) * u64::from(size.0[1]);
    let mut rings = 0_u64;
    for family in &pattern.families {
        let accent = family.accent.and_then(|a| pattern.accents.get(a));
        let thinned =
            accent.map_or(1, |a| u64::from(a.every.row.unsigned_abs()) * u64::from(a.every.column.unsigned_abs()));
        rings = rings.saturating_add(per_family / thinned.max(1));
    }
    if rings > MOST_RINGS || per_family.saturating_mul(pattern.families.len() as u64) > 4 * MOST_RINGS {
        return Err(TooMany { rings });
    }
    let mut slots = 0_u64;
    let mut families = PerFamily::default();
    for id in pattern.families.ids() {
        let mut family = Family { low: Shift::ONE, high: last, rings: Vec::new() };
        for end in pattern.ends.iter().filter(|e| e.family == id && e.verb == EndVerb::Add) {
            for (way, place) in end.at.iter().enumerate() {
                let (low, high, last) = (family.low.along_mut(way), family.high.along_mut(way), last.along(way));
                match place {
                    EndPlace::At(n) => (*low, *high) = ((*low).min(*n), (*high).max(*n)),
                    EndPlace::Last(n) => (*low, *high) = ((*low).min(last + n), (*high).max(last + n)),
                    EndPlace::All => {}
                }
            }
        }
        let room = room(family.low, family.high);
        slots = slots.saturating_add(room);
        if slots > 4 * MOST_RINGS {
            return Err(TooMany { rings: slots });
        }
        family.rings = vec![ABSENT; usize::try_from(room).unwrap_or(0)];
        let (from, every) = pattern.accent_of(id).map_or((Shift::ONE, Shift::ONE), |a| (a.from, a.every));
        for times in Shift::ZERO.up_to((last - from).fold(every).1) {
            family.set(from + times.times(every), 0);
        }
        families.push(family);
    }
    Ok(families)
}

/// Applies the lines of `ends` in order; returns the numbers of those that change nothing.
fn apply_ends(
    pattern: &Pattern,
    size: Repeats,
    families: &mut PerFamily<Family>,
    states: &mut Vec<(FamilyId, Shift, State)>,
) -> Result<Vec<usize>, TooMany> {
    let mut touched = 0_u64;
    let mut idle = Vec::new();
    for (number, end) in pattern.ends.iter().enumerate() {
        let family = &mut families[end.family];
        let reach = |way: usize| {
            let last = size.last().along(way);
            match end.at.get(way) {
                None => (1, 1),
                Some(EndPlace::At(n)) => (*n, *n),
                Some(EndPlace::Last(n)) => (last + n, last + n),
                Some(EndPlace::All) => (1, last),
            }
        };
        let (rows, columns) = (reach(0), reach(1));
        let (first, last) = (Shift::new(rows.0, columns.0), Shift::new(rows.1, columns.1));
        touched = touched.saturating_add(room(first, last));
        if touched > MOST_TOUCHED {
            return Err(TooMany { rings: touched });
        }
        let mut did = false;
        for at in first.up_to(last) {
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
        if !did {
            idle.push(number);
        }
    }
    Ok(idle)
}

/// How many places there are from the first to the last.
fn room(first: Shift, last: Shift) -> u64 {
    let wide = |first: i32, last: i32| u64::from(last.abs_diff(first)) + 1;
    wide(first.row, last.row).saturating_mul(wide(first.column, last.column))
}

fn number_rings(
    pattern: &Pattern,
    families: &mut PerFamily<Family>,
    states: &[(FamilyId, Shift, State)],
    graph: &mut UnGraph<Ring, PieceLink>,
) -> Result<(), TooMany> {
    for id in pattern.families.ids() {
        let (family, state) = (&mut families[id], pattern.families[id].state);
        for at in family.places() {
            if family.get(at).is_none() {
                continue;
            }
            if graph.node_count() as u64 >= MOST_RINGS {
                return Err(TooMany { rings: MOST_RINGS + 1 });
            }
            let ring = graph.add_node(Ring { family: id, at, state });
            family.set(at, u32::try_from(ring.index()).unwrap_or(ABSENT));
        }
    }
    for (family, at, state) in states {
        let ring = families[*family].get(*at).map(|r| NodeIndex::new(r as usize));
        if let Some(ring) = ring.and_then(|r| graph.node_weight_mut(r)) {
            ring.state = *state;
        }
    }
    Ok(())
}
