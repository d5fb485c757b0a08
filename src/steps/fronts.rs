//! Which way rings are turned, so that "down" in written instructions is away from the maker.

use super::order::Order;
use crate::pattern::Repeats;
use crate::rings::{Piece, turnings};
use crate::settle::{Settled, link_sign};
use crate::weave::Weave;
use petgraph::graph::NodeIndex;
use std::collections::BTreeMap;

/// A ring whose front is turned from the viewer by more than what has this cosine stands on edge.
const ON_EDGE: f64 = 0.15;
/// So many repeats, or rows and columns, show how rings are turned.
const SHOWN: u32 = 6;

/// For every family +1, or −1 where its rings are taken the other way round than the text does, so that every front faces
/// the maker. All +1 where the pose does not say: rings stand on edge, or are turned otherwise in every second repeat.
pub(super) fn fronts(weave: &Weave, settled: Option<&Settled>) -> Vec<i8> {
    let families = weave.pattern().families.len();
    settled.and_then(|settled| facing(weave, settled)).unwrap_or_else(|| vec![1; families])
}

fn facing(weave: &Weave, settled: &Settled) -> Option<Vec<i8>> {
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
    let mut of_families = vec![0_i8; weave.pattern().families.len()];
    for (ring, way) in turned {
        let slot = of_families.get_mut(piece.graph.node_weight(ring)?.family as usize)?;
        if *slot == -way {
            return None;
        }
        *slot = way;
    }
    Some(of_families.into_iter().map(|way| if way == 0 { 1 } else { way }).collect())
}

/// Families of which some ring is passed after it is woven in: which way they are threaded matters then.
pub(super) fn passed_later(piece: &Piece, order: &Order, families: usize) -> Vec<bool> {
    let mut passed = vec![false; families];
    for pass in order.steps.iter().flat_map(|s| &s.passes) {
        let family = piece.graph.node_weight(pass.ring).map(|r| r.family as usize);
        if let Some(slot) = family.and_then(|f| passed.get_mut(f)) {
            *slot = true;
        }
    }
    passed
}
