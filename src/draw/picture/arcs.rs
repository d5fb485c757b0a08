//! Rings cut into arcs so that of any two arcs one can be drawn over the other, and the arcs sorted from far to near.
//!
//! A ring is cut where what it lies over ends and what it lies under begins. Arcs that lie over one another in a circle are cut
//! again.

use super::ellipse::Ellipse;
use super::meeting::{Meeting, PIECES, angle, meetings, own_meetings, points};
use super::scene::Scene;
use crate::pattern::Shift;
use petgraph::algo::tarjan_scc;
use petgraph::graph::{DiGraph, NodeIndex};
use petgraph::visit::EdgeRef;
use std::collections::{BTreeMap, BTreeSet};
use std::f64::consts::TAU;

/// A ring whose half short axis is less than this, in wires, hides its own far half.
const NARROW: f64 = 0.7;
/// How often arcs that lie over one another in a circle are cut in two.
const ROUNDS: usize = 7;

/// A part of a ring.
#[derive(Clone, Copy, Debug)]
pub struct Arc {
    /// Number of the ring.
    pub ring: usize,
    /// Where it begins and ends, as angles; the end is greater, and may be beyond a full turn.
    pub from: f64,
    /// See `from`.
    pub to: f64,
    /// Whether it is all of the ring.
    pub whole: bool,
    /// Whether it lies over something.
    pub over: bool,
}

/// Two rings that meet: their numbers, and the number of the list of their meetings.
type Met = (usize, usize, usize);

/// Where all rings of a scene meet. Pairs of rings that lie to each other as another pair does share a list.
struct Meetings {
    lists: Vec<Vec<Meeting>>,
    all: Vec<Met>,
}

impl Meetings {
    fn of(scene: &Scene, ellipses: &[Ellipse]) -> Self {
        let points: Vec<_> = ellipses.iter().map(points).collect();
        let mut known: BTreeMap<(usize, usize, Shift, [bool; 2]), usize> = BTreeMap::new();
        let mut found = Self { lists: Vec::new(), all: Vec::new() };
        let themselves = ellipses.iter().enumerate().filter(|(_, e)| e.half_short() < e.wire).map(|(n, _)| (n, n));
        for (one, other) in near(ellipses).into_iter().chain(themselves) {
            let (Some(a), Some(b)) = (ellipses.get(one), ellipses.get(other)) else { continue };
            let (Some(p), Some(q)) = (points.get(one), points.get(other)) else { continue };
            let (Some(ring), Some(with)) = (scene.rings.get(one), scene.rings.get(other)) else { continue };
            // In every second repeat rings may be turned over, which changes where angles begin.
            let [(from, here), (to, there)] = [ring.home, with.home];
            let key = (from, to, there - here, here.to_array().map(|k| k.rem_euclid(2) == 1));
            let list = known.get(&key).filter(|_| scene.moved_only).copied().unwrap_or_else(|| {
                found.lists.push(if one == other { own_meetings(a, p) } else { meetings((a, p), (b, q)) });
                known.insert(key, found.lists.len() - 1);
                found.lists.len() - 1
            });
            if found.lists.get(list).is_some_and(|l| !l.is_empty()) {
                found.all.push((one, other, list));
            }
        }
        found
    }

    fn each(&self) -> impl Iterator<Item = (usize, usize, &[Meeting])> {
        self.all.iter().map(|(one, other, list)| (*one, *other, self.lists.get(*list).map_or(&[][..], Vec::as_slice)))
    }
}

/// Pairs of rings whose bands may meet, each once, in order.
pub fn near(ellipses: &[Ellipse]) -> Vec<(usize, usize)> {
    let widest = ellipses.iter().map(|e| e.bounds().size().max_side()).fold(0.0, f64::max);
    let cell = |x: f64| {
        // Numbers of cells are small; NaN falls into cell 0.
        #[expect(clippy::cast_possible_truncation)]
        let number = (x / (1.2 * widest).max(1e-9)).floor() as i64;
        number
    };
    let mut cells: BTreeMap<(i64, i64), Vec<usize>> = BTreeMap::new();
    for (number, ellipse) in ellipses.iter().enumerate() {
        let centre = ellipse.centre();
        cells.entry((cell(centre.x), cell(centre.y))).or_default().push(number);
    }
    let mut pairs = Vec::new();
    for ((x, y), here) in &cells {
        for beside in [(0, 0), (1, 0), (-1, 1), (0, 1), (1, 1)] {
            let Some(there) = cells.get(&(x + beside.0, y + beside.1)) else { continue };
            for one in here {
                for other in there {
                    if beside != (0, 0) || one < other {
                        pairs.push((*one.min(other), *one.max(other)));
                    }
                }
            }
        }
    }
    pairs.sort_unstable();
    pairs
}

/// Whether a ring hides its own far half.
pub fn narrow(ellipse: &Ellipse) -> bool {
    ellipse.half_short() < NARROW * ellipse.wire
}

/// A ring in pieces: which lie over and under something, and before which it is cut.
#[derive(Clone)]
struct Ring {
    over: [bool; PIECES],
    under: [bool; PIECES],
    cuts: BTreeSet<usize>,
}

impl Ring {
    const FREE: Self = Self { over: [false; PIECES], under: [false; PIECES], cuts: BTreeSet::new() };

    /// Cuts the ring between pieces of which one lies over something and the other under something, midway.
    fn cut(&mut self, ellipse: &Ellipse) {
        let state = |piece: usize| match (self.over.get(piece), self.under.get(piece)) {
            (Some(over), Some(under)) if *over || *under => Some((*over, *under)),
            _ => None,
        };
        let told: Vec<(usize, (bool, bool))> = (0..PIECES).filter_map(|p| Some((p, state(p)?))).collect();
        for (number, (piece, own)) in told.iter().enumerate() {
            let Some((next, other)) = told.get((number + 1) % told.len()) else { continue };
            if own != other {
                let ahead = (next + PIECES - piece) % PIECES;
                self.cuts.insert((piece + ahead.div_ceil(2)) % PIECES);
            }
        }
        if narrow(ellipse) {
            self.cuts.extend([0, PIECES / 2]);
        }
    }

    /// The arcs: the piece each begins with, and how many it has.
    fn arcs(&self) -> Vec<(usize, usize)> {
        let cuts: Vec<usize> = self.cuts.iter().copied().collect();
        match cuts.as_slice() {
            [] => vec![(0, PIECES)],
            [first, ..] => {
                let ends = cuts.iter().skip(1).copied().chain([first + PIECES]);
                cuts.iter().zip(ends).map(|(from, to)| (*from, to - from)).collect()
            }
        }
    }
}

/// The rings cut into arcs, the farthest first: whatever an arc lies over comes before it.
pub fn arcs(scene: &Scene, ellipses: &[Ellipse]) -> Vec<Arc> {
    let met = Meetings::of(scene, ellipses);
    let mut rings = vec![Ring::FREE; ellipses.len()];
    for (one, other, meetings) in met.each() {
        for meeting in meetings.iter().filter(|m| m.overlap) {
            for (ring, piece, over) in
                [(one, meeting.pieces[0], meeting.first_over), (other, meeting.pieces[1], !meeting.first_over)]
            {
                let told = rings.get_mut(ring).map(|r| if over { &mut r.over } else { &mut r.under });
                if let Some(told) = told.and_then(|t| t.get_mut(piece)) {
                    *told = true;
                }
            }
        }
    }
    for (ring, ellipse) in rings.iter_mut().zip(ellipses) {
        ring.cut(ellipse);
    }
    let mut order = Order::of(&rings, &met);
    for _ in 0..ROUNDS {
        let mut again = false;
        for knot in tarjan_scc(&order.graph).into_iter().filter(|knot| knot.len() > 1) {
            for arc in knot.into_iter().filter_map(|node| order.arcs.get(node.index())) {
                let (ring, from, count) = *arc;
                if let Some(ring) = rings.get_mut(ring).filter(|_| count > 1) {
                    // A whole ring is cut at both ends.
                    if count == PIECES {
                        ring.cuts.insert(from);
                    }
                    again |= ring.cuts.insert((from + count / 2) % PIECES);
                }
            }
        }
        if !again {
            break;
        }
        order = Order::of(&rings, &met);
    }
    order.sorted(&rings, ellipses)
}

/// Which arcs lie over which: an edge runs from the farther to the nearer.
struct Order {
    /// Ring, first piece and number of pieces.
    arcs: Vec<(usize, usize, usize)>,
    graph: DiGraph<(), ()>,
    /// Arcs that only come into the gap beside others: these decide where no overlap does.
    beside: Vec<(u32, u32)>,
}

impl Order {
    fn of(rings: &[Ring], met: &Meetings) -> Self {
        let mut arcs = Vec::new();
        // For each piece of each ring the arc it belongs to.
        let mut belongs: Vec<[u32; PIECES]> = Vec::new();
        for (ring, cut) in rings.iter().enumerate() {
            let mut own = [0; PIECES];
            for (from, count) in cut.arcs() {
                let number = u32::try_from(arcs.len()).unwrap_or(u32::MAX);
                arcs.push((ring, from, count));
                for piece in from..from + count {
                    if let Some(slot) = own.get_mut(piece % PIECES) {
                        *slot = number;
                    }
                }
            }
            belongs.push(own);
        }
        let mut edges: Vec<(u32, u32)> = Vec::new();
        let mut beside: Vec<(u32, u32)> = Vec::new();
        for (one, other, meetings) in met.each() {
            let (Some(a), Some(b)) = (belongs.get(one), belongs.get(other)) else { continue };
            let (first, next) = (edges.len(), beside.len());
            for meeting in meetings {
                let (Some(a), Some(b)) = (a.get(meeting.pieces[0]), b.get(meeting.pieces[1])) else { continue };
                let edge = if meeting.first_over { (*b, *a) } else { (*a, *b) };
                let (edges, first) = if meeting.overlap { (&mut edges, first) } else { (&mut beside, next) };
                if edge.0 != edge.1 && !edges.iter().skip(first).any(|e| *e == edge) {
                    edges.push(edge);
                }
            }
        }
        edges.sort_unstable();
        edges.dedup();
        let mut graph = DiGraph::with_capacity(arcs.len(), edges.len());
        for _ in &arcs {
            graph.add_node(());
        }
        for (low, high) in edges {
            graph.add_edge(NodeIndex::from(low), NodeIndex::from(high), ());
        }
        beside.sort_unstable();
        beside.dedup();
        Self { arcs, graph, beside }
    }

    /// The arcs sorted; where nothing decides, by layers and then by ring.
    fn sorted(&self, rings: &[Ring], ellipses: &[Ellipse]) -> Vec<Arc> {
        let count = self.arcs.len();
        let mut over: Vec<Vec<(usize, bool)>> = vec![Vec::new(); count];
        // How many arcs must come before each arc, and how many should.
        let mut under: Vec<[usize; 2]> = vec![[0; 2]; count];
        let must = self.graph.edge_references().map(|e| (e.source().index(), e.target().index(), true));
        let should = self.beside.iter().map(|(low, high)| (*low as usize, *high as usize, false));
        for (low, high, must) in must.chain(should) {
            if let (Some(over), Some(under)) = (over.get_mut(low), under.get_mut(high)) {
                over.push((high, must));
                *(if must { &mut under[0] } else { &mut under[1] }) += 1;
            }
        }
        let height = |n: usize| {
            let arc = self.arcs.get(n);
            let z = arc.and_then(|(ring, from, count)| Some(ellipses.get(*ring)?.at(angle(from + count / 2)).z));
            // In millionths, so that it can be sorted by.
            #[expect(clippy::cast_possible_truncation)]
            let millionths = (1e6 * z.unwrap_or(0.0)) as i64;
            millionths
        };
        let mut level = vec![0_usize; count];
        let mut left: BTreeSet<usize> = (0..count).collect();
        let mut ready: BTreeSet<(usize, usize)> =
            under.iter().enumerate().filter(|(_, n)| **n == [0, 0]).map(|(n, _)| (0, n)).collect();
        // Arcs before which nothing must come, but something should.
        let mut nearly: BTreeSet<(i64, usize)> =
            under.iter().enumerate().filter(|(_, n)| n[0] == 0 && n[1] > 0).map(|(n, _)| (height(n), n)).collect();
        let mut sorted = Vec::new();
        while !left.is_empty() {
            // Of arcs that lie over one another in a circle, the farthest comes first.
            let farthest = || left.iter().min_by_key(|n| height(**n)).copied();
            let next = ready.pop_first().or_else(|| nearly.pop_first().map(|(_, n)| (0, n))).map(|(_, n)| n);
            let Some(next) = next.or_else(farthest) else { break };
            if !left.remove(&next) {
                continue;
            }
            let own = level.get(next).copied().unwrap_or(0);
            for (high, must) in over.get(next).cloned().unwrap_or_default() {
                if let (Some(under), Some(level)) = (under.get_mut(high), level.get_mut(high)) {
                    let lacking = if must { &mut under[0] } else { &mut under[1] };
                    *lacking = lacking.saturating_sub(1);
                    *level = (*level).max(own + 1);
                    if *under == [0, 0] && left.contains(&high) {
                        ready.insert((*level, high));
                    } else if under[0] == 0 && left.contains(&high) {
                        nearly.insert((height(high), high));
                    }
                }
            }
            sorted.extend(self.arcs.get(next).and_then(|arc| arc_of(*arc, rings)));
        }
        sorted
    }
}

fn arc_of((ring, from, count): (usize, usize, usize), rings: &[Ring]) -> Option<Arc> {
    let over = &rings.get(ring)?.over;
    let over = (from..from + count).any(|piece| over.get(piece % PIECES).copied().unwrap_or(false));
    let half = 0.5 * angle(1);
    let start = angle(from) - half;
    let (from, to) = (start, start + angle(count));
    Some(Arc { ring, from, to, whole: to - from > TAU - 1e-9, over })
}
