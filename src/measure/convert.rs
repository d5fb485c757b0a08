//! A size in every unit makers use: which wire it really is.

use super::coil::{KERF_MM, closed_inner_mm, coil_inner_mm, springback_known, springback_percent};
use super::gauge::{awg_mm, swg_mm};
use super::size::{fraction, length_mm, millimetres};
use crate::notation::{Size, Unit};
use std::fmt::Write as _;

/// Nearer than this, as a part, a gauge is the wire.
const SAME: f64 = 0.005;
/// A gauge farther off than this is not named.
const FAR: f64 = 0.2;

/// What a size is in mm, inches and gauges, as lines of text: a gauge is compared with the same number of the other system,
/// and every size with the nearest wire of each.
pub fn conversion(size: &Size) -> Option<String> {
    let mm = millimetres(size)?;
    let written = size.words();
    let parts = libm::round(mm / 25.4 * 64.0);
    let mut out = format!("{written} is {mm:.3} mm or {:.4} in", mm / 25.4);
    if parts > 0.0 && parts <= 6400.0 {
        let off = parts / 64.0 * 25.4 - mm;
        let near = if off.abs() < 5e-4 { String::new() } else { format!(" ({})", apart(mm, off)) };
        let _ = write!(out, "; in 64ths of an inch {} in{near}", fraction(parts));
    }
    out.push_str(".\n");
    for (system, name, table) in systems() {
        if size.unit != system
            && let Some(line) = nearest(mm, name, table)
        {
            out += &line;
        }
    }
    let other = systems().into_iter().find(|(system, ..)| is_gauge(size.unit) && *system != size.unit);
    if let Some((_, name, table)) = other
        && let Some(there) = size.number.text.parse().ok().and_then(table)
    {
        let _ = writeln!(out, "{} {name} is another wire: {there:.2} mm, {}.", size.number.text, apart(mm, there - mm));
    }
    Some(out)
}

type System = (Unit, &'static str, fn(u32) -> Option<f64>);

fn systems() -> [System; 2] {
    [(Unit::Awg, "AWG", awg_mm), (Unit::Swg, "SWG", swg_mm)]
}

fn is_gauge(unit: Unit) -> bool {
    matches!(unit, Unit::Awg | Unit::Swg)
}

/// "Nearest in SWG: 18 (1.22 mm), 1.6 % thicker."
fn nearest(mm: f64, name: &str, table: fn(u32) -> Option<f64>) -> Option<String> {
    let all = (0..=40).filter_map(|n| Some((n, table(n)?)));
    let (number, there) = all.min_by(|a, b| (a.1 - mm).abs().total_cmp(&(b.1 - mm).abs()))?;
    let off = (there - mm) / mm;
    Some(match off.abs() {
        off if off > FAR => format!("No {name} wire is near.\n"),
        near if near < SAME => format!("As wire it is {number} {name} ({there:.2} mm).\n"),
        _ => format!("Nearest in {name}: {number} {name} ({there:.2} mm), {}.\n", apart(mm, there - mm)),
    })
}

/// "1.6 % more", of something that is `off` mm away from `mm`.
fn apart(mm: f64, off: f64) -> String {
    format!("{:.1} % {}", 100.0 * off.abs() / mm, if off > 0.0 { "more" } else { "less" })
}

/// What becomes of a mandrel of a size: the hole of a coil of a material wound on it, and of the ring sawn from it and
/// closed. Every line says that it is an estimate, and from where.
///
/// `kerf` is what the saw takes, where that is known; else what saws commonly take.
///
/// # Errors
/// Of which materials it is known, where it is not of this one; or that the saw takes no such size.
pub fn coiled(mandrel: &Size, material: &str, kerf: Option<&Size>) -> Result<String, String> {
    let Some([low, high]) = springback_percent(material) else {
        return Err(format!(
            "how far a coil of {material} springs open is not known here, only of: {}; measure a ring",
            springback_known()
        ));
    };
    let mm = millimetres(mandrel).unwrap_or(0.0);
    let range = |a: f64, b: f64| if b - a < 0.005 { format!("{a:.2}") } else { format!("{a:.2} to {b:.2}") };
    let percent = if high > low { format!("{low:.0} to {high:.0} %") } else { format!("{low:.0} %") };
    let coil = [low, high].map(|p| coil_inner_mm(mm, p));
    let ([thin, thick], cut) = match kerf {
        None => (KERF_MM, format!("a saw cut takes {} to {} mm", KERF_MM[0], KERF_MM[1])),
        Some(kerf) => {
            let own = length_mm(kerf).filter(|own| *own < coil[0]);
            let own =
                own.ok_or_else(|| "what a saw takes is a length in mm or in, and less than the ring".to_owned())?;
            ([own, own], format!("a saw cut takes {own:.2} mm, as you say"))
        }
    };
    Ok(format!(
        "Estimate (makers' measurements): a coil of {material} on a mandrel of {mm:.2} mm springs open by {percent}: \
         inner diameter {} mm.\nEstimate (makers' measurements): {cut}, and closing it makes \
         the ring smaller by that over π: {} mm. Measure a ring of your own.\n",
        range(coil[0], coil[1]),
        range(closed_inner_mm(coil[0], thick), closed_inner_mm(coil[1], thin))
    ))
}
