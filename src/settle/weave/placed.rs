//! Every ring of a whole piece where it lies when the piece is drawn out.

use super::{Homes, Settled};
use crate::pattern::{FamilyId, Lattice, Shift};
use crate::rings::Piece;
use crate::settle::pair::Circle;
use glam::DMat3;
use petgraph::graph::NodeIndex;

/// A ring of a piece in space, in the unit of the pose.
#[derive(Clone, Copy, Debug)]
pub struct Placed {
    /// Its number in the piece.
    pub node: NodeIndex,
    /// Its family.
    pub family: FamilyId,
    /// Its repeat, from 1.
    pub at: Shift,
    /// Its core circle: z towards the maker; a chain runs along x.
    pub circle: Circle,
    /// The thickness of its wire.
    pub wire: f64,
    /// Which ring of the settled repeat it is, and how many repeats on: rings with the same two differences meet alike.
    pub home: (usize, Shift),
}

impl Settled {
    /// The rings of a piece where they lie when it is drawn out, in the order of the piece. Rings that only `ends` adds are
    /// left out where the repeat has none: nothing is known of how they lie.
    pub fn placed(&self, piece: &Piece) -> Vec<Placed> {
        let homes = Homes::of(self);
        let placed = piece.graph.node_indices().filter_map(|node| {
            let ring = piece.graph.node_weight(node)?;
            let family = ring.family;
            let (home, shift) = homes.of_ring(family, ring.at)?;
            let (circle, size) = (self.view.pose.image(home, shift)?, self.problem.rings.get(home)?);
            let wire = size.wire * self.wire;
            Some(Placed { node, family, at: ring.at, circle, wire, home: (home, shift) })
        });
        placed.collect()
    }

    /// Turns a sheet on the bench so that its columns run to the right, wherever it was settled; then its rows run down.
    pub fn columns_to_the_right(&self) -> DMat3 {
        let [_, column] = self.view.pose.ways;
        let aside = if self.lattice == Lattice::Sheet { libm::atan2(column.y, column.x) } else { 0.0 };
        DMat3::from_rotation_z(-aside)
    }
}
