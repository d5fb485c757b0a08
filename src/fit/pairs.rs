//! Pairs of sizes, and one kind that is base and accent at once: the most promising are settled.

use super::SHAPE_STEP;
use super::answer::{Fit, Nearest};
use super::gaps::gaps;
use super::holes::Holes;
use super::need::Counter;
use super::offer::{Offer, room};
use super::order::{Candidate, Look, in_turn, next};
use super::survey::{Ratios, Survey, ratios};
use super::trial::Trial;
use crate::Weave;
use crate::settle::{Settled, Word};
use rayon::prelude::*;
use std::collections::{BTreeMap, BTreeSet};

/// A survey may be wrong by this much room: what looks tighter is not settled.
pub(super) const OUT_BY: f64 = 0.03;
/// By how much a ring is taken larger, to see whether its neighbours hold it.
const LARGER: f64 = 1.03;
/// The most shapes that are tried for each row that is asked for.
const TRIES: usize = 2;

/// Settles the choices that look best, until there are `most` rows or twice as many were tried.
pub(super) fn choose(fit: &mut Fit, weave: &Weave, settled: &Settled, most: usize) {
    let kinds = settled.kinds(weave.pattern());
    let left = not_ruled_out(fit, &Holes::of(settled, &kinds));
    if let [_, second] = fit.kinds.as_slice() {
        let wanted: Vec<Ratios> = left.iter().map(|(_, ratios)| *ratios).collect();
        fit.survey = Some(Survey::of(settled, &kinds, second, &wanted));
    }
    fit.work.surveyed = fit.survey.as_ref().map_or(0, Survey::points);
    let alike = settled.floors.first().map(|floor| floor.found);
    let Promising { ordered, mut open } = promising(fit, alike, left);
    let tried = settle(fit, weave, &ordered, most);
    fit.misses.promising = ordered.len() - tried.len();
    // Beyond the sizes in common use there are always more.
    if fit.kinds.len() == 2 && fit.from_shelf {
        let untried = ordered.iter().enumerate().filter(|(number, _)| !tried.contains(number));
        open.extend(untried.filter_map(|(_, candidate)| candidate.picks.first().copied()));
        fit.gaps = gaps(weave, fit, &open);
    }
}

/// The sizes of a choice, by their numbers.
fn offers<'f>(fit: &'f Fit, picks: &[usize]) -> Vec<&'f Offer> {
    picks.iter().filter_map(|number| fit.offers.get(*number)).collect()
}

/// All choices but those that are proved not to go and those the base alone does not allow, which are counted among the
/// misses; each by the numbers of its sizes, with the ratios of the last kind to the first.
fn not_ruled_out(fit: &mut Fit, holes: &Holes<'_>) -> Vec<(Vec<usize>, Ratios)> {
    let count = fit.offers.len();
    let choices: Vec<Vec<usize>> = match fit.kinds.len() {
        1 => (0..count).map(|n| vec![n]).collect(),
        _ => (0..count).flat_map(|a| (0..count).map(move |b| vec![a, b])).collect(),
    };
    let mut left = Vec::new();
    for picks in choices {
        let offers = offers(fit, &picks);
        let Some((first, last)) = offers.first().zip(offers.last()) else { continue };
        let size = |kind: &str| {
            let (_, offer) = fit.kinds.iter().zip(&offers).find(|(k, _)| *k == kind)?;
            Some((offer.wire_mm, offer.inner_mm))
        };
        if holes.too_small(size) {
            fit.misses.proved += 1;
        } else if fit.base_floor.is_some_and(|floor| first.ratio() < floor - 1e-6) {
            fit.misses.base += 1;
        } else {
            left.push((picks, ratios(first.ring(), last.ring())));
        }
    }
    left
}

/// Choices that look as if they close.
struct Promising {
    /// In the order in which they are settled.
    ordered: Vec<Candidate>,
    /// First sizes of which not every pair was surveyed, by number.
    open: BTreeSet<usize>,
}

/// Sorts out the choices that look too tight, or are too unlike to be surveyed; they are counted among the misses. `alike`
/// is the floor of a weave of one kind.
fn promising(fit: &mut Fit, alike: Option<f64>, left: Vec<(Vec<usize>, Ratios)>) -> Promising {
    let mut candidates = Vec::new();
    let mut open = BTreeSet::new();
    for (picks, ratios) in left {
        let offers = offers(fit, &picks);
        let Some((first, last)) = offers.first().zip(offers.last()) else { continue };
        let floor = fit.survey.as_ref().map_or(alike, |survey| survey.floor(ratios));
        let Some(floor) = floor else {
            fit.misses.beyond += 1;
            open.extend(picks.first());
            continue;
        };
        let room_of_all = room(first.ratio(), floor);
        if room_of_all < -OUT_BY {
            fit.misses.tight += 1;
            continue;
        }
        let [radius, wires] = ratios;
        let larger = fit.survey.as_ref().and_then(|survey| survey.floor([radius * LARGER, wires]));
        let look = Look {
            room: room_of_all,
            alone: fit.base_floor.map_or(room_of_all, |floor| room(first.ratio(), floor)),
            wires,
            held: larger.is_some_and(|larger| larger > floor + 1e-3),
        };
        let radius = last.ring().radius;
        candidates.push(Candidate { picks, ratios, radius, look });
    }
    Promising { ordered: in_turn(candidates), open }
}

/// Aspect ratio and wire (in wires of the first kind) of every kind, in steps of [`SHAPE_STEP`].
type Shape = Vec<[i64; 2]>;

/// Settles candidates, each shape once, and adds what closes to the rows and what does not to the misses; the numbers of
/// those that were tried come back. The first half of the rows is looked for in order; from what sits straight of them the
/// others are chosen.
fn settle(fit: &mut Fit, weave: &Weave, ordered: &[Candidate], most: usize) -> BTreeSet<usize> {
    let mut tried: BTreeSet<usize> = BTreeSet::new();
    let mut known: BTreeMap<Shape, Option<Trial>> = BTreeMap::new();
    let mut straight: Vec<&Candidate> = Vec::new();
    let counter = Counter::of(weave);
    while fit.rows.len() < most && tried.len() < most.saturating_mul(TRIES) {
        let lacking = (most - fit.rows.len()).min(most.div_ceil(2));
        let batch = next(ordered, &tried, &straight, lacking);
        if batch.is_empty() {
            break;
        }
        let shapes: BTreeSet<Shape> = batch.iter().map(|(_, c)| shape(&offers(fit, &c.picks))).collect();
        let new: Vec<Shape> = shapes.into_iter().filter(|shape| !known.contains_key(shape)).collect();
        let trials: Vec<Option<Trial>> = new.par_iter().map(|shape| at_shape(weave, &fit.kinds, shape)).collect();
        fit.work.settled += new.len();
        known.extend(new.into_iter().zip(trials));
        for (number, candidate) in batch {
            tried.insert(number);
            let offers = offers(fit, &candidate.picks);
            let wire = offers.first().map_or(1.0, |offer| offer.wire_mm);
            match known.get(&shape(&offers)).and_then(Option::as_ref) {
                Some(trial) if trial.closes => {
                    let row = trial.scaled(wire).row(&fit.kinds, &offers, &counter);
                    if row.worst() == Some(Word::Straight) {
                        straight.push(candidate);
                    }
                    fit.rows.push(row);
                }
                trial => {
                    let room = trial.map(|trial| trial.room);
                    let offers = offers.into_iter().cloned().collect();
                    fit.misses.not_found += 1;
                    fit.misses.nearest.push(Nearest { offers, room });
                }
            }
        }
    }
    tried
}

fn shape(offers: &[&Offer]) -> Shape {
    let wire = offers.first().map_or(1.0, |offer| offer.wire_mm);
    #[allow(clippy::cast_possible_truncation)] // Small numbers.
    let steps = |x: f64| libm::round(x / SHAPE_STEP).clamp(1.0, 1e9) as i64;
    offers.iter().map(|offer| [steps(offer.ratio()), steps(offer.wire_mm / wire)]).collect()
}

/// What comes of a shape with wire of the first kind 1 mm thick.
fn at_shape(weave: &Weave, kinds: &[String], shape: &Shape) -> Option<Trial> {
    #[allow(clippy::cast_precision_loss)] // Small numbers.
    let sizes = shape.iter().map(|part| {
        let [ratio, wire] = part.map(|steps| steps as f64 * SHAPE_STEP);
        (wire, wire * ratio)
    });
    let sizes: Vec<(&str, (f64, f64))> = kinds.iter().map(String::as_str).zip(sizes).collect();
    Trial::of(weave, &sizes)
}
