//! Sizes as written → millimetres.

use super::gauge::{awg_mm, swg_mm};
use crate::notation::{Number, Size, Unit};
use crate::text::half_up;

/// A size in mm; `None` where there is no such size: nought, a fraction over nought, a gauge that is
/// not a whole number from 0 to 40, or one whose system nobody says.
pub fn millimetres(size: &Size) -> Option<f64> {
    let value = size.number.value;
    let gauge = |table: fn(u32) -> Option<f64>| {
        let whole = size.number.text.parse().ok()?;
        table(whole)
    };
    match size.unit {
        Unit::Mm => Some(value),
        Unit::Inch => Some(value * 25.4),
        Unit::Awg => gauge(awg_mm),
        Unit::Swg => gauge(swg_mm),
        Unit::Gauge => None,
    }
    .filter(|mm| mm.is_finite() && *mm > 0.0)
}

/// A length or an inner diameter in mm; `None` where there is no such size. A gauge measures wire only.
pub fn length_mm(size: &Size) -> Option<f64> {
    matches!(size.unit, Unit::Mm | Unit::Inch).then(|| millimetres(size)).flatten()
}

/// How many decimals a number was written with; `None` for a fraction, which is exact.
pub fn decimals(number: &Number) -> Option<u32> {
    if number.text.contains('/') {
        return None;
    }
    let behind = number.text.split_once('.').map_or(0, |(_, behind)| behind.len());
    Some(u32::try_from(behind).unwrap_or(u32::MAX))
}

/// How far a number may be from the truth and still be it, rounded to the decimals written: half of the
/// last place, 0 for a fraction.
pub fn half_step(number: &Number) -> f64 {
    decimals(number).map_or(0.0, |d| 0.5 * libm::pow(10.0, -f64::from(d)))
}

/// So many 64ths in lowest terms: "17/64", "1 1/4".
pub fn fraction(parts: f64) -> String {
    let (mut under, whole) = (64.0, libm::floor(parts / 64.0));
    let mut over = parts - 64.0 * whole;
    while over > 0.0 && libm::fmod(over, 2.0) == 0.0 {
        (over, under) = (over / 2.0, under / 2.0);
    }
    match (whole > 0.0, over > 0.0) {
        (true, true) => format!("{whole:.0} {over:.0}/{under:.0}"),
        (true, false) => format!("{whole:.0}"),
        _ => format!("{over:.0}/{under:.0}"),
    }
}

/// A size as written, with the millimetres beside other units.
pub(crate) fn written(size: Option<&Size>, mm: Option<f64>) -> String {
    match (size, mm) {
        (Some(size), Some(mm)) if size.unit != Unit::Mm => {
            format!("{} ({:.2} mm)", size.words(), half_up(mm, 2))
        }
        (Some(size), _) => size.words(),
        (None, mm) => mm.map_or("?".to_owned(), |mm| format!("{:.2} mm", half_up(mm, 2))),
    }
}
