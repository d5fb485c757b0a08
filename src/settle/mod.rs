//! Stage 5: ring graph → poses, where rigid round rings can lie.
//!
//! A ring here is its core circle, the line along the middle of its wire, thickened by its wire. Only the
//! rings of one repeat are moved; every image of them takes part. No weave carries coordinates: the text
//! alone is the input.
//!
//! 1. [`find`] goes downhill from a random start to a pose with the wanted links and thin wire.
//! 2. [`tighten`] thickens the wire as far as it goes, by a sequence of linear programs.
//! 3. [`poses`] does both from many starts, shakes what it finds, and lists the different poses.
//!
//! Two questions about a pair of rings carry all of it:
//!
//! - Are they linked, and which way? [`link_sign`], and [`Crossing`] for by how much.
//! - How near do they come, and where? [`clearances`] gives every place where the two lines are nearer
//!   than at all places around it, not only the nearest: rings touch at several places at once.
//!
//! Lengths are in millimetres. Random numbers come from a fixed generator with fixed seeds, and the only
//! functions of an angle are those of `libm`, so the same rings give the same bits on every machine.
//!
//! Not yet here: lying statements and lean choosing among poses, pulling at real sizes, how accents sit.

mod bernstein;
mod circle;
mod clearance;
mod find;
mod link;
mod minima;
mod piece;
mod poses;
mod problem;
mod profile;
mod tighten;

pub use circle::Circle;
pub use clearance::{Clearance, Clearances, clearances, clearances_below};
pub use find::{find, has_links};
pub use link::{Crossing, crossing, link_sign};
pub use poses::poses;
pub use problem::{Pose, Problem, RingSize, Wanted};
pub use tighten::{Tight, scale, tighten};
