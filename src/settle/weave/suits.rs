//! Which aspect ratios suit a weave: from a little above its floor to where it loses its hold.

use super::hold::LITTLE_ROOM;
use super::settled::Settled;
use crate::settle::solve::{Pose, Problem, Pull, pull_with};

/// A piece that can be pushed together by more than this part of its length has lost its hold. Common practice, no
/// source.
const GIVE: f64 = 0.25;
/// The sizes tried, one after the other: how many times thicker the wire could be.
const ROOMS: [f64; 7] = [1.06, 1.1, 1.15, 1.2, 1.3, 1.4, 1.6];
/// The shortest step of a pull, as a part of the mean core radius. The limit is not a sharp one.
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

/// The part of its length by which a piece can be pushed together, with wire `wire` times as thick as given.
fn gives(problem: &Problem, tight: &Pose, wire: f64) -> Option<f64> {
    let taut = pull_with(problem, tight, wire, Pull::Taut, FINEST)?;
    let pushed = pull_with(problem, &taut, wire, Pull::Together, FINEST)?;
    Some(1.0 - pushed.length() / taut.length())
}
