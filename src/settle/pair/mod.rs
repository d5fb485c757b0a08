//! Two rings: whether they are linked, which way, and how near they come.

mod bernstein;
mod circle;
mod clearance;
mod link;
mod minima;
mod outline;
mod profile;
mod stretch;

pub use circle::Circle;
pub use clearance::{Clearance, Clearances, clearances, clearances_below};
pub use link::{Crossing, Slope, crossing, link_sign, margin_and_slope};
pub use outline::{OutlineCrossing, outline_crossings};
pub(crate) use outline::{eye_tip, lies_over};
