//! Finding a pose with the wanted links and thin wire: from a start, downhill until every wanted link crosses
//! with a margin and every other pair is unlinked by a margin.

use super::descent::downhill;
use super::problem::{Pose, Problem};
use super::shortfall::{MARGIN, Numbers};

/// The part of the margin that may be missing in the end.
const ENOUGH: f64 = 0.1;

/// A pose with the wanted links from start number `start`, rings of every second repeat turned over along
/// the ways `turned`; `None` where the way downhill ends elsewhere.
pub fn find(problem: &Problem, turned: [bool; 2], start: u64) -> Option<Pose> {
    // All images of a ring lie in parallel planes unless the repeat turns.
    if !problem.spiral && problem.links.iter().any(|l| l.from == l.to) {
        return None;
    }
    let numbers = Numbers::of(problem, turned);
    let mut at = super::layout::start(problem, turned, start);
    let done = downhill(|x, slope| numbers.lack(x, slope), &mut at, ENOUGH * MARGIN * ENOUGH * MARGIN);
    let pose = numbers.pose(&at);
    (done && has_links(problem, &pose)).then_some(pose)
}

/// Whether every pair of the pose has the sign that the problem wants.
pub fn has_links(problem: &Problem, pose: &Pose) -> bool {
    let wanted_near = problem.links.iter().all(|l| match (pose.rings.get(l.from), pose.image(l.to, l.shift)) {
        (Some(a), Some(b)) => crate::settle::pair::link_sign(a, &b) == problem.wanted(l.from, l.to, l.shift),
        _ => false,
    });
    wanted_near
        && pose.pairs(0.0).into_iter().all(|(i, j, shift)| match (pose.rings.get(i), pose.image(j, shift)) {
            (Some(a), Some(b)) => crate::settle::pair::link_sign(a, &b) == problem.wanted(i, j, shift),
            _ => false,
        })
}
