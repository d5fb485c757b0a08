//! Which way rings are turned, so that "down" in written instructions is away from the maker.

use super::order::Order;
use crate::pattern::{Pattern, PerFamily, Repeats};
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
pub(super) fn fronts(weave: &Weave, settled: Option<&Settled>) -> PerFamily<i8> {
    settled.and_then(|settled| facing(weave, settled)).unwrap_or_else(|| weave.pattern().families.map(|_| 1))
}

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

/// Families of which some ring is passed after it is woven in: which way they are threaded matters then.
pub(super) fn passed_later(pattern: &Pattern, piece: &Piece, order: &Order) -> PerFamily<bool> {
    let mut passed = pattern.families.map(|_| false);
    for pass in order.steps.iter().flat_map(|s| &s.passes) {
        passed[piece.graph[pass.ring].family] = true;
    }
    passed
}
