//! The floor: how small the rings may be, between what is proved and what was found; and the smallest
//! rings of one kind while the others are held.

use crate::measure::hole_needed;
use crate::settle::solve::has_links;
use crate::settle::solve::scale;
use crate::settle::solve::shrunk;
use crate::settle::solve::{Aim, Moves, Pose, Problem};
use crate::settle::solve::{Effort, tighten_with};

/// The least aspect ratio a ring can have, by number: the sections of the wires that pass it must lie side by
/// side in its hole ([`hole_needed`](crate::measure::hole_needed)). Proved; it does not change when all wires
/// grow alike. 0 where no ring is passed.
pub(crate) fn proved_ratio_of(problem: &Problem, ring: usize) -> f64 {
    let wire = |n: usize| problem.rings.get(n).map_or(0.0, |r| r.wire);
    // A ring linked with its own neighbours has one of them before it and one behind it.
    let passing = problem
        .links
        .iter()
        .flat_map(|l| [(l.from == ring).then(|| wire(l.to)), (l.to == ring).then(|| wire(l.from))])
        .flatten();
    let passing: Vec<f64> = passing.collect();
    let own = wire(ring);
    if own > 0.0 { hole_needed(&passing) / own } else { 0.0 }
}

/// How often rings are made smaller and loosened again.
const ROUNDS: usize = 12;

/// The smallest inner diameter found, mm, at which a weave closes when the rings `growing` (by number) are
/// all of that size, the wire and all other rings as they are; and the pose. It is looked for from `pose`.
/// `None` where no size of these rings makes room.
pub fn smallest_inner(problem: &Problem, pose: &Pose, growing: &[usize]) -> Option<(f64, Pose)> {
    let moves = Moves { problem, growing };
    let first = *growing.first()?;
    let mut pose = pose.clone();
    let mean = problem.mean_radius();
    // First room for the wire as it is, by larger rings if it must be.
    let (mut here, mut trust) = (scale(problem, &pose), 0.1 * mean);
    for _ in 0..200 {
        if here >= 1.0 {
            break;
        }
        let (step, _) = moves.step(&pose, here, trust, Aim::Wire)?;
        let there = moves.moved(&pose, &step);
        let reached = scale(problem, &there);
        if reached > here && has_links(problem, &there) {
            trust = (1.5 * trust).min(0.2 * mean);
            (pose, here) = (there, reached);
        } else {
            trust *= 0.4;
        }
        if trust < 1e-8 * mean {
            return None;
        }
    }
    // Small rings end wedged; where the wires have room to come free of one another, they go on.
    for _ in 0..ROUNDS {
        let before = pose.rings.get(first)?.radius;
        pose = shrunk(&moves, &pose)?;
        if before - pose.rings.get(first)?.radius < 1e-6 * mean {
            break;
        }
        let loosened = tighten_with(problem, pose.clone(), Effort::ROUGH);
        if loosened.scale > 1.0 {
            pose = loosened.pose;
        }
    }
    let size = problem.rings.get(first)?;
    let radius = pose.rings.get(first)?.radius;
    Some((2.0 * radius - size.wire, pose))
}
