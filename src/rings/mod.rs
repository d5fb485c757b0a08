//! Pattern → links with signs, the graph of one repeat, the whole piece, the fingerprint.

mod cell;
mod fingerprint;
mod graph;
mod piece;
mod signed_graph;
mod signs;
mod smallest;
mod sublattice;
mod turning;

pub use cell::{Cell, CellLink, CellRing, MOST_IN_REPEAT, TooWide};
pub use fingerprint::{Fingerprint, fingerprint};
pub use graph::Graph;
pub use piece::{MOST_RINGS, Piece, PieceLink, Ring, TooMany};
pub use signs::{Conflict, Double, Link, Links};
pub use sublattice::{Sublattice, gcd};
pub use turning::turnings;
