//! Where rigid round rings can lie.
//!
//! A ring here is its core circle, the line along the middle of its wire. Two questions about a pair
//! of rings carry everything else:
//!
//! - Are they linked, and which way? [`link_sign`], and [`Crossing`] for by how much.
//! - How near do they come, and where? [`clearances`] gives every place where the two lines are nearer
//!   than at all places around it, not only the nearest: rings touch at several places at once.
//!
//! Lengths are in millimetres. No function of an angle is evaluated anywhere: directions round a
//! circle are pairs of cosine and sine, so the same rings give the same bits on every machine.

mod bernstein;
mod circle;
mod clearance;
mod link;
mod minima;
mod piece;
mod profile;

pub use circle::Circle;
pub use clearance::{Clearance, Clearances, clearances, clearances_below};
pub use link::{Crossing, crossing, link_sign};
