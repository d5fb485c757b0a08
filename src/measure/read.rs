//! Reading a size outside of a weave file (a cell of a shelf, the command line), and checking that there is such a
//! size.

use super::gauge::gauge_mm;
use super::same_size::{Twice, twice};
use super::size::{in_mm, millimetres};
use crate::notation::{NotASize, Size, Unit};
use thiserror::Error;

/// Why there is no such size. The message goes on after the words in backticks.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum NoSuchSize {
    /// It cannot be read.
    #[error(transparent)]
    NotASize(#[from] NotASize),
    /// A bare gauge that is a wire in both systems, mm.
    #[error("may be {awg_mm:.2} mm (AWG, American) or {swg_mm:.2} mm (SWG, British); write `awg` or `swg` after it")]
    TwoSystems {
        /// Its wire in the American system, mm.
        awg_mm: f64,
        /// Its wire in the British system, mm.
        swg_mm: f64,
    },
    /// A gauge that no system has.
    #[error("is not a gauge; gauges are whole numbers from 0 to 40")]
    NoSuchGauge,
    /// A fraction over 0.
    #[error("divides by 0")]
    DividesByZero,
    /// 0
    #[error("is not a size; a size must be greater than 0")]
    Zero,
    /// The size in brackets is another one.
    #[error("gives two sizes: {} is {}, and {} is {}; write the right one", .0.words(), mm(.0), .1.words(), mm(.1))]
    Differ(Size, Size),
    /// The size in brackets is the wire of the same number in the other system: the gauge as written, and as it is
    /// meant.
    #[error("gives two sizes: {} is {}; {} is {}", .0.words(), mm(.0), mm(.1), .1.words())]
    OtherSystem(Size, Size),
}

/// "1.22 mm"; empty where there is no such size.
fn mm(size: &Size) -> String {
    millimetres(size).map(in_mm).unwrap_or_default()
}

/// A size as a maker writes it: see [`Size::read`]. A number alone is in `unit`, and so is a bare gauge (`18 ga`) where
/// `unit` is a system of gauges. The same size may follow in brackets (`18 swg (1.22 mm)`); it gives the system of a
/// bare gauge.
///
/// # Errors
/// [`NoSuchSize`].
pub fn read_size(words: &str, unit: Option<Unit>) -> Result<Size, NoSuchSize> {
    let by_brackets = |system| match read_twice(words, Some(system)) {
        Ok((size, Some(again))) if size.unit == system && twice(&size, &again) == Twice::Agree => Some((size, None)),
        _ => None,
    };
    let (size, again) =
        read_twice(words, unit).or_else(|why| [Unit::Awg, Unit::Swg].into_iter().find_map(by_brackets).ok_or(why))?;
    let Some(again) = again else { return Ok(size) };
    match twice(&size, &again) {
        Twice::Agree => Ok(size),
        Twice::OtherSystem { in_brackets, system, .. } => {
            let gauge = if in_brackets { again } else { size };
            let meant = Size::new(gauge.number.clone(), system, gauge.span);
            Err(NoSuchSize::OtherSystem(gauge, meant))
        }
        Twice::Gauge | Twice::Length => Err(NoSuchSize::Differ(size, again)),
    }
}

/// A size, and the same again in brackets; there is such a size as either.
fn read_twice(words: &str, unit: Option<Unit>) -> Result<(Size, Option<Size>), NoSuchSize> {
    let (size, again) = Size::read_twice(words, unit)?;
    std::iter::once(&size).chain(&again).try_for_each(there_is)?;
    Ok((size, again))
}

fn there_is(size: &Size) -> Result<(), NoSuchSize> {
    if millimetres(size).is_some() {
        return Ok(());
    }
    let in_system = |system| gauge_mm(system, &size.number);
    Err(match (in_system(Unit::Awg), in_system(Unit::Swg)) {
        (Some(awg_mm), Some(swg_mm)) if size.unit == Unit::Gauge => NoSuchSize::TwoSystems { awg_mm, swg_mm },
        _ if size.unit.is_gauge() => NoSuchSize::NoSuchGauge,
        _ if !size.number.value.is_finite() => NoSuchSize::DividesByZero,
        _ => NoSuchSize::Zero,
    })
}
