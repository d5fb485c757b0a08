//! The sequence in which the rings of a piece are woven.
//!
//! Closed rings are closed beforehand and lie ready. An open ring picks up closed rings, passes rings that are in the work
//! already, and is closed. The base comes first, then each accent in its own pass over the finished base; the next ring is
//! always one that holds on to the work. So any piece can be woven in which no two closed rings are linked.

use super::parts::{Part, parts};
use crate::notation::State;
use crate::pattern::{FamilyId, Lies, Pattern, PerFamily, Shift, Target};
use crate::rings::Piece;
use petgraph::graph::NodeIndex;
use petgraph::visit::EdgeRef;
use std::cmp::Reverse;
use std::collections::{BTreeMap, BTreeSet, BinaryHeap};

/// A ring that is passed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Passing {
    /// The ring passed.
    pub ring: NodeIndex,
    /// +1 from its front to its back, −1 from its back to its front. The signs of one step may all be taken the other way
    /// round: then its ring is threaded from its other end.
    pub sign: i8,
    /// Whether it is a closed ring that comes into the work with this step.
    pub picked_up: bool,
}

/// A lying statement of the text that is done with a step: all its rings are in the work by then. A pair is folded back just
/// before the first ring that needs it folded goes in, or else as soon as it is there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stay {
    /// Number of the statement in [`Pattern::lying`].
    pub statement: usize,
    /// The repeat it is about: the place of its first ring, less that ring's shift.
    pub at: Shift,
}

/// One open ring woven in and closed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Step {
    /// The ring.
    pub ring: NodeIndex,
    /// What it passes, in the order the text names it. Empty for a ring the work begins with.
    pub passes: Vec<Passing>,
    /// How it, and what it picks up, comes to lie.
    pub stays: Vec<Stay>,
    /// The accent it is part of, by number.
    pub accent: Option<usize>,
}

impl Step {
    /// What comes into the work with it: its ring, and the closed rings that one picks up.
    pub fn came(&self) -> impl Iterator<Item = NodeIndex> + '_ {
        std::iter::once(self.ring).chain(self.picked_up())
    }

    /// The closed rings it picks up.
    pub fn picked_up(&self) -> impl Iterator<Item = NodeIndex> + '_ {
        self.passes.iter().filter(|p| p.picked_up).map(|p| p.ring)
    }
}

/// Two closed rings that are linked, so that nobody can make the piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ClosedTogether {
    /// The one.
    pub one: NodeIndex,
    /// The other.
    pub other: NodeIndex,
}

/// The order of work of a piece.
#[derive(Clone, Debug)]
pub struct Order {
    /// Rings closed before weaving, in the order of the piece.
    pub closed: Vec<NodeIndex>,
    /// The steps, in order: every open ring once.
    pub steps: Vec<Step>,
    /// The same steps, with repeated ones given once.
    pub parts: Vec<Part>,
    /// Closed rings that nothing picks up.
    pub left_over: Vec<NodeIndex>,
}

impl Order {
    /// The order in which a piece is woven: repeat by repeat, of a sheet row by row; of one repeat in the order of the
    /// text. Time grows a little faster than with rings and links.
    ///
    /// # Errors
    /// [`ClosedTogether`], where two closed rings are linked: the first such pair.
    pub fn of(pattern: &Pattern, piece: &Piece) -> Result<Self, ClosedTogether> {
        let state = |ring| piece.graph.node_weight(ring).map(|r| r.state);
        let closed = |ring: &NodeIndex| state(*ring) == Some(State::Closed);
        for edge in piece.graph.edge_references() {
            if closed(&edge.source()) && closed(&edge.target()) {
                return Err(ClosedTogether { one: edge.source(), other: edge.target() });
            }
        }
        let mut work = Work::of(pattern, piece);
        for stage in std::iter::once(None).chain((0..pattern.accents.len()).map(Some)) {
            work.weave(|accent| accent == stage, stage.is_none());
        }
        // What holds on to nothing that was there before.
        work.weave(|_| true, true);
        work.folds_left();
        let Work { there, steps, .. } = work;
        let parts = parts(piece, &steps);
        let all = || piece.graph.node_indices().filter(closed);
        Ok(Self { closed: all().collect(), left_over: all().filter(|r| !there.contains(r)).collect(), steps, parts })
    }

    /// The closed rings the work begins with: those the first ring woven in picks up. They are threaded on a tie or held.
    pub fn start(&self) -> Vec<NodeIndex> {
        self.steps.first().map_or_else(Vec::new, |step| step.picked_up().collect())
    }

    /// How many rings must be closed, at the very least, before another can be woven in: those the first picks up, or
    /// that first ring itself where it passes none.
    pub fn least_closed(&self) -> usize {
        match self.steps.first() {
            Some(step) if step.passes.is_empty() => 1,
            _ => self.start().len(),
        }
    }
}

/// Which of two rings is woven first: repeat (row, column), then its place in the text.
type Turn = (Shift, FamilyId);

/// Work in progress.
struct Work<'w> {
    pattern: &'w Pattern,
    piece: &'w Piece,
    places: BTreeMap<(FamilyId, Shift), NodeIndex>,
    there: BTreeSet<NodeIndex>,
    steps: Vec<Step>,
    /// The most links a ring of each family has.
    most_links: PerFamily<usize>,
}

impl<'w> Work<'w> {
    fn of(pattern: &'w Pattern, piece: &'w Piece) -> Self {
        let places = piece.graph.node_indices().filter_map(|n| {
            let ring = piece.graph.node_weight(n)?;
            Some(((ring.family, ring.at), n))
        });
        let mut most_links = pattern.families.map(|_| 0);
        for ring in piece.graph.node_indices() {
            let most = &mut most_links[piece.graph[ring].family];
            *most = piece.graph.neighbors(ring).count().max(*most);
        }
        Self { pattern, piece, places: places.collect(), there: BTreeSet::new(), steps: Vec::new(), most_links }
    }

    fn accent(&self, ring: NodeIndex) -> Option<usize> {
        self.pattern.families[self.piece.graph[ring].family].accent
    }

    fn turn(&self, ring: NodeIndex) -> Turn {
        let ring = &self.piece.graph[ring];
        (ring.at, ring.family)
    }

    /// Weaves every open ring of some accents (or of the base) that holds on to the work; `begin`: starts again where nothing
    /// does and rings are left.
    fn weave(&mut self, belongs: impl Fn(Option<usize>) -> bool, begin: bool) {
        let open = |ring: &NodeIndex| self.piece.graph.node_weight(*ring).is_some_and(|r| r.state == State::Open);
        let left = |ring: &NodeIndex| open(ring) && !self.there.contains(ring) && belongs(self.accent(*ring));
        let mut left: BTreeSet<(Turn, NodeIndex)> =
            self.piece.graph.node_indices().filter(left).map(|r| (self.turn(r), r)).collect();
        let holds = |work: &Self, ring: NodeIndex| work.piece.graph.neighbors(ring).any(|n| work.there.contains(&n));
        let mut ready: BinaryHeap<Reverse<(Turn, NodeIndex)>> =
            left.iter().filter(|(_, r)| holds(self, *r)).map(|r| Reverse(*r)).collect();
        loop {
            let next = match ready.pop() {
                Some(Reverse(next)) if left.remove(&next) => next.1,
                Some(_) => continue,
                None if begin => match left.pop_first() {
                    Some((_, ring)) => ring,
                    None => break,
                },
                None => break,
            };
            let came = self.step(next);
            for ring in came.into_iter().flat_map(|ring| self.piece.graph.neighbors(ring)) {
                let entry = (self.turn(ring), ring);
                if left.contains(&entry) {
                    ready.push(Reverse(entry));
                }
            }
        }
    }

    /// Weaves a ring in; returns what came into the work.
    fn step(&mut self, ring: NodeIndex) -> Vec<NodeIndex> {
        let mut links: Vec<(u32, NodeIndex, i8)> = self
            .piece
            .graph
            .edges(ring)
            .map(|e| (e.weight().link, if e.source() == ring { e.target() } else { e.source() }, e.weight().sign))
            .collect();
        links.sort_unstable_by_key(|(link, other, _)| (*link, *other));
        let mut passes = Vec::new();
        let mut came = vec![ring];
        for (_, other, sign) in links {
            let closed = self.piece.graph.node_weight(other).is_some_and(|r| r.state == State::Closed);
            let there = self.there.contains(&other);
            // An open ring that is not there yet will pass this one when its turn comes.
            if there || closed {
                passes.push(Passing { ring: other, sign, picked_up: !there });
            }
            if closed && !there {
                came.push(other);
            }
        }
        let mut stays = self.folds(&passes);
        self.there.extend(&came);
        stays.extend(self.stays(&came));
        stays.sort_unstable_by_key(|s| (s.statement, s.at));
        self.steps.push(Step { ring, passes, stays, accent: self.accent(ring) });
        came
    }

    /// The pairs that are folded back before this ring goes in: half of the rings that hold them are in.
    fn folds(&self, passes: &[Passing]) -> Vec<Stay> {
        let mut all: Vec<Stay> = Vec::new();
        for (statement, lying) in self.pattern.lying.iter().enumerate() {
            let Lies::Folded(one, other) = &lying.lies else { continue };
            for pass in passes.iter().filter(|p| self.there.contains(&p.ring)) {
                let Some(own) = self.piece.graph.node_weight(pass.ring).filter(|r| r.family == one.family) else {
                    continue;
                };
                let at = own.at - one.offset;
                let partner = (other.family, at + other.offset);
                let held = self.piece.graph.neighbors(pass.ring).filter(|n| self.there.contains(n)).count();
                let half = self.most_links[one.family] / 2;
                if held == half && self.places.get(&partner).is_some_and(|n| self.there.contains(n)) {
                    all.push(Stay { statement, at });
                }
            }
        }
        all
    }

    /// Pairs that no ring found half held are folded back as soon as both rings are there.
    fn folds_left(&mut self) {
        let mut came: BTreeMap<NodeIndex, usize> = BTreeMap::new();
        let mut told: BTreeSet<(usize, Shift)> = BTreeSet::new();
        for (number, step) in self.steps.iter().enumerate() {
            came.extend(step.came().map(|ring| (ring, number)));
            told.extend(step.stays.iter().map(|stay| (stay.statement, stay.at)));
        }
        for (statement, lying) in self.pattern.lying.iter().enumerate() {
            let Lies::Folded(one, other) = &lying.lies else { continue };
            for ((_, at), ring) in self.places.iter().filter(|((family, _), _)| *family == one.family) {
                let at = *at - one.offset;
                let partner = self.places.get(&(other.family, at + other.offset));
                let both = partner.and_then(|partner| Some(*came.get(ring)?.max(came.get(partner)?)));
                let step = both.filter(|_| !told.contains(&(statement, at))).and_then(|n| self.steps.get_mut(n));
                if let Some(step) = step {
                    step.stays.push(Stay { statement, at });
                    step.stays.sort_unstable_by_key(|s| (s.statement, s.at));
                }
            }
        }
    }

    /// The other lying statements that can be done now and could not before.
    fn stays(&self, came: &[NodeIndex]) -> Vec<Stay> {
        let mut all: Vec<Stay> = Vec::new();
        for (statement, lying) in self.pattern.lying.iter().enumerate() {
            let targets = seen_to_at_once(&lying.lies);
            for (ring, target) in came.iter().flat_map(|r| targets.iter().map(move |t| (r, t))) {
                let Some(own) = self.piece.graph.node_weight(*ring) else { continue };
                let at = own.at - target.offset;
                let stay = Stay { statement, at };
                let named = |t: &Target| {
                    let place = (t.family, at + t.offset);
                    self.places.get(&place).is_some_and(|n| self.there.contains(n))
                };
                if own.family == target.family && !all.contains(&stay) && targets.iter().all(|t| named(t)) {
                    all.push(stay);
                }
            }
        }
        all
    }
}

/// The rings of a lying statement that is done as soon as all of them are there.
fn seen_to_at_once(lies: &Lies<Target>) -> Vec<&Target> {
    match lies {
        Lies::Folded(..) => Vec::new(),
        lies => lies.rings(),
    }
}
