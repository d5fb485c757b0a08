//! Tightening a pose: the thickest wire it can hold.
//!
//! The wire of every ring is scaled by one number τ, with core circles as they are, and grows in bounded
//! steps, each a linear program. What is really reached is measured afterwards: a step that does not help
//! is made shorter.

use super::distance::scale;
use super::find::has_links;
use super::problem::{Pose, Problem};
use super::step::{Aim, Moves};

/// A pose and the wire it holds.
#[derive(Clone, Debug)]
pub struct Tight {
    /// The pose.
    pub pose: Pose,
    /// How many times thicker the wire could be, with core circles as they are: the least distance of two
    /// rings over the mean of their wires.
    pub scale: f64,
}

/// How far tightening goes.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Effort {
    /// The most linear programs.
    pub steps: usize,
    /// Ends with the step that gains less than this part of the wire.
    pub least_gain: f64,
    /// Ends where the wire has this scale.
    pub enough: f64,
}

impl Effort {
    /// To the end.
    pub const FULL: Self = Self { steps: 200, least_gain: 1e-9, enough: f64::INFINITY };
    /// Far enough to tell it from other poses, and to list it.
    pub const GOOD: Self = Self { steps: 80, least_gain: 1e-6, enough: f64::INFINITY };
    /// Far enough to see which pose it comes to.
    pub const ROUGH: Self = Self { steps: 60, least_gain: 5e-4, enough: f64::INFINITY };

    /// Until the wire fits as it is.
    pub const fn until(enough: f64) -> Self {
        Self { enough, ..Self::FULL }
    }
}

/// The thickest wire that can be reached from a pose without pulling wire through wire.
pub fn tighten(problem: &Problem, pose: Pose) -> Tight {
    tighten_with(problem, pose, Effort::FULL)
}

pub(crate) fn tighten_with(problem: &Problem, pose: Pose, effort: Effort) -> Tight {
    let moves = Moves::of(problem);
    let mut best = Tight { scale: scale(problem, &pose), pose };
    let mean = problem.mean_radius();
    let mut trust = 0.1 * mean;
    for _ in 0..effort.steps {
        if best.scale >= effort.enough {
            break;
        }
        let Some((step, promised)) = moves.step(&best.pose, best.scale, trust, Aim::Wire) else { break };
        let (pose, reached) = corrected(&moves, moves.moved(&best.pose, &step), promised, trust);
        let gain = reached - best.scale;
        if gain > 0.0 && has_links(problem, &pose) {
            // A step that keeps what it promised may be longer next time.
            if gain > 0.75 * (promised - best.scale) {
                trust = (2.0 * trust).min(0.1 * mean);
            } else if gain < 0.25 * (promised - best.scale) {
                trust *= 0.5;
            }
            best = Tight { pose, scale: reached };
            if gain < effort.least_gain * reached {
                break;
            }
        } else {
            // Nothing to be gained here even if all went as promised.
            if promised - best.scale < effort.least_gain * best.scale {
                break;
            }
            trust *= 0.25;
        }
        if trust < 1e-10 * mean {
            break;
        }
    }
    best
}

/// The pose after a step, and the wire it holds. What was promised to first order a longer step does not keep,
/// for the rings turn on circles: a second, shorter step from where the first ended wins most of it back.
fn corrected(moves: &Moves<'_>, pose: Pose, promised: f64, trust: f64) -> (Pose, f64) {
    let reached = scale(moves.problem, &pose);
    if reached > promised * (1.0 - 1e-12) {
        return (pose, reached);
    }
    let again = moves.step(&pose, reached, 0.25 * trust, Aim::Wire).map(|(step, _)| moves.moved(&pose, &step));
    // The middle must have the links too: two steps together could pull wire through wire.
    match again.map(|again| (scale(moves.problem, &again), again)) {
        Some((better, again)) if better > reached && has_links(moves.problem, &pose) => (again, better),
        _ => (pose, reached),
    }
}
