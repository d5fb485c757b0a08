//! Numbers, units and sizes, and the one reader of them: for weave files, shelves and the command line.

use crate::text::Span;
use thiserror::Error;

/// A unit of length, or a system of wire gauges.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unit {
    /// Millimetres.
    Mm,
    /// Centimetres. Weave files have none; shelves and tutorials do.
    Cm,
    /// Inches.
    Inch,
    /// American wire gauge.
    Awg,
    /// British standard wire gauge.
    Swg,
    /// A bare gauge: a wire gauge whose system is not given.
    Gauge,
}

impl Unit {
    /// The unit's word in a weave file.
    pub fn word(self) -> &'static str {
        match self {
            Self::Mm => "mm",
            Self::Cm => "cm",
            Self::Inch => "in",
            Self::Awg => "awg",
            Self::Swg => "swg",
            Self::Gauge => "gauge",
        }
    }

    /// The unit a maker means by a word or sign: `mm`, `inches`, `"`, `ga`.
    pub fn named(word: &str) -> Option<Self> {
        Some(match word.to_lowercase().as_str() {
            "mm" | "millimetre" | "millimetres" | "millimeter" | "millimeters" => Self::Mm,
            "cm" | "centimetre" | "centimetres" | "centimeter" | "centimeters" => Self::Cm,
            "in" | "in." | "inch" | "inches" | "\"" | "\u{2033}" | "\u{201d}" | "''" => Self::Inch,
            "awg" => Self::Awg,
            "swg" => Self::Swg,
            "ga" | "ga." | "gauge" | "g" => Self::Gauge,
            _ => return None,
        })
    }

    /// The length of the unit, mm; `None` for gauges.
    pub fn mm(self) -> Option<f64> {
        match self {
            Self::Mm => Some(1.0),
            Self::Cm => Some(10.0),
            Self::Inch => Some(25.4),
            Self::Awg | Self::Swg | Self::Gauge => None,
        }
    }

    /// Whether it is a gauge, of a named system or not.
    pub fn is_gauge(self) -> bool {
        self.mm().is_none()
    }

    /// British for American and American for British; `None` for everything else.
    pub(crate) fn other_system(self) -> Option<Self> {
        match self {
            Self::Awg => Some(Self::Swg),
            Self::Swg => Some(Self::Awg),
            Self::Mm | Self::Cm | Self::Inch | Self::Gauge => None,
        }
    }
}

/// A number as it was written.
#[derive(Clone, Debug, PartialEq)]
pub struct Number {
    /// Its digits, with single spaces and a decimal point: `1.6`, `1 1/4`.
    pub text: String,
    /// Its value; infinite or not a number where the text divides by 0.
    pub value: f64,
}

/// Fractions that are a single character.
const FRACTION_SIGNS: [(char, &str); 7] =
    [('½', " 1/2"), ('¼', " 1/4"), ('¾', " 3/4"), ('⅛', " 1/8"), ('⅜', " 3/8"), ('⅝', " 5/8"), ('⅞', " 7/8")];

/// Why words are not a number. The message goes on after the words in backticks.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum NotANumber {
    /// A minus sign in front.
    #[error("is negative; a size must be greater than 0")]
    Negative,
    /// `1,600.5`
    #[error("has more than one decimal point or comma; write thousands without either")]
    TwoPoints,
    /// Something else; the words.
    #[error("contains `{0}`, which is not a number; write `1.6`, `1,6`, `1/4` or `1 1/4`")]
    Unreadable(String),
}

impl Number {
    /// Reads a number with a decimal point or comma (`1.6`, `1,6`), a fraction (`1/4`, `¼`), or both a whole number and
    /// a fraction (`1 1/4`, `1-1/4`, `1¼`). Dividing by 0 is left to the rules on sizes.
    ///
    /// # Errors
    /// [`NotANumber`].
    pub fn read(words: &str) -> Result<Self, NotANumber> {
        if words.starts_with(['-', '\u{2212}']) {
            return Err(NotANumber::Negative);
        }
        if words.matches([',', '.']).count() > 1 {
            return Err(NotANumber::TwoPoints);
        }
        let mut text = words.replace('⁄', "/").replace(',', ".").replace('-', " ");
        for (sign, fraction) in FRACTION_SIGNS {
            text = text.replace(sign, fraction);
        }
        let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
        let value = value(&text).ok_or_else(|| NotANumber::Unreadable(words.to_owned()))?;
        Ok(Self { text, value })
    }
}

fn value(text: &str) -> Option<f64> {
    /// The longest number that is taken for one.
    const LONGEST: usize = 16;
    let decimal = |s: &str| s.len() <= LONGEST && s.bytes().all(|b| b.is_ascii_digit() || b == b'.');
    let parsed = |s: &str| s.parse::<f64>().ok().filter(|_| decimal(s));
    let digits = |s: &str| parsed(s).filter(|_| !s.contains('.'));
    let Some((front, under)) = text.split_once('/') else { return parsed(text) };
    let (whole, over) = front.split_once(' ').unwrap_or(("0", front));
    Some(digits(whole)? + digits(over)? / digits(under)?)
}

/// A size as it was written.
#[derive(Clone, Debug, PartialEq)]
pub struct Size {
    /// The number.
    pub number: Number,
    /// The unit; for a bare gauge the system the file names, where it names one.
    pub unit: Unit,
    /// Whether it was written as a bare gauge: `18 gauge`.
    pub bare: bool,
    /// Its words in the text; empty for a size from elsewhere.
    pub span: Span,
}

/// Why words are not a size. The message goes on after the words in backticks.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum NotASize {
    /// A control character.
    #[error("contains a character that cannot be printed; type it again")]
    Unprintable,
    /// No digit in it.
    #[error("has no number in it; write a size such as `1.6 mm`, `1/4 in` or `18 swg`")]
    NoNumber,
    /// Its number.
    #[error(transparent)]
    Number(#[from] NotANumber),
    /// No unit, and none is known from elsewhere.
    #[error("has no unit; write `mm`, `in`, `awg` or `swg` after it")]
    NoUnit,
    /// Something after the number that is not a unit.
    #[error("ends in `{0}`, which is not a unit; units are mm, cm, in, awg and swg")]
    UnknownUnit(String),
    /// `1 mm ((1 mm))`
    #[error("has brackets inside brackets; write a size, and the same again in brackets: `18 swg (1.22 mm)`")]
    NestedBrackets,
}

impl Size {
    /// A size whose unit is written after it.
    pub fn new(number: Number, unit: Unit, span: Span) -> Self {
        Self { number, unit, bare: unit == Unit::Gauge, span }
    }

    /// Reads a size: `1.6 mm`, `1,6 mm`, `3/8 in`, `1 1/4"`, `18 awg`, `SWG 18`. A number alone is in `unit`; a bare
    /// gauge (`18 ga`) is in `unit` where that is a system of gauges. Whether there is such a size is not checked.
    ///
    /// # Errors
    /// [`NotASize`].
    pub fn read(words: &str, unit: Option<Unit>) -> Result<Self, NotASize> {
        let words = words.trim();
        if words.chars().any(char::is_control) {
            return Err(NotASize::Unprintable);
        }
        let (number, word) = number_and_unit(words);
        if number.is_empty() {
            return Err(NotASize::NoNumber);
        }
        let number = Number::read(number)?;
        let unit = match Unit::named(word) {
            Some(Unit::Gauge) => unit.filter(|u| u.other_system().is_some()).unwrap_or(Unit::Gauge),
            Some(own) => own,
            None if word.is_empty() => unit.ok_or(NotASize::NoUnit)?,
            None => return Err(NotASize::UnknownUnit(word.to_owned())),
        };
        Ok(Self::new(number, unit, Span::new(0, 0, 0)))
    }

    /// Reads a size, and the same size again where it follows in brackets: `16 swg (1.63 mm)`.
    ///
    /// # Errors
    /// [`NotASize`], for either.
    pub fn read_twice(words: &str, unit: Option<Unit>) -> Result<(Self, Option<Self>), NotASize> {
        let Some((first, again)) = words.trim().strip_suffix(')').and_then(|w| w.split_once('(')) else {
            return Ok((Self::read(words, unit)?, None));
        };
        if again.contains('(') || first.contains(')') {
            return Err(NotASize::NestedBrackets);
        }
        Ok((Self::read(first, unit)?, Some(Self::read(again, None)?)))
    }

    /// As the maker wrote it, in the notation's words: `18 gauge`.
    pub fn as_written(&self) -> String {
        format!("{} {}", self.number.text, if self.bare { Unit::Gauge } else { self.unit }.word())
    }

    /// What it is, a bare gauge with its system: `18 swg`.
    pub fn words(&self) -> String {
        format!("{} {}", self.number.text, self.unit.word())
    }
}

/// Number and unit of a size; the unit may come first.
fn number_and_unit(words: &str) -> (&str, &str) {
    let digit = |c: char| c.is_ascii_digit() || FRACTION_SIGNS.iter().any(|(sign, _)| *sign == c);
    let in_number = |c: char| digit(c) || matches!(c, '.' | ',' | '/' | '⁄' | ' ' | '-' | '+' | '\u{2212}');
    let (before, _) = words.split_at(words.find(digit).unwrap_or(words.len()));
    // A number may start with its decimal point: .25
    let (before, rest) = words.split_at(before.strip_suffix(['.', ',']).unwrap_or(before).len());
    if Unit::named(before.trim()).is_some() {
        return (rest.trim(), before.trim());
    }
    let (number, after) = words.split_at(words.find(|c| !in_number(c)).unwrap_or(words.len()));
    (number.trim(), after.trim())
}
