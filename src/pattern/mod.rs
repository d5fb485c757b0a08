//! Tree → families, repeats, passes, lying, accents, ends, sizes and claims.
//!
//! The pattern holds what could be made sense of and never reports: a name it cannot resolve is left
//! out and [`Pattern::whole`] says so; the rules of the lint stage find and explain the fault.

mod base;
mod build;
mod family_id;
mod kind_size;
mod lies;
mod model;
mod repeats;
mod shift;

pub use base::{BaseFault, Bases, Found, NoBases, WeaveFile, gather};
pub use build::build;
pub use family_id::{FamilyId, PerFamily};
pub use kind_size::{KindSize, sizes};
pub(crate) use kind_size::{some_stretch, stretches};
pub use lies::Lies;
pub use model::{
    Accent, Bag, ColourPattern, End, EndPlace, Family, Kind, Lattice, Lying, Make, Meet, Pass, Pattern, RingSet, Sense,
    Target,
};
pub use repeats::Repeats;
pub use shift::Shift;

/// The most bases that may be built on one another.
pub const MOST_BASES: usize = 16;
/// How many repeats apart two rings named in one statement may be.
pub const FARTHEST: i32 = 100;
/// The most sets of rings of a text: each is settled. Of this and the next three limits a pattern holds one more than
/// is allowed where the text does, so that the fault can be seen.
pub const MOST_SETS: usize = 12;
/// The most bags of a kit or class: each is counted.
pub const MOST_BAGS: usize = 200;
/// The most families of rings in one weave.
pub const MOST_FAMILIES: usize = 500;
/// The most accents, and the most rings named in `ends`.
pub const MOST_EXTRAS: usize = 200;
