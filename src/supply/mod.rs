//! Stage 7: wire gauges, sizes, materials, packings, counts and weights; what is on the shelf.

mod colours;
mod columns;
mod counts;
mod gauge;
mod json;
mod length;
mod mass;
mod material;
mod packing;
mod records;
mod shelf;
mod size;
mod table;
mod twice;
mod words;

pub use colours::{ColourCount, Colours};
pub use counts::{Counts, FamilyCount, KindCount};
pub use gauge::{awg_mm, gauge_near, swg_mm};
pub use length::{LengthCount, repeats_for_length, repeats_of_pitch};
pub use mass::ring_grams;
pub use material::{MATERIALS, Material, known_materials, material, materials_called, nearest_material};
pub use packing::{PROVED, hole_needed, packing_ratio, proved_ratio};
pub use shelf::{Shelf, ShelfFault, ShelfRing};
pub use size::{KindSize, decimals, half_step, length_mm, millimetres, sizes, some_stretch, stretches};
pub(crate) use table::written;
pub use twice::{Twice, twice};
pub use words::{Measure, measure, read_number, read_size};
