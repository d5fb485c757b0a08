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

pub(crate) mod pair;
pub(crate) mod show;
pub(crate) mod solve;
pub(crate) mod weave;

pub use pair::{
    Circle, Clearance, Clearances, Crossing, OutlineCrossing, Slope, clearances, clearances_below, crossing, link_sign,
    margin_and_slope, outline_crossings,
};
pub use show::SettledJson;
pub use solve::{
    Found, Near, Pose, Problem, Pull, RingSize, Tight, Wanted, find, has_links, near, poses, pull, scale, shortfall,
    tighten,
};
pub use weave::{
    AtFloor, Curled, Floor, Hold, Homes, Known, LITTLE_ROOM, Lengths, NotSettled, Other, Placed, Seat, Settled,
    SettledRing, Sits, Sizes, Start, Suits, View, Word, smallest_inner, views,
};
pub(crate) use weave::{HOLDS, room_word};
