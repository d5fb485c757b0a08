//! Gauges, sizes, materials, packings and weights: what a number means in mm and g.

mod coil;
mod convert;
mod gauge;
mod mass;
mod material;
mod packing;
mod read;
mod same_size;
mod size;

pub use coil::{KERF_MM, closed_inner_mm, coil_inner_mm, springback_percent};
pub use convert::{NotCoiled, coiled, conversion};
pub use gauge::{awg_mm, gauge_near, swg_mm};
pub use mass::ring_grams;
pub(crate) use material::known_materials;
pub use material::{MATERIALS, Material, material, materials_called, nearest_material};
pub use packing::{PROVED, hole_needed, packing_ratio, proved_ratio};
pub use read::{NoSuchSize, read_size};
pub use same_size::{Twice, gives, twice};
pub(crate) use size::{decimals, fraction, half_step};
pub(crate) use size::{in_mm, written};
pub use size::{length_mm, millimetres};
