//! Sizes as makers write them outside of a weave: in a cell of a spreadsheet, on the command line.

use super::gauge::{awg_mm, swg_mm};
use super::same_size::{Twice, twice};
use super::size::millimetres;
use crate::notation::{Number, Size, Unit};
use crate::text::{Span, half_up};

/// A unit as it is written behind a number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measure {
    /// A unit that says all.
    In(Unit),
    /// A gauge without its system: "18 ga".
    BareGauge,
}

/// The measure a word means: `mm`, `in`, `"`, `awg`, `swg`, `ga` and the like.
pub fn measure(word: &str) -> Option<Measure> {
    Some(match word.to_lowercase().as_str() {
        "mm" | "millimetre" | "millimetres" | "millimeter" | "millimeters" => Measure::In(Unit::Mm),
        "in" | "in." | "inch" | "inches" | "\"" | "\u{2033}" | "\u{201d}" | "''" => Measure::In(Unit::Inch),
        "awg" => Measure::In(Unit::Awg),
        "swg" => Measure::In(Unit::Swg),
        "ga" | "ga." | "gauge" | "g" => Measure::BareGauge,
        _ => return None,
    })
}

/// A size as a maker writes it: `1.6 mm`, `1,6 mm`, `3/8 in`, `1 1/4"`, `1-1/4 in`, `0.25 in`, `18 awg`, `SWG 18`. A
/// number alone is in `unit`, and so is a bare gauge (`18 ga`) where `unit` is a gauge. The same size may stand again in
/// brackets (`18 swg (1.22 mm)`), and says the system of a bare gauge.
///
/// # Errors
/// What is wrong with it, and a way out, as words that go on after the size was quoted.
pub fn read_size(words: &str, unit: Option<Unit>) -> Result<Size, String> {
    let words = words.trim();
    if words.chars().any(char::is_control) {
        return Err("holds a character that cannot be printed; type it anew".to_owned());
    }
    if let Some((first, again)) = words.strip_suffix(')').and_then(|w| w.split_once('(')) {
        return said_twice(first, again, unit);
    }
    let (number, behind) = parted(words);
    if number.is_empty() {
        return Err("has no number in it; write a size such as `1.6 mm`, `1/4 in` or `18 swg`".to_owned());
    }
    let number = read_number(number)?;
    let unit = match (measure(behind), unit) {
        (Some(Measure::In(unit)), _) => unit,
        (Some(Measure::BareGauge), Some(system @ (Unit::Awg | Unit::Swg))) => system,
        (Some(Measure::BareGauge), _) => return Err(two_systems(&number)),
        (None, Some(unit)) if behind.is_empty() => unit,
        (None, None) if behind.is_empty() => {
            return Err("has no unit; write `mm`, `in`, `awg` or `swg` behind it, or in the heading".to_owned());
        }
        (None, _) => return Err(format!("ends in `{behind}`, which is no unit; units are mm, in, awg and swg")),
    };
    let size = Size::new(number, unit, Span::new(0, 0, 0));
    match millimetres(&size) {
        Some(_) => Ok(size),
        None if matches!(size.unit, Unit::Awg | Unit::Swg) => {
            Err("is no gauge: gauges are whole numbers from 0 to 40".to_owned())
        }
        None => Err("is no size: a size is more than nothing".to_owned()),
    }
}

/// A size, and the same again in brackets.
fn said_twice(first: &str, again: &str, unit: Option<Unit>) -> Result<Size, String> {
    if again.contains('(') || first.contains(')') {
        return Err(
            "has brackets in brackets; write a size, and the same again in brackets: `18 swg (1.22 mm)`".to_owned()
        );
    }
    let brackets = read_size(again, None)?;
    let agrees = |size: &Size| twice(size, &brackets) == Twice::Agree;
    let size = read_size(first, unit).or_else(|why| {
        let of = |system| read_size(first, Some(system)).ok().filter(|size| size.unit == system && agrees(size));
        of(Unit::Awg).or_else(|| of(Unit::Swg)).ok_or(why)
    })?;
    let two = |size: &Size| format!("{} is {:.2} mm", size.words(), half_up(millimetres(size).unwrap_or(0.0), 2));
    match twice(&size, &brackets) {
        Twice::Agree => Ok(size),
        Twice::OtherSystem { in_brackets, system, mm } => {
            let gauge = if in_brackets { &brackets } else { &size };
            let other = system.word();
            Err(format!("says two sizes: {}; {mm:.2} mm is {} {other}", two(gauge), gauge.number.text))
        }
        _ => Err(format!("says two sizes: {}, and {}; write the one it is", two(&size), two(&brackets))),
    }
}

/// Number and unit of a size; the unit may stand in front.
fn parted(words: &str) -> (&str, &str) {
    let in_number = |c: char| c.is_ascii_digit() || matches!(c, '.' | ',' | '/' | ' ' | '-' | '+' | '\u{2212}');
    let front = words.find(|c: char| c.is_ascii_digit()).unwrap_or(words.len());
    let (before, rest) = words.split_at(front);
    if measure(before.trim()).is_some() {
        return (rest.trim(), before.trim());
    }
    let end = words.find(|c| !in_number(c)).unwrap_or(words.len());
    let (number, behind) = words.split_at(end);
    (number.trim(), behind.trim())
}

/// A number as a maker writes it: with a decimal point or a decimal comma, as a fraction, or with one (`1 1/4`).
///
/// # Errors
/// What is wrong with it.
pub fn read_number(words: &str) -> Result<Number, String> {
    let none = || format!("holds `{words}`, which is no number; write `1.6`, `1,6`, `1/4` or `1 1/4`");
    if words.starts_with(['-', '\u{2212}']) {
        return Err("is below nought; sizes are more than nothing".to_owned());
    }
    if words.contains('.') && words.contains(',') || words.matches([',', '.']).count() > 1 {
        return Err("has more than one point or comma; write thousands without either".to_owned());
    }
    let text = words.replace(',', ".");
    let text = text.replace('-', " ").split_whitespace().collect::<Vec<_>>().join(" ");
    let (whole, rest) = match text.split_once(' ') {
        Some((whole, rest)) if rest.contains('/') => (whole, rest),
        Some(_) => return Err(none()),
        None => ("0", text.as_str()),
    };
    let digits = |s: &str| !s.is_empty() && s.len() <= 12 && s.bytes().all(|b| b.is_ascii_digit());
    let decimal = |s: &str| s.len() <= 16 && s.bytes().all(|b| b.is_ascii_digit() || b == b'.');
    let part = match rest.split_once('/') {
        Some((over, under)) if digits(over) && digits(under) && digits(whole) => {
            over.parse::<f64>().ok().zip(under.parse::<f64>().ok()).map(|(o, u)| o / u)
        }
        None if decimal(rest) => rest.parse().ok(),
        Some(_) | None => None,
    };
    let value = part.zip(whole.parse::<f64>().ok()).map(|(part, whole)| whole + part);
    let value = value.filter(|v| v.is_finite()).ok_or_else(none)?;
    Ok(Number { text, value })
}

/// That a gauge alone is two wires: "18 ga" may be 1.02 mm or 1.22 mm.
fn two_systems(number: &Number) -> String {
    let mm = |table: fn(u32) -> Option<f64>| number.text.parse().ok().and_then(table);
    match (mm(awg_mm), mm(swg_mm)) {
        (Some(awg), Some(swg)) => format!(
            "may be {awg:.2} mm (AWG, American) or {swg:.2} mm (SWG, British); write `awg` or `swg` behind it, or in the heading"
        ),
        _ => "is no gauge: gauges are whole numbers from 0 to 40".to_owned(),
    }
}
