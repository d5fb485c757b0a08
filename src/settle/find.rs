//! Finding a pose with the wanted links and thin wire: from a start, downhill until every wanted link crosses
//! with a margin and every other pair is unlinked by a margin.

use super::descent::downhill;
use super::lacks::{MARGIN, Numbers};
use super::problem::{Pose, Problem};
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;

/// What of the margin may be lacking in the end.
const ENOUGH: f64 = 0.1;

/// A pose with the wanted links from start number `start`, rings of every second repeat turned over along
/// the ways `turned`; `None` where the way downhill ends elsewhere.
pub fn find(problem: &Problem, turned: [bool; 2], start: u64) -> Option<Pose> {
    // All images of a ring lie in parallel planes unless the repeat turns.
    if !problem.spiral && problem.links.iter().any(|l| l.from == l.to) {
        return None;
    }
    let mut random = ChaCha8Rng::seed_from_u64(start);
    let numbers = Numbers::of(problem, turned);
    let mut at = random_start(problem, &mut random);
    let done = downhill(|x, slope| numbers.lack(x, slope), &mut at, ENOUGH * MARGIN * ENOUGH * MARGIN);
    let pose = numbers.pose(&at);
    (done && has_links(problem, &pose)).then_some(pose)
}

/// Whether every pair of the pose has the sign that is wanted.
pub fn has_links(problem: &Problem, pose: &Pose) -> bool {
    let wanted_near = problem.links.iter().all(|l| match (pose.rings.get(l.from), pose.image(l.to, l.shift)) {
        (Some(a), Some(b)) => super::link_sign(a, &b) == problem.wanted(l.from, l.to, l.shift),
        _ => false,
    });
    wanted_near
        && pose.pairs(0.0).into_iter().all(|(i, j, shift)| match (pose.rings.get(i), pose.image(j, shift)) {
            (Some(a), Some(b)) => super::link_sign(a, &b) == problem.wanted(i, j, shift),
            _ => false,
        })
}

/// Numbers of a pose: centre and normal of each ring, then the shifts. In units of the mean radius.
fn random_start(problem: &Problem, random: &mut ChaCha8Rng) -> Vec<f64> {
    let mut x = Vec::new();
    let mut around = |scale: f64| (random.random::<f64>() - 0.5) * 2.0 * scale;
    for _ in &problem.rings {
        x.extend((0..3).map(|_| around(1.0)));
        x.extend((0..3).map(|_| around(1.0)));
    }
    if problem.ways >= 1 {
        x.push(1.0 + around(0.7));
    }
    if problem.ways >= 2 {
        x.extend([around(1.0), 1.0 + around(0.7)]);
    }
    if problem.spiral {
        x.push(around(3.1));
    }
    x
}
