//! One kind of ring without accents: everything follows from the aspect ratio.

use super::RATIO_STEP;
use super::answer::{Fit, Nearest};
use super::need::Counter;
use super::offer::{Offer, room};
use super::trial::Trial;
use crate::Weave;
use crate::count::Reach;
use crate::settle::Settled;
use rayon::prelude::*;
use std::collections::BTreeMap;

/// With less room than this, below 0, a weave is still taken to be at its floor, where it closes.
const AT_FLOOR: f64 = 1e-6;

/// Finds all sizes with which the weave closes.
pub(super) fn choose(fit: &mut Fit, weave: &Weave, settled: &Settled) {
    let Some(floor) = settled.floors.first() else { return };
    let mut closing: Vec<(&Offer, f64)> = Vec::new();
    for offer in &fit.offers {
        let room = room(offer.ratio(), floor.found);
        if offer.ratio() < floor.proved * (1.0 - 1e-9) {
            fit.misses.proved += 1;
        } else if room < -AT_FLOOR {
            fit.misses.not_found += 1;
            fit.misses.nearest.push(Nearest { offers: vec![offer.clone()], room: Some(room) });
        } else {
            closing.push((offer, room));
        }
    }
    // Each length once, side by side.
    let ratios: BTreeMap<i64, f64> = closing
        .iter()
        .map(|(offer, _)| {
            let (step, ratio) = rounded_down(offer.ratio());
            (step, ratio.max(floor.found))
        })
        .collect();
    let reaches: BTreeMap<i64, Option<Reach>> =
        ratios.par_iter().map(|(step, ratio)| (*step, Reach::at_ratio(settled, *ratio))).collect();
    fit.work.pulled = if settled.problem.ways == 0 { 0 } else { reaches.len() };
    let counter = Counter::of(weave);
    let row = |(offer, room): (&Offer, f64)| {
        let of_one = reaches.get(&rounded_down(offer.ratio()).0).and_then(Option::as_ref);
        let reach = of_one.map(|reach| reach.scaled(offer.inner_mm));
        Trial { closes: true, room, reach, sits: Vec::new() }.row(&fit.kinds, &[offer], &counter)
    };
    fit.rows = closing.into_iter().map(row).collect();
}

/// An aspect ratio rounded down to whole steps: how many, and the ratio.
#[allow(clippy::cast_possible_truncation)] // Aspect ratios are small.
fn rounded_down(ratio: f64) -> (i64, f64) {
    let steps = libm::floor(ratio / RATIO_STEP + 1e-6);
    (steps.clamp(-1e15, 1e15) as i64, steps * RATIO_STEP)
}
