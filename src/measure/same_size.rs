//! A size written twice, once in brackets: do both say the same?

use super::gauge::{awg_mm, swg_mm};
use super::size::{half_step, millimetres};
use crate::notation::{Size, Unit};

/// What comes of comparing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Twice {
    /// The same, or not comparable because one of them is no size.
    Agree,
    /// A gauge and a size beside it that is not its diameter.
    Gauge,
    /// The same, and the gauge's number in the other system has the diameter written beside it.
    OtherSystem {
        /// Whether the gauge stands in the brackets.
        in_brackets: bool,
        /// The system meant.
        system: Unit,
        /// The diameter of that number there, mm.
        mm: f64,
    },
    /// Inches or millimetres that differ.
    Length,
}

/// The least difference that counts, mm: makers measure wire with callipers that show 0.01 mm, and wire
/// itself varies by as much.
const FINEST: f64 = 0.02;
/// Differences beyond this count however roughly a size was written, mm. A whole "1 mm" means the
/// metric wire, not anything from 0.5 to 1.5; neighbouring gauges lie 0.06 to 0.3 mm apart.
const COARSEST: f64 = 0.05;

/// Compares a size with the same size in brackets. A number written out is taken as rounded to its own
/// decimals: 1.2 mm is anything from 1.15 to 1.25, but no difference under 0.02 mm counts and every
/// difference over 0.05 mm does. A gauge and a fraction of an inch are exact.
pub fn twice(size: &Size, brackets: &Size) -> Twice {
    let (Some(one), Some(other)) = (millimetres(size), millimetres(brackets)) else { return Twice::Agree };
    let allowed = gives(size).max(gives(brackets));
    if (one - other).abs() <= allowed {
        return Twice::Agree;
    }
    let meant = |gauge: &Size, beside: f64, in_brackets: bool| {
        let (system, table): (Unit, fn(u32) -> Option<f64>) = match gauge.unit {
            Unit::Awg => (Unit::Swg, swg_mm),
            Unit::Swg => (Unit::Awg, awg_mm),
            Unit::Mm | Unit::Inch | Unit::Gauge => return None,
        };
        let mm = table(gauge.number.text.parse().ok()?)?;
        ((mm - beside).abs() <= allowed).then_some(Twice::OtherSystem { in_brackets, system, mm })
    };
    match (is_gauge(size), is_gauge(brackets)) {
        (true, false) => meant(size, other, false).unwrap_or(Twice::Gauge),
        (false, true) => meant(brackets, one, true).unwrap_or(Twice::Gauge),
        (true, true) => Twice::Gauge,
        (false, false) => Twice::Length,
    }
}

fn is_gauge(size: &Size) -> bool {
    matches!(size.unit, Unit::Awg | Unit::Swg | Unit::Gauge)
}

/// How far a size may be from the one it means, mm: half of its last place, but never under 0.02 nor over 0.05 mm; a gauge and
/// a fraction of an inch are exact.
pub fn gives(size: &Size) -> f64 {
    let rounding = match size.unit {
        Unit::Mm => half_step(&size.number),
        Unit::Inch => half_step(&size.number) * 25.4,
        Unit::Awg | Unit::Swg | Unit::Gauge => 0.0,
    };
    rounding.clamp(FINEST, COARSEST) + 1e-9
}
