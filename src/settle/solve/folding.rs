//! Starts for chains of bundles: laid out crosswise, some bundles folded back.
//!
//! One random start in ten ends in a box of two pairs, and almost none in the boxes of a Byzantine chain. So the search
//! also starts where a maker's hands would put the rings.

use super::bundle::Bundled;
use super::find::has_links;
use super::layout::within;
use super::problem::{Pose, Problem};
use crate::pattern::Shift;
use crate::settle::pair::{Circle, link_sign};
use glam::DVec3;
use rand::SeedableRng;
use rand_chacha::ChaCha8Rng;

/// Every centre is moved at random by up to this much, in mean core radii, so that no ring stands exactly where two
/// directions downhill are equal.
const CHANCE: f64 = 0.016;
/// How a pair of a chain of pairs is laid out, in mean core radii: what lies one after the other in the open, how far
/// its two rings stand apart; and of a pair folded back how far that is, and how far on the next one lies, which goes
/// between the rings of the pair it was folded along.
const ON: f64 = 1.4;
const APART: f64 = 0.25;
const FOLDED_APART: f64 = 0.85;
const FOLDED_ALONG: f64 = 0.55;
const FOLDED_ON: f64 = 1.1;
/// The most bundles in a repeat for which every choice of folded bundles is tried.
const MOST_FOLDING: usize = 4;

/// Every choice of bundles to fold back in the weave's own repeat, no two in a row; the choice of none comes first.
/// Empty for other weaves.
pub(crate) fn foldings(problem: &Problem, chain: &Bundled) -> impl Iterator<Item = Vec<bool>> {
    let times = if problem.times.row == 2 { 2 } else { 1 };
    let count = chain.bundles.len();
    let own = if count == times { count } else { count / times };
    let laid = !problem.spiral && count.is_multiple_of(2) && own <= MOST_FOLDING;
    let choices = (0..if laid { 1_u32 << own } else { 0 })
        .map(move |bits| (0..count).map(|k| bits >> (k % own) & 1 == 1).collect());
    choices.filter(move |folded: &Vec<bool>| (0..count).all(|k| !(at(folded, k) && at(folded, (k + 1) % count))))
}

fn at(folded: &[bool], bundle: usize) -> bool {
    folded.get(bundle).copied().unwrap_or(false)
}

/// A chain of bundles laid out crosswise, some of them folded back, as a maker folds a pair back along the pair
/// before it.
pub(crate) fn folded(problem: &Problem, chain: &Bundled, folded: &[bool], number: u64) -> Option<Pose> {
    let bundles = &chain.bundles;
    let mut random = ChaCha8Rng::seed_from_u64(number);
    let mean = problem.mean_radius();
    let mut rings: Vec<Option<Circle>> = vec![None; problem.rings.len()];
    let mut along = 0.0;
    for (number, bundle) in bundles.iter().enumerate() {
        let (back, under) = (at(folded, number), at(folded, (number + 1) % bundles.len()));
        let out = if number % 2 == 0 { DVec3::Z } else { DVec3::Y };
        for (place, (ring, _)) in bundle.iter().enumerate() {
            // From −1 on the one side to 1 on the other.
            let side = match bundle.len() {
                1 => f64::from(u8::from(back)),
                count => 2.0 * part(place, count - 1) - 1.0,
            };
            let (apart, normal) = match (back, under) {
                (true, _) => (FOLDED_APART, out + DVec3::X * side.signum()),
                (false, true) => (FOLDED_ALONG, out - DVec3::X * 0.4 * side),
                (false, false) => (APART, out),
            };
            let chance = DVec3::from_array([(); 3].map(|()| within(CHANCE, &mut random)));
            let centre = (DVec3::X * along + out * apart * side + chance) * mean;
            let circle = Circle { centre, normal: normal.normalize_or(out), radius: problem.rings.get(*ring)?.radius };
            *rings.get_mut(*ring)? = Some(circle);
        }
        // The next lies alongside where it is folded back.
        along += if under {
            -0.05
        } else if back {
            FOLDED_ON
        } else {
            ON
        };
    }
    let mut rings = rings.into_iter().collect::<Option<Vec<Circle>>>()?;
    let ways = [DVec3::X * along * mean, DVec3::ZERO];
    // What lies there may be the ring of another repeat.
    for (ring, own) in bundles.iter().flatten() {
        rings.get_mut(*ring)?.centre -= ways[0] * f64::from(*own);
    }
    let laid = [false, true].map(|turned| Pose { rings: rings.clone(), ways, twist: 0.0, turned: [turned, false] });
    laid.into_iter().find_map(|pose| faced(problem, chain, pose))
}

/// A part of a number of rings, as numbers that have one exactly.
fn part(place: usize, of: usize) -> f64 {
    let number = |n: usize| u32::try_from(n).map_or(0.0, f64::from);
    number(place) / number(of)
}

/// The pose with its rings turned over so that they pass one another as they are to; `None` where they are not linked
/// so as they lie.
fn faced(problem: &Problem, chain: &Bundled, mut pose: Pose) -> Option<Pose> {
    let mut known: Vec<(usize, i32)> = Vec::new();
    for (ring, own) in chain.bundles.iter().flatten().copied() {
        // Links with rings that are known, right ones less wrong ones.
        let mut right = 0;
        for (other, shift) in &known {
            let between = Shift::new(shift - own, 0);
            let (Some(a), Some(b)) = (pose.rings.get(ring), pose.image(*other, between)) else { continue };
            right += i32::from(link_sign(a, &b) * problem.wanted(ring, *other, between));
        }
        if right < 0 {
            let circle = pose.rings.get_mut(ring)?;
            *circle = circle.turned_over();
        }
        known.push((ring, own));
    }
    has_links(problem, &pose).then_some(pose)
}
