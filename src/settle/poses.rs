//! The poses of a weave: many starts, each tightened, shaken and tightened again.

use super::find::{find, has_links};
use super::problem::{Pose, Problem};
use super::tighten::{Tight, tighten};
use glam::DVec3;
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;

/// How often a tightened pose is shaken. There are several jammed states, and a small push leads out of
/// many of them.
const SHAKES: u64 = 8;
/// How far, as a part of the mean core radius.
const FAR: f64 = 0.06;
/// Poses whose wire differs by less than this part are one pose.
const SAME: f64 = 1e-4;

/// The poses found from so many starts, the roomiest first, each once.
///
/// Rings may be turned over in every second repeat without changing a link, and every second repeat may
/// lie otherwise; so each way is tried plain and turned, and where no pose is found two repeats are taken
/// as one.
pub fn poses(problem: &Problem, starts: u64) -> Vec<Tight> {
    let mut found = from_all_starts(problem, starts);
    for way in 0..problem.ways {
        if found.is_empty() {
            found = from_all_starts(&problem.doubled(way), starts);
        }
    }
    found.sort_by(|a, b| b.scale.total_cmp(&a.scale));
    // Poses that differ in which rings are turned over are kept apart: to a text with eyes they are not alike.
    let mut kept: Vec<Tight> = Vec::new();
    for tight in found {
        let same = |k: &Tight| k.pose.turned == tight.pose.turned && (k.scale - tight.scale).abs() < SAME * k.scale;
        if !kept.iter().any(same) {
            kept.push(tight);
        }
    }
    kept
}

fn from_all_starts(problem: &Problem, starts: u64) -> Vec<Tight> {
    let choices: &[[bool; 2]] = match problem.ways {
        0 => &[[false, false]],
        1 => &[[false, false], [true, false]],
        _ => &[[false, false], [true, false], [false, true], [true, true]],
    };
    let mut found = Vec::new();
    for turned in choices {
        for start in 0..starts {
            let pose = find(problem, *turned, start);
            found.extend(pose.map(|pose| shaken(problem, tighten(problem, pose), start)));
        }
    }
    found
}

/// The best of a pose and what it becomes when it is shaken and tightened again.
fn shaken(problem: &Problem, mut best: Tight, start: u64) -> Tight {
    let mut random = ChaCha8Rng::seed_from_u64(start ^ 0x5eed);
    for _ in 0..SHAKES {
        let pose = shake(&best.pose, FAR * problem.mean_radius(), &mut random);
        if !has_links(problem, &pose) {
            continue;
        }
        let again = tighten(problem, pose);
        if again.scale > best.scale {
            best = again;
        }
    }
    best
}

fn shake(pose: &Pose, far: f64, random: &mut ChaCha8Rng) -> Pose {
    let mut pose = pose.clone();
    let mut small = || DVec3::from_array([0, 1, 2].map(|_| (random.random::<f64>() - 0.5) * 2.0 * far));
    for ring in &mut pose.rings {
        ring.centre += small();
        ring.normal = (ring.normal + small() / ring.radius).normalize_or(ring.normal);
    }
    pose
}
