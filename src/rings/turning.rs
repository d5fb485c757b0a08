//! Turning rings over: it changes the signs of a ring's links, and nothing real (Zaslavsky, "Signed graphs", Discrete Appl.
//! Math. 4, 1982).

use super::piece::Piece;
use petgraph::graph::NodeIndex;
use petgraph::visit::EdgeRef;
use std::collections::BTreeMap;

/// Which rings of a piece are to be turned over, as −1, so that the signs of its links become others: `apart` says of a link,
/// by its two rings and its sign, whether the other sign is the same (+1) or the opposite (−1). Of each part that hangs
/// together the first ring is left as it is. `None` where that cannot be done, or `apart` says nothing. Time grows with the
/// number of links.
pub fn turnings(
    piece: &Piece,
    apart: impl Fn(NodeIndex, NodeIndex, i8) -> Option<i8>,
) -> Option<BTreeMap<NodeIndex, i8>> {
    let mut turned: BTreeMap<NodeIndex, i8> = BTreeMap::new();
    for start in piece.graph.node_indices() {
        if turned.contains_key(&start) {
            continue;
        }
        turned.insert(start, 1);
        let mut front = vec![start];
        while let Some(ring) = front.pop() {
            let own = turned.get(&ring).copied()?;
            for edge in piece.graph.edges(ring) {
                let other = if edge.source() == ring { edge.target() } else { edge.source() };
                let wanted = own * apart(ring, other, edge.weight().sign)?;
                match turned.get(&other) {
                    Some(known) if *known != wanted => return None,
                    Some(_) => {}
                    None => {
                        turned.insert(other, wanted);
                        front.push(other);
                    }
                }
            }
        }
    }
    Some(turned)
}
