//! The weight of a ring.

use std::f64::consts::PI;

/// Weight in g of a round ring of round wire: density (g/cm³) × the volume of a torus,
/// π² · (inner + wire) · wire² / 4, sizes in mm.
pub fn ring_grams(density: f64, wire_mm: f64, inner_mm: f64) -> f64 {
    density * PI * PI * (inner_mm + wire_mm) * wire_mm * wire_mm / 4.0 / 1000.0
}
