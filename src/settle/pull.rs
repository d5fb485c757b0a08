//! Pulling a pose: the longest and the shortest repeat at which the rings, with their wire as it is, do not
//! overlap.

use super::find::has_links;
use super::problem::{Pose, Problem};
use super::tighten::{Aim, moved, scale, step};

/// The most linear programs for one pull.
const MOST_STEPS: usize = 150;
/// How much of the wire may be missing for rounding, as a part of it.
const ROUNDING: f64 = 1e-9;

/// The pose a piece comes to when it is pulled taut (`taut`) or pushed together from a pose, its wire
/// `wire` times as thick as in `problem`: the repeat is as long, or as short, as it can be got without
/// pulling wire through wire. Of a sheet both ways count together.
///
/// `None` where the pose does not hold such wire, or where nothing repeats.
pub fn pull(problem: &Problem, pose: &Pose, wire: f64, taut: bool) -> Option<Pose> {
    if problem.ways == 0 || scale(problem, pose) < wire * (1.0 - ROUNDING) {
        return None;
    }
    let sign = if taut { 1.0 } else { -1.0 };
    let mean = problem.mean_radius();
    let mut best = pose.clone();
    let mut trust = 0.1 * mean;
    for _ in 0..MOST_STEPS {
        let tried = step(problem, &best, wire, trust, Aim::Length(sign)).map(|(by, _)| moved(problem, &best, &by));
        let there = tried.and_then(|pose| held(problem, pose, wire, trust));
        let gain = there.as_ref().map_or(0.0, |pose| sign * (length(pose) - length(&best)));
        match there.filter(|pose| gain > 1e-12 * mean && has_links(problem, pose)) {
            Some(pose) => {
                best = pose;
                if gain < 1e-10 * mean {
                    break;
                }
                if gain > 0.5 * trust {
                    trust = (1.5 * trust).min(0.1 * mean);
                }
            }
            None => trust *= 0.3,
        }
        if trust < 1e-9 * mean {
            break;
        }
    }
    Some(best)
}

/// What is pulled at, mm: the length of the repeat along each way.
fn length(pose: &Pose) -> f64 {
    pose.ways[0].x + pose.ways[1].y
}

/// The pose moved as little as it takes for its wire to fit again; `None` where it does not.
fn held(problem: &Problem, mut pose: Pose, wire: f64, trust: f64) -> Option<Pose> {
    for _ in 0..4 {
        if scale(problem, &pose) >= wire * (1.0 - ROUNDING) {
            return Some(pose);
        }
        let (by, _) = step(problem, &pose, wire, trust, Aim::Room)?;
        pose = moved(problem, &pose, &by);
    }
    (scale(problem, &pose) >= wire * (1.0 - ROUNDING)).then_some(pose)
}
