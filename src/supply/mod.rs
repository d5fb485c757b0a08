//! Wire gauges, sizes, materials, packings, counts and weights; what is on the shelf.

mod class;
mod coil;
mod colours;
mod columns;
mod convert;
mod counts;
mod extent;
mod gauge;
mod grid;
mod json;
mod length;
mod mass;
mod material;
mod packing;
mod reach;
mod records;
mod shelf;
mod shopping;
mod size;
mod sold;
mod table;
mod twice;
mod words;

pub use class::{BagCount, Class};
pub use coil::{KERF_MM, closed_inner_mm, coil_inner_mm, springback_known, springback_percent};
pub use colours::{ColourCount, Colours};
pub use convert::{coiled, conversion};
pub use counts::{Counts, FamilyCount, KindCount};
pub use extent::{Extent, repeats_for_extent, sheet_with};
pub use gauge::{awg_mm, gauge_near, swg_mm};
pub use grid::{Grid, Layout};
pub use length::{LengthCount, repeats_for_length, repeats_with};
pub use mass::ring_grams;
pub use material::{MATERIALS, Material, known_materials, material, materials_called, nearest_material};
pub use packing::{PROVED, hole_needed, packing_ratio, proved_ratio};
pub use reach::{Edges, Reach};
pub use shelf::{Shelf, ShelfFault, ShelfRing};
pub use shopping::{Need, Want, needs, shopping, shopping_json, wants, wants_json};
pub use size::{KindSize, decimals, fraction, half_step, length_mm, millimetres, sizes, some_stretch, stretches};
pub(crate) use sold::sold_and_measured;
pub(crate) use table::{fixed, half_up, written};
pub use twice::{Twice, gives, twice};
pub use words::{Measure, measure, read_number, read_size};

/// JSON Schema of what `byrnie count --json` prints.
pub const COUNT_SCHEMA: &str = include_str!("../../grammar/count.schema.json");
