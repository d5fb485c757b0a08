//! Wire gauges.

use crate::notation::{Number, Unit};

/// Diameter in mm of American wire gauge `n`: 0.127 mm · 92^((36 − n)/39) (ASTM B258). `None` outside
/// 0 to 40.
pub fn awg_mm(n: u32) -> Option<f64> {
    (n <= 40).then(|| 0.127 * libm::pow(92.0, (36.0 - f64::from(n)) / 39.0))
}

/// British standard wire gauge, in thousandths of an inch, number 0 first (BS 3737:1964, withdrawn; the
/// table has been legal since 1 March 1884).
const SWG_THOU: [f64; 41] = [
    324.0, 300.0, 276.0, 252.0, 232.0, 212.0, 192.0, 176.0, 160.0, 144.0, 128.0, 116.0, 104.0, 92.0, 80.0, 72.0, 64.0,
    56.0, 48.0, 40.0, 36.0, 32.0, 28.0, 24.0, 22.0, 20.0, 18.0, 16.4, 14.8, 13.6, 12.4, 11.6, 10.8, 10.0, 9.2, 8.4,
    7.6, 6.8, 6.0, 5.2, 4.8,
];

/// Diameter in mm of British standard wire gauge `n`. `None` outside 0 to 40.
pub fn swg_mm(n: u32) -> Option<f64> {
    SWG_THOU.get(n as usize).map(|thou| thou * 0.0254)
}

/// Diameter in mm of the wire that has this number in a system; `None` where there is no such wire, or `system` is
/// none.
pub(super) fn gauge_mm(system: Unit, number: &Number) -> Option<f64> {
    let table = match system {
        Unit::Awg => awg_mm,
        Unit::Swg => swg_mm,
        Unit::Mm | Unit::Cm | Unit::Inch | Unit::Gauge => return None,
    };
    number.text.parse().ok().and_then(table)
}

/// The gauge number from 0 to 40 whose wire, by `table` (mm), is nearest to `mm`, if it is within 3 %.
pub fn gauge_near(mm: f64, table: fn(u32) -> Option<f64>) -> Option<u32> {
    let off = |n: &u32| table(*n).map_or(f64::INFINITY, |d| (d - mm).abs());
    let best = (0..=40).min_by(|a, b| off(a).total_cmp(&off(b)))?;
    (off(&best) <= 0.03 * mm).then_some(best)
}
