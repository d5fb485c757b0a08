//! A periodic signed graph without names: what a fingerprint is taken of.

use super::cell::Cell;
use crate::notation::{Hand, Side};
use crate::pattern::{Lattice, Lies, Pattern, Shift, Target};
use petgraph::visit::EdgeRef;

/// What an edge of a net says, apart from its sign.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Says {
    Linked,
    Behind,
    Over,
    Between,
    Folded,
}

impl Says {
    /// Whether it says the same read from its other end.
    fn mutual(self) -> bool {
        matches!(self, Self::Linked | Self::Folded)
    }
}

/// An edge from one node to the image of another that is `shift` away.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Edge {
    pub from: usize,
    pub to: usize,
    pub shift: Shift,
    pub says: Says,
    pub sign: i8,
}

/// One way out of a node.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Way {
    pub to: usize,
    pub shift: Shift,
    /// What the edge says, and whether it is read backwards.
    pub says: (Says, bool),
    pub sign: i8,
    /// Number of the edge.
    pub edge: usize,
}

/// A periodic signed graph.
#[derive(Clone, Debug, Default)]
pub(super) struct SignedGraph {
    pub dimensions: usize,
    /// The edge of the strip each node's ring lies on.
    pub sides: Vec<Option<Side>>,
    pub edges: Vec<Edge>,
    /// Whether the weave is a spiral.
    pub spiral: bool,
    /// The lean, where the text says no side.
    pub lean: Option<Hand>,
    /// Which way a spiral turns, where the text says so.
    pub turning: Option<Hand>,
    pub ways: Vec<Vec<Way>>,
}

impl SignedGraph {
    pub fn of(pattern: &Pattern, cell: &Cell) -> Self {
        let mut net = Self {
            dimensions: pattern.lattice.dimensions(),
            sides: vec![None; cell.graph.node_count()],
            spiral: pattern.spiral && pattern.lattice == Lattice::Chain,
            ..Self::default()
        };
        for edge in cell.graph.edge_references() {
            let (from, to) = (edge.source().index(), edge.target().index());
            let weight = edge.weight();
            net.edges.push(Edge { from, to, shift: weight.shift, says: Says::Linked, sign: weight.sign });
        }
        for lying in &pattern.lying {
            for at in cell.period.places() {
                net.lie(cell, &lying.lies, at);
            }
        }
        let sided = net.sides.iter().any(Option::is_some);
        net.lean = pattern.stated_lean().filter(|_| !sided);
        net.edges.sort_by_key(|e| (e.from, e.to, e.shift, e.says, e.sign));
        net.edges.dedup();
        net.with_ways()
    }

    fn lie(&mut self, cell: &Cell, lies: &Lies<Target>, at: Shift) {
        let place = |t: &Target| {
            let there = at + t.offset;
            cell.ring(t.family, there).map(|n| (n.index(), cell.fold(there).1))
        };
        let mut tie = |says: Says, one: &Target, other: &Target| {
            if let (Some((from, here)), Some((to, there))) = (place(one), place(other)) {
                let shift = there - here;
                self.edges.push(Edge { from, to, shift, says, sign: 1 });
            }
        };
        match lies {
            Lies::Behind(one, other) => tie(Says::Behind, one, other),
            Lies::Over(one, other) => tie(Says::Over, one, other),
            Lies::Folded(one, other) => tie(Says::Folded, one, other),
            Lies::Between(ring, one, other) => {
                tie(Says::Between, ring, one);
                tie(Says::Between, ring, other);
            }
            Lies::On(ring, side) => {
                if let Some(slot) = place(ring).and_then(|(n, _)| self.sides.get_mut(n)) {
                    *slot = Some(*side);
                }
            }
            Lies::Turning(hand) => self.turning = Some(*hand),
        }
    }

    /// Fills in every node's ways out from the edges.
    pub fn with_ways(mut self) -> Self {
        self.ways = vec![Vec::new(); self.sides.len()];
        for (number, edge) in self.edges.iter().enumerate() {
            let back = -edge.shift;
            let flipped = !edge.says.mutual();
            let there = Way { to: edge.to, shift: edge.shift, says: (edge.says, false), sign: edge.sign, edge: number };
            let home = Way { to: edge.from, shift: back, says: (edge.says, flipped), sign: edge.sign, edge: number };
            for (node, way) in [(edge.from, there), (edge.to, home)] {
                if let Some(ways) = self.ways.get_mut(node) {
                    ways.push(way);
                }
            }
        }
        self
    }

    /// The mirror image: every sign turned, far and near exchanged.
    pub fn mirrored(&self) -> Self {
        let mut net = self.clone();
        for edge in net.edges.iter_mut().filter(|e| e.says == Says::Linked) {
            edge.sign = -edge.sign;
        }
        net.sides.iter_mut().flatten().for_each(|s| *s = s.other());
        net.lean = net.lean.map(Hand::other);
        net.turning = net.turning.map(Hand::other);
        net.with_ways()
    }

    /// The parts that hang together, each a net of its own.
    pub fn parts(&self) -> Vec<SignedGraph> {
        let mut part_of: Vec<Option<usize>> = vec![None; self.sides.len()];
        let mut parts = 0;
        for start in 0..self.sides.len() {
            if part_of.get(start).is_none_or(Option::is_some) {
                continue;
            }
            let mut open = vec![start];
            while let Some(node) = open.pop() {
                match part_of.get_mut(node) {
                    Some(slot @ None) => *slot = Some(parts),
                    _ => continue,
                }
                open.extend(self.ways.get(node).into_iter().flatten().map(|w| w.to));
            }
            parts += 1;
        }
        (0..parts)
            .map(|part| {
                let members: Vec<usize> =
                    (0..self.sides.len()).filter(|n| part_of.get(*n) == Some(&Some(part))).collect();
                let number = |node: usize| members.binary_search(&node).ok();
                let renumber = |e: &Edge| Some(Edge { from: number(e.from)?, to: number(e.to)?, ..*e });
                SignedGraph {
                    sides: members.iter().filter_map(|n| self.sides.get(*n).copied()).collect(),
                    edges: self.edges.iter().filter_map(renumber).collect(),
                    ways: Vec::new(),
                    ..*self
                }
                .with_ways()
            })
            .collect()
    }
}
