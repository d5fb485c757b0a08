//! Numbers, units and sizes as they are written.

use crate::text::Span;

/// A unit of length or a gauge.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unit {
    /// Millimetres.
    Mm,
    /// Inches.
    Inch,
    /// American wire gauge.
    Awg,
    /// British standard wire gauge.
    Swg,
    /// A wire gauge of which nobody says the system.
    Gauge,
}

impl Unit {
    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Mm => "mm",
            Self::Inch => "in",
            Self::Awg => "awg",
            Self::Swg => "swg",
            Self::Gauge => "gauge",
        }
    }
}

/// A number as it was written.
#[derive(Clone, Debug, PartialEq)]
pub struct Number {
    /// Its digits as written, single spaces.
    pub text: String,
    /// Its value.
    pub value: f64,
}

/// A size as it was written.
#[derive(Clone, Debug, PartialEq)]
pub struct Size {
    /// The number.
    pub number: Number,
    /// The unit; of a bare gauge the system the file names, where it names one.
    pub unit: Unit,
    /// Whether it was written as a bare gauge: `18 gauge`.
    pub bare: bool,
    /// Its words.
    pub span: Span,
}

impl Size {
    /// A size whose unit is written behind it.
    pub fn new(number: Number, unit: Unit, span: Span) -> Self {
        Self { number, unit, bare: unit == Unit::Gauge, span }
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
