//! Putting rings on a pose that stays as it is: from a random start near what they are linked with, downhill
//! until their links are as wanted.

use crate::settle::solve::has_links;
use crate::settle::solve::{Numbers, Pose, Problem, downhill};
use glam::DVec3;
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;

/// Random places tried for each start.
const PLACES: usize = 6;

/// The pose with the rings `free` where their links want them, from start number `start`; all other rings
/// stay, and those `absent` do not count yet. `None` where no place is found.
pub(crate) fn place(problem: &Problem, pose: &Pose, free: &[usize], absent: &[usize], start: u64) -> Option<Pose> {
    let mut random = ChaCha8Rng::seed_from_u64(start ^ 0xacce);
    // Rings that are not there yet have no links and lie far off, each by itself.
    let mut links = problem.links.clone();
    links.retain(|l| !absent.contains(&l.from) && !absent.contains(&l.to));
    let present = Problem { links, ..problem.clone() };
    let mut pose = pose.clone();
    for (ring, far) in absent.iter().zip(1..) {
        if let Some(circle) = pose.rings.get_mut(*ring) {
            circle.normal = DVec3::X;
            circle.centre = DVec3::Z * (100.0 * problem.mean_radius() * f64::from(far));
        }
    }
    let numbers = Numbers::moving(&present, pose.turned, free);
    (0..PLACES).find_map(|_| {
        let mut pose = pose.clone();
        for ring in free {
            let mut small = || DVec3::from_array([0; 3].map(|_| (random.random::<f64>() - 0.5) * 2.0));
            let middle = middle_of_linked(&present, &pose, *ring, free);
            let slot = pose.rings.get_mut(*ring)?;
            slot.centre = middle + small() * slot.radius;
            slot.normal = small().try_normalize().unwrap_or(DVec3::Z);
        }
        let mut at = numbers.of_pose(&pose);
        downhill(|x, slope| numbers.lack(x, slope), &mut at, 0.0);
        // What does not move is kept to the last bit.
        let found = numbers.pose(&at);
        for ring in free {
            *pose.rings.get_mut(*ring)? = *found.rings.get(*ring)?;
        }
        has_links(&present, &pose).then_some(pose)
    })
}

/// The middle of the rings a ring is linked with that are in their place.
fn middle_of_linked(problem: &Problem, pose: &Pose, ring: usize, free: &[usize]) -> DVec3 {
    let linked = problem.links.iter().filter_map(|l| {
        let back = -l.shift;
        let (other, shift) = match ring {
            r if r == l.from => (l.to, l.shift),
            r if r == l.to => (l.from, back),
            _ => return None,
        };
        (!free.contains(&other)).then(|| pose.image(other, shift)).flatten()
    });
    let (sum, count) = linked.fold((DVec3::ZERO, 0.0_f64), |(sum, count), c| (sum + c.centre, count + 1.0));
    sum / count.max(1.0)
}
