//! How much room wires need to pass through one hole.
//!
//! A ring that is linked with another crosses the plane of the other's hole at one point inside the hole. Around that
//! point the plane cuts a disc as wide as the wire out of the wire. Wires cannot enter one another or the ring they
//! pass, so the discs are side by side inside the hole: a hole can hold the wires only if a circle of its diameter can
//! hold the discs. This is a lower bound: a weave may need more room, never less.

/// Diameter of the smallest circle that holds n circles of diameter 1, for n = 1 to 20 (Graham,
/// Lubachevsky, Nurmela, Östergård, Discrete Math. 181 (1998) 139–154; Kravitz, Math. Mag. 40 (1967)
/// 65–70).
const RATIOS: [f64; 20] = [
    1.0,
    2.0,
    2.154_700_538,
    2.414_213_562,
    2.701_301_617,
    3.0,
    3.0,
    3.304_764_871,
    3.613_125_930,
    3.813_025_631,
    3.923_804_400,
    4.029_601_930,
    4.236_067_978,
    4.328_428_555,
    4.521_356_965,
    4.615_425_595,
    4.792_033_748,
    4.863_703_305,
    4.863_703_305,
    5.122_320_737,
];

/// Up to this many circles the ratio is proved to be the smallest (n = 11 Melissen 1994, n = 12 Fodor 2000, n = 13
/// Fodor 2003); for more circles it is the best known.
pub const PROVED: usize = 13;

/// The smallest circle known to hold n equal circles, as a multiple of their diameter; 0 for none, `None`
/// beyond 20.
pub fn packing_ratio(n: usize) -> Option<f64> {
    match n {
        0 => Some(0.0),
        _ => RATIOS.get(n - 1).copied(),
    }
}

/// No circle narrower than this multiple of their diameter holds n equal circles. Proved for every n:
/// up to 13 it is the proved ratio; more circles need at least the room of 13 of them, and at least their own area,
/// which gives the multiple √n.
pub fn proved_ratio(n: usize) -> f64 {
    let known = packing_ratio(n.min(PROVED)).unwrap_or(0.0);
    if n <= PROVED {
        return known;
    }
    known.max(libm::sqrt(f64::from(u32::try_from(n).unwrap_or(u32::MAX))))
}

/// No hole narrower than this holds wires of these thicknesses side by side (same unit in and out).
/// It is the largest of three bounds, each of them proved:
///
/// - for every k, the k thickest wires are each at least as thick as the k-th, so they need the room of k
///   equal wires of that thickness;
/// - the two thickest, side by side, need the sum of both: their centres are at least half that sum apart,
///   and each keeps its own half thickness from the rim;
/// - the areas of the discs add up to no more than the area of the hole: D² ≥ Σ w².
///
/// Thicknesses that are not positive and finite are left out.
pub fn hole_needed(wires: &[f64]) -> f64 {
    let mut wires: Vec<f64> = wires.iter().copied().filter(|w| w.is_finite() && *w > 0.0).collect();
    wires.sort_by(|a, b| b.total_cmp(a));
    let alike = wires.iter().enumerate().map(|(i, w)| proved_ratio(i + 1) * w);
    let two: f64 = if wires.len() > 1 { wires.iter().take(2).sum() } else { 0.0 };
    let area = libm::sqrt(wires.iter().map(|w| w * w).sum());
    // One wire alone needs exactly its own thickness; the root of its square may come out a hair more.
    let area = if wires.len() > 1 { area } else { 0.0 };
    alike.fold(two.max(area), f64::max)
}
