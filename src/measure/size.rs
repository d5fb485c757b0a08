//! Sizes as written → millimetres.

use super::gauge::gauge_mm;
use crate::notation::{Number, Size, Unit};
use crate::text::half_up;

/// A size in mm; `None` where there is no such size: 0, a fraction over 0, a gauge that is not a whole number from 0 to
/// 40, or a gauge whose system is not given.
pub fn millimetres(size: &Size) -> Option<f64> {
    let mm = match size.unit.mm() {
        Some(mm) => Some(size.number.value * mm),
        None => gauge_mm(size.unit, &size.number),
    };
    mm.filter(|mm| mm.is_finite() && *mm > 0.0)
}

/// A length or an inner diameter in mm; `None` where there is no such size. A gauge measures wire only.
pub fn length_mm(size: &Size) -> Option<f64> {
    millimetres(size).filter(|_| !size.unit.is_gauge())
}

/// How many decimals a number was written with; `None` for a fraction, which is exact.
pub fn decimals(number: &Number) -> Option<u32> {
    if number.text.contains('/') {
        return None;
    }
    let after_point = number.text.split_once('.').map_or(0, |(_, decimals)| decimals.len());
    u32::try_from(after_point).ok()
}

/// How far from the truth a number may be that was rounded to its decimals: half of the last place, 0 for a fraction.
pub fn half_step(number: &Number) -> f64 {
    decimals(number).map_or(0.0, |d| 0.5 * libm::pow(10.0, -f64::from(d)))
}

/// A whole number of 64ths in lowest terms: "17/64", "1 1/4".
pub fn fraction(parts: f64) -> String {
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // Not negative, and clamped.
    let parts = parts.clamp(0.0, 1e9) as u32;
    let (whole, mut over, mut under) = (parts / 64, parts % 64, 64);
    while over > 0 && over % 2 == 0 {
        (over, under) = (over / 2, under / 2);
    }
    match (whole, over) {
        (0, _) => format!("{over}/{under}"),
        (_, 0) => whole.to_string(),
        _ => format!("{whole} {over}/{under}"),
    }
}

/// A size as written, with the millimetres after other units: "1.2 mm", "18 swg (1.22 mm)".
pub(crate) fn written(size: &Size) -> String {
    match millimetres(size).filter(|_| size.unit != Unit::Mm) {
        Some(mm) => format!("{} ({})", size.words(), in_mm(mm)),
        None => size.words(),
    }
}

/// "1.22 mm"
pub(crate) fn in_mm(mm: f64) -> String {
    format!("{:.2} mm", half_up(mm, 2))
}
