//! A size written twice, once in brackets: are both the same?

use super::gauge::gauge_mm;
use super::size::{half_step, millimetres};
use crate::notation::{Size, Unit};

/// What comes of comparing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Twice {
    /// The same, or not comparable because there is no such size as one of them.
    Agree,
    /// A gauge, and a size beside it that is not its diameter.
    Gauge,
    /// A gauge, and beside it the diameter that its number has in the other system.
    OtherSystem {
        /// Whether the gauge is the one in brackets.
        in_brackets: bool,
        /// The system meant.
        system: Unit,
        /// The diameter of that number there, mm.
        mm: f64,
    },
    /// Lengths that differ.
    Length,
}

/// Smaller differences do not count, mm: makers measure wire with callipers that show 0.01 mm, and wire itself varies
/// by as much.
const FINEST: f64 = 0.02;
/// Larger differences always count, however roughly a size was written, mm. A whole "1 mm" means the metric wire, not
/// anything from 0.5 to 1.5; neighbouring gauges are 0.06 to 0.3 mm apart.
const COARSEST: f64 = 0.05;

/// Compares a size with the same size in brackets, with the tolerance of the coarser one: see [`gives`].
pub fn twice(size: &Size, brackets: &Size) -> Twice {
    let (Some(one), Some(other)) = (millimetres(size), millimetres(brackets)) else { return Twice::Agree };
    let allowed = gives(size).max(gives(brackets));
    if (one - other).abs() <= allowed {
        return Twice::Agree;
    }
    let meant = |gauge: &Size, beside: f64, in_brackets: bool| {
        let system = gauge.unit.other_system()?;
        let mm = gauge_mm(system, &gauge.number)?;
        ((mm - beside).abs() <= allowed).then_some(Twice::OtherSystem { in_brackets, system, mm })
    };
    match (size.unit.is_gauge(), brackets.unit.is_gauge()) {
        (true, false) => meant(size, other, false).unwrap_or(Twice::Gauge),
        (false, true) => meant(brackets, one, true).unwrap_or(Twice::Gauge),
        (true, true) => Twice::Gauge,
        (false, false) => Twice::Length,
    }
}

/// How far a size may be from the one it means, mm: a number is taken as rounded to its decimals (1.2 mm is 1.15 to
/// 1.25), but never to less than 0.02 nor more than 0.05 mm. A gauge and a fraction of an inch are exact.
pub fn gives(size: &Size) -> f64 {
    let rounding = size.unit.mm().map_or(0.0, |mm| half_step(&size.number) * mm);
    rounding.clamp(FINEST, COARSEST) + 1e-9
}
