//! Pattern → links with signs, the graph of one repeat, the whole piece, the fingerprint.

mod cell;
mod export;
mod fingerprint;
mod net;
mod piece;
mod signs;
mod smallest;
mod sublattice;
mod turning;

pub use cell::{Cell, CellLink, CellRing, TooWide};
pub use export::{GRAPH_SCHEMA, graph_dot, graph_json};
pub use fingerprint::{Fingerprint, fingerprint};
pub use piece::{MOST_RINGS, Piece, PieceLink, Ring, Size, TooMany};
pub use signs::{Conflict, Double, Link, Links};
pub use sublattice::{Sublattice, gcd};
pub use turning::turnings;
