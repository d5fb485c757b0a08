//! How close the rings of a piece lie, in words.

use schemars::JsonSchema;
use serde::Serialize;

/// The least room a maker wants, as a part of the wires: rings are never quite as written, and one percent of an
/// aspect ratio can break a tight weave (makers' experience).
pub const LITTLE_ROOM: f64 = 0.03;
/// A piece with less room than this, as a part of the wires, is dense. Common practice, no source.
const DENSE: f64 = 0.08;
/// A piece with less room than this is middling. Common practice, no source.
const MIDDLING: f64 = 0.2;

/// How close the rings of a piece lie.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Hold {
    /// All wires could be thicker by less than 8 %.
    Dense,
    /// By less than 20 %.
    Middling,
    /// By more.
    Open,
}

impl Hold {
    /// With so much room, as a part of the wires.
    pub fn of(room: f64) -> Self {
        match room {
            r if r < DENSE => Self::Dense,
            r if r < MIDDLING => Self::Middling,
            _ => Self::Open,
        }
    }

    /// The word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Dense => "dense",
            Self::Middling => "middling",
            Self::Open => "open",
        }
    }
}

/// How a piece with this much room holds, in the words of a table. Below 0 it does not close.
pub(crate) fn room_word(room: f64) -> &'static str {
    match room {
        r if r < 0.0 => "does not close",
        r if r < LITTLE_ROOM => "dense, little room",
        r => Hold::of(r).word(),
    }
}

/// What the words of tables mean.
pub(crate) const HOLDS: &str = "Room: how much thicker all wires could be; under 3 % is little. Dense: room under 8 %; middling: under 20 %; open: 20 % or more (common practice, no source).";
