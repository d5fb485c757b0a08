//! Rings cut from a coil: how far it springs open, and how wide the saw cut is. Estimates: measure a ring of your own.

use super::material::material;

/// How much larger the hole of a coil is than the mandrel it was wound on, percent, from and to, by material. Makers'
/// measurements; temper, wire and mandrel change it.
const SPRINGBACK: [(&str, [f64; 2]); 3] =
    [("copper", [0.0, 0.0]), ("sterling silver", [4.0, 4.0]), ("stainless steel", [10.0, 14.0])];

/// Width of a saw cut, mm, from and to. Makers' measurements.
pub const KERF_MM: [f64; 2] = [0.15, 0.25];

/// How much larger than its mandrel the hole of a coil of a material is, percent, from and to: an estimate, from
/// makers' measurements. `None` for a material that nobody measured.
pub fn springback_percent(words: &str) -> Option<[f64; 2]> {
    let name = material(words)?.name;
    SPRINGBACK.iter().find(|(known, _)| *known == name).map(|(_, percent)| *percent)
}

/// The materials whose springback is known, separated by commas.
pub fn springback_known() -> String {
    SPRINGBACK.map(|(name, _)| name).join(", ")
}

/// Inner diameter, mm, of a coil that was wound on a mandrel and springs open by `percent`.
pub fn coil_inner_mm(mandrel_mm: f64, percent: f64) -> f64 {
    mandrel_mm * (1.0 + percent / 100.0)
}

/// Inner diameter, mm, of a ring that is closed after a cut `kerf_mm` wide: the middle line of the wire is shorter by
/// the kerf, and so its diameter by kerf / π.
pub fn closed_inner_mm(inner_mm: f64, kerf_mm: f64) -> f64 {
    inner_mm - kerf_mm / std::f64::consts::PI
}
