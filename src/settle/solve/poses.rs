//! The poses of a weave: many starts, each tightened, shaken and tightened again.

use super::bundle::Bundled;
use super::find::{find, has_links};
use super::folding::{folded, foldings};
use super::problem::{Pose, Problem};
use super::tighten::{Effort, Tight, tighten, tighten_with};
use glam::DVec3;
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;
use rayon::prelude::*;
use std::ops::Range;

/// How far a tightened pose is shaken, as a part of the mean core radius, time after time. There are several
/// jammed states, and a push leads out of many of them; a last small one out of mere sticking.
const SHAKES: [f64; 4] = [0.06, 0.06, 0.02, 0.006];
/// Poses whose wire differs by less than this part are one pose.
const SAME: f64 = 1e-4;
/// Poses that hold less than this part of the wire of the best are dropped.
const LEAST: f64 = 0.6;
/// The most poses that are tightened fully.
const MOST_POSES: usize = 8;
/// The factor by which more starts are tried where none led to a pose.
const MORE: u64 = 24;
/// How many of the best poses are shaken.
const SHAKEN: u64 = 3;
/// Poses that are not fully tightened are one pose within this part.
const ROUGHLY_SAME: f64 = 0.01;

/// The poses found of a weave.
#[derive(Clone, Debug)]
pub struct Found {
    /// The problem they are poses of: the one asked, or two repeats of it taken as one.
    pub problem: Problem,
    /// The poses, the roomiest first, each once.
    pub poses: Vec<Tight>,
    /// Starts tried for them in all.
    pub starts: u64,
}

/// The poses found from this many starts for each way of turning rings over.
///
/// Turning rings over in every second repeat changes no link, so each way is tried plain and turned. Where no
/// pose is found, many more starts are tried; then, as every second repeat may lie differently, two repeats are taken
/// as one.
///
/// The bundles of a chain stand crosswise, one after the other: for an odd number of them two repeats are taken as one.
///
/// For spirals, where no start can be laid out, four times as many are tried.
pub fn poses(problem: &Problem, starts: u64) -> Found {
    let starts = if problem.spiral { 4 * starts } else { starts };
    let odd = !problem.spiral && Bundled::of(problem).is_some_and(|chain| chain.bundles.len() % 2 == 1);
    let doubled = (usize::from(odd)..problem.ways).map(|way| problem.doubled(way));
    let asked = if odd { problem.doubled(0) } else { problem.clone() };
    let mut found = from_starts(asked.clone(), 0..starts);
    for problem in std::iter::once(asked).chain(doubled) {
        if found.poses.is_empty() {
            found = from_starts(problem, 0..starts * MORE);
        }
    }
    found
}

fn from_starts(problem: Problem, numbers: Range<u64>) -> Found {
    // Work is shared among the cores; results stay in order.
    let turnings = problem.turnings().iter();
    let tries: Vec<([bool; 2], u64)> = turnings.flat_map(|t| numbers.clone().map(move |s| (*t, s))).collect();
    let rough = tries.par_iter().filter_map(|(turned, start)| {
        find(&problem, *turned, *start).map(|pose| tighten_with(&problem, pose, Effort::ROUGH))
    });
    let bundled = Bundled::of(&problem);
    let mut rough: Vec<Tight> = rough.collect();
    let laid: Vec<Pose> = match &bundled {
        Some(chain) => {
            foldings(&problem, chain).zip(0..).filter_map(|(f, number)| folded(&problem, chain, &f, number)).collect()
        }
        None => Vec::new(),
    };
    let starts = (tries.len() + laid.len()) as u64;
    rough.par_extend(laid.into_par_iter().map(|pose| tighten_with(&problem, pose, Effort::ROUGH)));
    rough.retain(|tight| !coiled(&problem, &tight.pose));
    // Only what looks like a pose of its own is worth the work of tightening it fully.
    let mut kept = each_once(&problem, bundled.as_ref(), rough, ROUGHLY_SAME);
    let best = kept.first().map_or(0.0, |t| t.scale);
    kept.retain(|t| t.scale > best * LEAST);
    kept.truncate(MOST_POSES);
    let numbered: Vec<(Tight, u64)> = kept.into_iter().zip(0..).collect();
    let full = numbered.into_par_iter().map(|(t, number)| {
        if number < SHAKEN {
            shaken(&problem, tighten(&problem, t.pose), number, Effort::FULL)
        } else {
            tighten_with(&problem, t.pose, Effort::GOOD)
        }
    });
    let poses = each_once(&problem, bundled.as_ref(), full.collect(), SAME);
    Found { problem, poses, starts }
}

/// Whether a spiral does not turn about its own length, but lies in coils about an axis beside it, like a spring.
fn coiled(problem: &Problem, pose: &Pose) -> bool {
    let count = u32::try_from(pose.rings.len()).map_or(f64::INFINITY, f64::from);
    let middle = pose.rings.iter().map(|r| r.centre).sum::<DVec3>() / count.max(1.0);
    problem.spiral && middle.y * middle.y + middle.z * middle.z > problem.mean_radius() * problem.mean_radius()
}

/// Poses that hold the same wire, once; the roomiest first. Poses that differ in which rings are turned over or
/// folded back are kept apart: to a text with eyes or folds they are not alike.
fn each_once(problem: &Problem, bundled: Option<&Bundled>, mut found: Vec<Tight>, same: f64) -> Vec<Tight> {
    found.sort_by(|a, b| b.scale.total_cmp(&a.scale));
    let mut kept: Vec<(Tight, Option<Vec<usize>>)> = Vec::new();
    for tight in found {
        let back = bundled.map(|chain| chain.folded(problem, &tight.pose));
        let alike = |(known, other): &&mut (Tight, Option<Vec<usize>>)| {
            known.pose.turned == tight.pose.turned
                && *other == back
                && (known.scale - tight.scale).abs() < same * known.scale
        };
        match kept.iter_mut().find(alike) {
            // Where rings are free to slide, the pose drawn out longest stands for all.
            Some((known, _)) if tight.pose.length() > known.pose.length() * (1.0 + same) => *known = tight,
            Some(_) => {}
            None => kept.push((tight, back)),
        }
    }
    kept.into_iter().map(|(tight, _)| tight).collect()
}

/// The best of a pose and what it becomes when it is shaken and tightened again.
pub(crate) fn shaken(problem: &Problem, mut best: Tight, number: u64, effort: Effort) -> Tight {
    let mut random = ChaCha8Rng::seed_from_u64(number ^ 0x5eed);
    for far in SHAKES {
        let pose = shake(&best.pose, far * problem.mean_radius(), &mut random);
        if !has_links(problem, &pose) {
            continue;
        }
        let again = tighten_with(problem, pose, Effort::ROUGH);
        // Back where it was, as most shakes end: not worth the last digits.
        if again.scale > best.scale * (1.0 - 2.0 * ROUGHLY_SAME) {
            let again = tighten_with(problem, again.pose, effort);
            if again.scale > best.scale {
                best = again;
            }
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
