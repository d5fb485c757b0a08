//! Which aspect ratios suit a weave: from a little above its floor to where it loses its hold.

use super::settled::Settled;
use crate::settle::solve::{Pose, Problem, Pull, pull_with};
use schemars::JsonSchema;
use serde::Serialize;

/// So much thicker all wires should be able to be: rings are never quite as written, and one percent of an aspect
/// ratio can break a tight weave (makers' experience).
pub const LITTLE_ROOM: f64 = 0.03;
/// A piece that can be pushed together by more than this part of its length has lost its hold. Common practice, no
/// source.
const GIVE: f64 = 0.25;
/// How many times thicker than it is the wire could be, in the sizes that are tried one after the other.
const ROOMS: [f64; 7] = [1.06, 1.1, 1.15, 1.2, 1.3, 1.4, 1.6];
/// Pulling goes on to steps of this part of the mean core radius: the limit is no sharp one.
const FINEST: f64 = 1e-4;

/// Aspect ratios of the first kind that suit a weave, all kinds growing alike.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Suits {
    /// The least: with it all wires could be [`LITTLE_ROOM`] thicker.
    pub from: f64,
    /// The greatest of those tried with which the piece, drawn out, can be pushed together by a quarter of its length
    /// at most. `None` of a unit, and of a piece that gives more than that as soon as it has 6 % of room: it hangs
    /// free whatever its rings are.
    pub to: Option<f64>,
}

impl Settled {
    /// The aspect ratios that suit it. Takes some pulls, each about as long as settling.
    pub fn suits(&self) -> Suits {
        let (tight, floor) = (&self.at_floor.view.pose, self.at_floor.scale);
        let ratio = |room: f64| {
            let size = self.problem.rings.first();
            size.map_or(0.0, |size| 2.0 * size.radius * room / (size.wire * floor) - 1.0)
        };
        let holds = |room: f64| gives(&self.problem, tight, floor / room).is_some_and(|part| part <= GIVE);
        let [first, more @ ..] = ROOMS;
        // The more room, the more it gives.
        let to = holds(first).then(|| more.partition_point(|room| holds(*room)));
        let to = to.map(|count| count.checked_sub(1).and_then(|last| more.get(last)).copied().unwrap_or(first));
        Suits { from: ratio(1.0 + LITTLE_ROOM), to: to.map(ratio) }
    }
}

/// By what part of its length a piece can be pushed together at a wire.
fn gives(problem: &Problem, tight: &Pose, wire: f64) -> Option<f64> {
    let taut = pull_with(problem, tight, wire, Pull::Taut, FINEST)?;
    let pushed = pull_with(problem, &taut, wire, Pull::Together, FINEST)?;
    Some(1.0 - pushed.length() / taut.length())
}

/// Up to so much room, as a part of the wires, a piece is dense, and up to so much middling. Common practice, no source.
const DENSE: f64 = 0.08;
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
