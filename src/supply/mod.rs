//! Stage 6: wire gauges, sizes, materials, counts and weights.

mod gauge;
mod size;

pub use gauge::{awg_mm, gauge_near, swg_mm};
pub use size::{KindSize, millimetres, repeats_for_length, sizes};
