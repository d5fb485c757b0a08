//! Pose and graph → how many rings, how long, how heavy; bags of a class, and the same piece in several sets of rings.

mod asked;
mod class;
mod colours;
mod counts;
mod extent;
mod json;
mod length;
mod reach;
mod sets;
mod sold;
mod table;
mod wants;

pub(crate) use class::NO_COLOUR;
pub use class::{BagCount, Class};
pub use colours::{ColourCount, Colours};
pub use counts::{Counts, FamilyCount, KindCount, SizeFrom};
pub use extent::Extent;
pub(crate) use extent::sheet_with;
pub(crate) use json::SoldJson;
pub use json::{ClassJson, GaugeJson, PieceJson};
pub use length::LengthCount;
pub(crate) use length::repeats_with;
pub use reach::{Edges, Reach};
pub use sets::{Gauge, gauges, gauges_table};
pub(crate) use sold::sold_and_measured;
pub use wants::{Want, wants};
pub(crate) use wants::{alike, one_material};
