//! Ring graph → poses, where rigid round rings can lie.
//!
//! A ring here is its core circle, the line along the middle of its wire, thickened by its wire. Only the
//! rings of one repeat are moved; every image of them takes part. No weave carries coordinates: the text
//! alone is the input.
//!
//! 1. [`find`] goes downhill from a start, laid out as the links suggest or random, to a pose with the wanted
//!    links and thin wire.
//! 2. [`tighten`] thickens the wire as far as it goes, by a sequence of linear programs.
//! 3. [`poses`] does both from many starts, shakes what it finds, and lists the different poses.
//! 4. [`pull`] draws a pose taut, or pushes it together, with wire as it is.
//! 5. [`views`] lays a chain flat on the bench in every way in which what the text says of lying holds, and
//!    reads the lean.
//!
//! Two questions about a pair of rings carry all of it:
//!
//! - Are they linked, and which way? [`link_sign`], and [`Crossing`] for by how much.
//! - How near do they come, and where? [`clearances`] gives every place where the two lines are nearer
//!   than at all places around it, not only the nearest: rings touch at several places at once.
//!
//! Lengths are in millimetres. Random numbers come from a fixed generator with fixed seeds, and the only
//! functions of an angle are those of `libm`, so the same rings give the same bits on every machine.

mod accent;
mod base;
mod bernstein;
mod bundle;
mod circle;
mod clearance;
mod curled;
mod descent;
mod find;
mod floor;
mod folding;
mod hold;
mod homes;
mod inner;
mod json;
mod lacks;
mod link;
mod measure;
mod minima;
mod near;
mod net;
mod orient;
mod outline;
mod place;
mod poses;
mod problem;
mod profile;
mod program;
mod pull;
mod resized;
mod rock;
mod schema;
mod settled;
mod sizes;
mod start;
mod step;
mod stretch;
mod table;
mod tighten;
mod view;

pub use accent::{Sits, Word};
pub use circle::Circle;
pub use clearance::{Clearance, Clearances, clearances, clearances_below};
pub use curled::Curled;
pub use find::{find, has_links};
pub use floor::{proved_ratio_of, smallest_inner};
pub use hold::{LITTLE_ROOM, Suits};
pub use homes::Homes;
pub use lacks::shortfall;
pub use link::{Crossing, Slope, crossing, link_sign, margin_and_slope};
pub use near::{Near, near, scale};
pub use outline::{OutlineCrossing, outline_crossings};
pub use poses::{Found, poses};
pub use problem::{Pose, Problem, RingSize, Wanted};
pub use pull::pull;
pub use resized::Start;
pub use schema::SETTLE_SCHEMA;
pub use settled::{Floor, Lengths, MOST_IN_BASE, NotSettled, Other, Settled};
pub use sizes::{Known, Sizes};
pub use tighten::{Tight, tighten};
pub use view::{View, views};
