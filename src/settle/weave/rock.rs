//! How far a ring rocks in a piece that is held drawn out: it is jostled, a little and a little more, wherever it
//! has room, and how far it has turned is read from all the places it has been.

use crate::settle::pair::link_sign;
use crate::settle::solve::ROUNDING;
use crate::settle::solve::scale_of;
use crate::settle::solve::{Pose, Problem};
use glam::DVec3;
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;

/// How many times a ring is jostled.
const JOSTLES: usize = 20_000;
/// One in this many of the places it has been is compared with the others.
const COMPARED: usize = 20;
/// The least and the greatest jostle, as parts of the core radius and in radians.
const LEAST: f64 = 1e-3;
const GREATEST: f64 = 0.1;

/// How far a ring of a pose rocks while all others stay, degrees from end to end; `wire` is how thick the wire
/// is, as a part of the wire given.
pub(crate) fn rock(problem: &Problem, pose: &Pose, wire: f64, ring: usize) -> f64 {
    let Some(start) = pose.rings.get(ring).copied() else { return 0.0 };
    let mut random = ChaCha8Rng::seed_from_u64(0x0c_4a_11 + ring as u64);
    // Only what is near can be in the way: no jostled ring gets farther than its own width.
    let pairs: Vec<_> =
        pose.pairs(2.0 * start.radius).into_iter().filter(|(from, to, _)| *from == ring || *to == ring).collect();
    let fits = |pose: &Pose| {
        pairs.iter().all(|(from, to, shift)| {
            let (Some(a), Some(b)) = (pose.rings.get(*from), pose.image(*to, *shift)) else { return false };
            scale_of(problem, (*from, a), (*to, &b)) >= wire * (1.0 - ROUNDING)
                && link_sign(a, &b) == problem.wanted(*from, *to, *shift)
        })
    };
    let mut pose = pose.clone();
    let mut been = vec![start.normal];
    for number in 0..JOSTLES {
        let mut within = |most: f64| DVec3::from_array([0; 3].map(|_| (random.random::<f64>() - 0.5) * 2.0 * most));
        // As many small jostles as great ones, whatever the unit.
        let (share, by, tilt) = (within(0.5).x + 0.5, within(1.0), within(1.0));
        let far = LEAST * libm::pow(GREATEST / LEAST, share);
        let Some(slot) = pose.rings.get_mut(ring) else { return 0.0 };
        let before = *slot;
        slot.centre += by * far * start.radius;
        slot.normal = (slot.normal + tilt * far).normalize_or(slot.normal);
        let now = slot.normal;
        if slot.centre.distance(start.centre) > start.radius || !fits(&pose) {
            if let Some(slot) = pose.rings.get_mut(ring) {
                *slot = before;
            }
            continue;
        }
        if number % COMPARED == 0 {
            been.push(now);
        }
    }
    let apart = been.iter().flat_map(|a| been.iter().map(move |b| a.dot(*b))).fold(1.0, f64::min);
    libm::acos(apart.max(-1.0)).to_degrees()
}
