//! A size in every unit makers use, and the rings of a coil of that size.

use super::coil::{KERF_MM, closed_inner_mm, coil_inner_mm, springback_known, springback_percent};
use super::gauge::{awg_mm, gauge_mm, swg_mm};
use super::size::{fraction, in_mm, length_mm, millimetres};
use crate::notation::{Size, Unit};
use std::fmt::Write as _;
use thiserror::Error;

/// A gauge that differs by less than this, as a part, is the wire.
const SAME: f64 = 0.005;
/// A gauge that differs by more than this, as a part, is not named.
const FAR: f64 = 0.2;

/// The diameter of each number of a system of gauges, mm.
type Diameter = fn(u32) -> Option<f64>;

/// The systems of gauges.
const SYSTEMS: [(Unit, Diameter); 2] = [(Unit::Awg, awg_mm), (Unit::Swg, swg_mm)];

/// A size in mm, inches and gauges, as lines of text: every size is compared with the nearest wire of each system, and
/// a gauge with the same number of the other system. `None` where there is no such size.
pub fn conversion(size: &Size) -> Option<String> {
    let mm = millimetres(size)?;
    let written = size.words();
    let parts = libm::round(mm / 25.4 * 64.0);
    let mut out = format!("{written} is {mm:.3} mm or {:.4} in", mm / 25.4);
    if parts > 0.0 && parts <= 6400.0 {
        let off = parts / 64.0 * 25.4 - mm;
        let near = if off.abs() < 5e-4 { String::new() } else { format!(", {}", apart(mm, off)) };
        let _ = write!(out, "; nearest 64th: {} in{near}", fraction(parts));
    }
    out.push_str(".\n");
    out.extend(
        SYSTEMS.iter().filter(|(system, _)| *system != size.unit).filter_map(|(u, table)| nearest(mm, *u, *table)),
    );
    if let Some(other) = size.unit.other_system()
        && let Some(there) = gauge_mm(other, &size.number)
    {
        let _ = writeln!(
            out,
            "{} {} is another wire: {}, {}.",
            size.number.text,
            name(other),
            in_mm(there),
            apart(mm, there - mm)
        );
    }
    Some(out)
}

/// "AWG"
fn name(system: Unit) -> String {
    system.word().to_uppercase()
}

/// "Nearest in SWG: 18 SWG (1.22 mm), 1.6 % larger."
fn nearest(mm: f64, system: Unit, table: Diameter) -> Option<String> {
    let name = name(system);
    let all = (0..=40).filter_map(|n| Some((n, table(n)?)));
    let (number, there) = all.min_by(|a, b| (a.1 - mm).abs().total_cmp(&(b.1 - mm).abs()))?;
    Some(match ((there - mm) / mm).abs() {
        off if off > FAR => format!("No {name} wire is near.\n"),
        off if off < SAME => format!("As wire it is {number} {name} ({there:.2} mm).\n"),
        _ => format!("Nearest in {name}: {number} {name} ({there:.2} mm), {}.\n", apart(mm, there - mm)),
    })
}

/// "1.6 % larger", for something that differs from `mm` by `off` mm.
fn apart(mm: f64, off: f64) -> String {
    format!("{:.1} % {}", 100.0 * off.abs() / mm, if off > 0.0 { "larger" } else { "smaller" })
}

/// Why nothing is known of the rings of a coil.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum NotCoiled {
    /// Nobody measured this material.
    #[error("how far a coil of {0} springs open is known only for: {known}; measure a ring", known = springback_known())]
    Material(String),
    /// A saw cut of no length, or wider than the ring.
    #[error("a saw cut must be a length in mm or in, smaller than the ring")]
    Kerf,
    /// A mandrel of no size.
    #[error("there is no such mandrel")]
    Mandrel,
}

/// What a mandrel of a size gives: the hole of a coil of a material wound on it, and of the ring sawn from it and
/// closed. Every line says that it is an estimate, and whose.
///
/// `kerf` is the width of the saw cut, where it is known; otherwise that of common saws is taken.
///
/// # Errors
/// [`NotCoiled`].
pub fn coiled(mandrel: &Size, material: &str, kerf: Option<&Size>) -> Result<String, NotCoiled> {
    let [low, high] = springback_percent(material).ok_or_else(|| NotCoiled::Material(material.to_owned()))?;
    let mm = millimetres(mandrel).ok_or(NotCoiled::Mandrel)?;
    let range = |a: f64, b: f64| if b - a < 0.005 { format!("{a:.2}") } else { format!("{a:.2} to {b:.2}") };
    let percent = if high > low { format!("{low:.0} to {high:.0} %") } else { format!("{low:.0} %") };
    let coil = [low, high].map(|p| coil_inner_mm(mm, p));
    let ([thin, thick], cut) = match kerf {
        None => (KERF_MM, format!("a saw cut takes {} to {} mm", KERF_MM[0], KERF_MM[1])),
        Some(kerf) => {
            let own = length_mm(kerf).filter(|own| *own < coil[0]).ok_or(NotCoiled::Kerf)?;
            ([own, own], format!("your saw cut takes {own:.2} mm"))
        }
    };
    Ok(format!(
        "Estimate (makers' measurements): a coil of {material} on a mandrel of {mm:.2} mm springs open by {percent}: \
         inner diameter {} mm.\nEstimate (makers' measurements): {cut}, and closing the gap makes the inner diameter smaller \
         by the cut divided by π: {} mm. Measure a ring of your own.\n",
        range(coil[0], coil[1]),
        range(closed_inner_mm(coil[0], thick), closed_inner_mm(coil[1], thin))
    ))
}
