//! Pulling a pose: the longest and the shortest repeat at which the rings, with their wire as it is, do not
//! overlap.

use super::find::has_links;
use super::near::scale;
use super::problem::{Pose, Problem};
use super::step::{Aim, Moves};

/// The most linear programs for one pull.
const MOST_STEPS: usize = 500;
/// Ends with the step that gains less than this part of the mean core radius.
const LEAST_GAIN: f64 = 1e-8;
/// Steps shorter than this part of it do not count for that.
const SHORT: f64 = 1e-4;
/// How much of the wire may be missing for rounding, as a part of it.
pub(crate) const ROUNDING: f64 = 1e-9;
/// How long a step is that gives back what is lacking, in as much as is lacking.
const GIVING_BACK: f64 = 3.0;
/// The shortest step, as a part of the mean core radius.
const FINEST: f64 = 1e-9;

/// How far a pose is driven.
#[derive(Clone, Copy)]
struct Effort {
    /// The most steps.
    steps: usize,
    /// The shortest step, as a part of the mean core radius.
    finest: f64,
}

/// The pose a piece comes to when it is pulled taut (`taut`) or pushed together from a pose, its wire
/// `wire` times as thick as in `problem`: the repeat is as long, or as short, as it can be got without
/// pulling wire through wire. Of a sheet both ways count together.
///
/// `None` where the pose does not hold such wire, or where nothing repeats.
pub fn pull(problem: &Problem, pose: &Pose, wire: f64, taut: bool) -> Option<Pose> {
    pull_with(problem, pose, wire, taut, FINEST)
}

/// The same, as exact as steps of this part of the mean core radius make it.
pub(crate) fn pull_with(problem: &Problem, pose: &Pose, wire: f64, taut: bool, finest: f64) -> Option<Pose> {
    if problem.ways == 0 {
        return None;
    }
    let sign = if taut { 1.0 } else { -1.0 };
    let effort = Effort { steps: MOST_STEPS, finest };
    driven(&Moves::of(problem), pose, wire, Aim::Length(sign), effort, &|pose| sign * pose.length())
}

/// The same pose with the growing rings of `moves` as small as they can be got.
pub(crate) fn shrunk(moves: &Moves<'_>, pose: &Pose) -> Option<Pose> {
    let first = *moves.growing.first()?;
    let radius = |pose: &Pose| pose.rings.get(first).map_or(0.0, |r| -r.radius);
    driven(moves, pose, 1.0, Aim::Smaller, Effort { steps: MOST_STEPS, finest: FINEST }, &radius)
}

/// Steps towards an aim while it gains, the wire kept: `gain_of` is what is to grow, mm or radians.
fn driven(
    moves: &Moves<'_>,
    pose: &Pose,
    wire: f64,
    aim: Aim,
    effort: Effort,
    gain_of: &dyn Fn(&Pose) -> f64,
) -> Option<Pose> {
    let problem = moves.problem;
    if scale(problem, pose) < wire * (1.0 - ROUNDING) {
        return None;
    }
    let mean = problem.mean_radius();
    let mut best = pose.clone();
    let mut trust = 0.1 * mean;
    for _ in 0..effort.steps {
        let Some((by, _)) = moves.step(&best, wire, trust, aim) else { break };
        let first = moves.moved(&best, &by);
        let promised = gain_of(&first) - gain_of(&best);
        let there = held(moves, first, wire, trust, aim);
        let gain = there.as_ref().map_or(0.0, |pose| gain_of(pose) - gain_of(&best));
        match there.filter(|pose| gain > 0.0 && has_links(problem, pose)) {
            Some(pose) => {
                best = pose;
                // A step that keeps what it promised may be longer next time.
                if gain > 0.5 * promised {
                    trust = (2.0 * trust).min(0.1 * mean);
                } else if gain < 0.2 * promised {
                    trust *= 0.5;
                }
                // A short step gains little; the next one is longer.
                if gain < LEAST_GAIN * mean && trust > SHORT * mean {
                    break;
                }
            }
            None if promised < LEAST_GAIN * mean && trust > SHORT * mean => break,
            None => trust *= 0.3,
        }
        if trust < effort.finest * mean {
            break;
        }
    }
    Some(best)
}

/// The pose with what its step took of the wire given back, by shorter steps with the same aim; `None` where
/// that cannot be.
fn held(moves: &Moves<'_>, mut pose: Pose, wire: f64, trust: f64, aim: Aim) -> Option<Pose> {
    let thickest = moves.problem.rings.iter().map(|r| r.wire).fold(0.0, f64::max);
    for _ in 0..6 {
        let here = scale(moves.problem, &pose);
        if here >= wire * (1.0 - ROUNDING) {
            return Some(pose);
        }
        // What is lacking is of second order, and so must be what gives it back: a longer step than it takes would
        // take as much again.
        let lack = (wire - here) * thickest;
        let back = moves.step(&pose, wire, (GIVING_BACK * lack).min(trust), aim);
        let (by, _) = back.or_else(|| moves.step(&pose, wire, trust, Aim::Room))?;
        pose = moves.moved(&pose, &by);
    }
    (scale(moves.problem, &pose) >= wire * (1.0 - ROUNDING)).then_some(pose)
}
