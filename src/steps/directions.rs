//! Which way rings are turned, so that "down" in written instructions is away from the maker.

use super::events::Direction;
use super::order::{Order, Passing, Step};
use crate::pattern::{PerFamily, Repeats};
use crate::rings::{Piece, turnings};
use crate::settle::{Settled, link_sign};
use crate::weave::Weave;
use petgraph::graph::NodeIndex;
use std::collections::BTreeMap;

/// Cosine between a ring's normal and the line of sight below which the ring is seen on edge.
const ON_EDGE: f64 = 0.15;
/// Repeats, or rows and columns, that are enough to see how rings are turned.
const SHOWN: u32 = 6;

/// Which way rings are passed, as instructions tell it: with fronts towards the maker where the pose says which side that is.
pub struct Directions {
    /// For every family +1, or −1 where its rings are taken the other way round than the text does, so that every front faces
    /// the maker. All +1 where the pose does not say: rings are seen on edge, or are turned over in every second repeat.
    fronts: PerFamily<i8>,
    /// Families of which some ring is passed after it is woven in: for those it matters which way they are threaded.
    passed_later: PerFamily<bool>,
}

impl Directions {
    /// The directions of all steps of a piece.
    pub fn of(weave: &Weave, settled: Option<&Settled>, piece: &Piece, order: &Order) -> Self {
        let families = &weave.pattern().families;
        let mut passed_later = families.map(|_| false);
        for pass in order.steps.iter().flat_map(|s| &s.passes) {
            passed_later[piece.graph[pass.ring].family] = true;
        }
        let fronts = settled.and_then(|settled| facing(weave, settled)).unwrap_or_else(|| families.map(|_| 1));
        Self { fronts, passed_later }
    }

    /// +1 where the front of a ring is the one the text of the weave means, else −1.
    pub(super) fn front(&self, piece: &Piece, ring: NodeIndex) -> i8 {
        self.fronts[piece.graph[ring].family]
    }

    /// The rings a step passes, in the order instructions name them, and which way.
    pub fn passes(&self, piece: &Piece, step: &Step) -> Vec<(NodeIndex, Direction)> {
        let own = self.front(piece, step.ring);
        let direction = |pass: &Passing| Direction::of_sign(pass.sign * own * self.front(piece, pass.ring));
        let mut passes: Vec<(NodeIndex, Direction)> = step.passes.iter().map(|p| (p.ring, direction(p))).collect();
        // A ring that none passes later may be threaded from either end.
        let free = !self.passed_later[piece.graph[step.ring].family];
        if free && passes.first().is_some_and(|(_, direction)| *direction == Direction::Up) {
            for (_, direction) in &mut passes {
                *direction = direction.other();
            }
        }
        passes
    }
}

/// The fronts that face the maker in the settled pose; `None` where it does not say.
fn facing(weave: &Weave, settled: &Settled) -> Option<PerFamily<i8>> {
    let Repeats([first, second]) = weave.size();
    let size = Repeats([first.min(SHOWN), second.min(SHOWN)]);
    let piece = weave.piece(size).ok()?;
    if settled.closes() == Some(false) {
        return None;
    }
    let circles: BTreeMap<NodeIndex, _> = settled.placed(&piece).iter().map(|r| (r.node, r.circle)).collect();
    if circles.values().any(|c| c.normal.z.abs() < ON_EDGE) {
        return None;
    }
    // What the sign of a link is with all fronts up.
    let up = |one: NodeIndex, other: NodeIndex| -> Option<i8> {
        let (a, b) = (circles.get(&one)?, circles.get(&other)?);
        let turned = (a.normal.z < 0.0) != (b.normal.z < 0.0);
        Some(if turned { -link_sign(a, b) } else { link_sign(a, b) })
    };
    let turned = turnings(&piece, |one, other, sign| Some(sign * up(one, other)?))?;
    let mut of_families = weave.pattern().families.map(|_| 0_i8);
    for (ring, way) in turned {
        let slot = &mut of_families[piece.graph.node_weight(ring)?.family];
        if *slot == -way {
            return None;
        }
        *slot = way;
    }
    Some(of_families.map(|way| if *way == 0 { 1 } else { *way }))
}
