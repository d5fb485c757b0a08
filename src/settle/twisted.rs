//! Chains that do not close straight, but do when each repeat may turn about the length.

use super::problem::Problem;
use super::tighten::{Effort, Tight, tighten_with};

/// Turns tried at first, radians a repeat.
const TURNS: [f64; 2] = [0.15, -0.15];

/// The turn of each repeat about the length, degrees, with which a chain closes that has no room when it is
/// straight; `None` where none is found from the straight pose.
pub(super) fn closes_twisted(problem: &Problem, straight: &Tight) -> Option<f64> {
    let spiral = Problem { spiral: true, ..problem.clone() };
    TURNS.iter().find_map(|turn| {
        let mut pose = straight.pose.clone();
        pose.twist = *turn;
        let tight = tighten_with(&spiral, pose, Effort::until(1.0));
        (tight.scale >= 1.0).then_some(tight.pose.twist.to_degrees())
    })
}
