//! Amounts of rings: `340`, `120 g`, `3 packs`, `bag of 100`.

use crate::notation::{NotANumber, Number};
use thiserror::Error;

/// Grams of an ounce avoirdupois (international yard and pound agreement, 1959).
const OUNCE_GRAMS: f64 = 28.349_523_125;
/// The largest amount that is accepted, in any unit.
const MOST: f64 = 1e9;

/// An amount of rings.
pub(super) enum Amount {
    Rings(f64),
    Grams(f64),
    Packs(f64),
}

/// Why a cell is not an amount. The message goes on after the cell in backticks.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum NotAnAmount {
    /// No digit in it.
    #[error("has no number in it")]
    NoNumber,
    /// A minus sign in front.
    #[error("is negative; an amount must be 0 or more")]
    Negative,
    /// Its number.
    #[error(transparent)]
    Number(NotANumber),
    /// More than anybody has.
    #[error("is too large; at most {} is accepted", MOST)]
    TooLarge,
    /// Something after the number that is not a unit of amounts.
    #[error("ends in `{0}`; write a number of rings, or of g, oz or packs")]
    UnknownUnit(String),
    /// A weight, and no way to turn it into rings.
    #[error("is a weight, and the weight of one ring is not known; add the material, or the weight of one ring")]
    RingWeightUnknown,
    /// Packs, and no way to turn them into rings.
    #[error("counts packs, and `sold` does not say how many rings are in a pack")]
    PackUnknown,
    /// Packs where the weight of one ring is meant.
    #[error("is not a weight; write what one ring weighs, in g")]
    NotAWeight,
    /// A ring that weighs nothing.
    #[error("is not a weight; a ring weighs more than 0 g")]
    Weightless,
}

impl From<NotANumber> for NotAnAmount {
    fn from(why: NotANumber) -> Self {
        match why {
            NotANumber::Negative => Self::Negative,
            why => Self::Number(why),
        }
    }
}

impl Amount {
    /// Number and unit of an amount. A number alone is in the unit of the heading, where it has one, or else in rings.
    pub fn read(words: &str, heading: Option<&str>) -> Result<Self, NotAnAmount> {
        let lower = words.to_lowercase();
        let from = lower.find(|c: char| c.is_ascii_digit() || c == '-' || c == '\u{2212}');
        let rest = from.and_then(|from| lower.get(from..)).ok_or(NotAnAmount::NoNumber)?;
        let in_number = |c: char| c.is_ascii_digit() || matches!(c, '.' | ',' | '-' | '\u{2212}');
        let (number, unit) = rest.split_at(rest.find(|c| !in_number(c)).unwrap_or(rest.len()));
        let value = Number::read(number)?.value;
        if value > MOST {
            return Err(NotAnAmount::TooLarge);
        }
        let unit = match unit.trim() {
            "" => heading.unwrap_or_default(),
            unit => unit,
        };
        Ok(match unit {
            "" | "ring" | "rings" | "pcs" | "pieces" => Self::Rings(value),
            "g" | "gram" | "grams" | "gramme" | "grammes" => Self::Grams(value),
            "kg" => Self::Grams(1000.0 * value),
            "oz" | "ounce" | "ounces" => Self::Grams(OUNCE_GRAMS * value),
            "pack" | "packs" | "bag" | "bags" => Self::Packs(value),
            other => return Err(NotAnAmount::UnknownUnit(other.to_owned())),
        })
    }

    /// The number of rings, rounded down, where one ring weighs `ring_grams` and `pack` is in a pack.
    pub fn rings(&self, ring_grams: Option<f64>, pack: Option<&Self>) -> Result<u64, NotAnAmount> {
        let weighed = |grams: f64| {
            let one = ring_grams.filter(|one| *one > 0.0);
            one.map(|one| grams / one).ok_or(NotAnAmount::RingWeightUnknown)
        };
        let rings = match *self {
            Self::Rings(rings) => rings,
            Self::Grams(grams) => weighed(grams)?,
            Self::Packs(packs) => match pack {
                Some(Self::Rings(rings)) => packs * rings,
                Some(Self::Grams(grams)) => weighed(packs * grams)?,
                Some(Self::Packs(_)) | None => return Err(NotAnAmount::PackUnknown),
            },
        };
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // Not below 0, and clamped.
        // A hair more, since the weight of a whole number of rings may come out a hair less.
        Ok(libm::floor(rings * (1.0 + 1e-9)).clamp(0.0, 1e15) as u64)
    }
}

/// The weight of one ring, g.
pub(super) fn ring_weight(words: &str) -> Result<f64, NotAnAmount> {
    match Amount::read(words, None)? {
        Amount::Rings(grams) | Amount::Grams(grams) if grams > 0.0 => Ok(grams),
        Amount::Rings(_) | Amount::Grams(_) => Err(NotAnAmount::Weightless),
        Amount::Packs(_) => Err(NotAnAmount::NotAWeight),
    }
}
