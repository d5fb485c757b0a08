//! Pairs of sizes: which look as if they close, and what comes of settling the most promising.

use super::bounds::Bounds;
use super::choose::Fit;
use super::need::Counter;
use super::offer::Offer;
use super::rows::{Row, picks};
use super::survey::Survey;
use crate::Weave;
use crate::count::Reach;
use crate::fit::SHAPE_STEP;
use crate::pattern::FamilyId;
use crate::settle::{Settled, Word};
use rayon::prelude::*;
use std::collections::{BTreeMap, BTreeSet};

/// The survey may be out by so much room: what it takes to be tighter than this is not settled.
pub(super) const OUT_BY: f64 = 0.03;
/// The room that is looked for first, as a part of the wires: rings as close as they go with ease; but no more than this part
/// of what the base has alone. An accent that takes up half of it was held straight in our trials, one that takes up less
/// rocks. It decides on the order of trying alone. Common practice, no source.
pub(super) const SOUGHT: f64 = 0.06;
const OF_BASE: f64 = 0.5;
/// So much more or less room counts as much as wires that differ by so much, as parts: accents are taken of wire like the
/// base's. Common practice, no source.
const OFF_ROOM: f64 = 0.01;
const OFF_WIRE: f64 = 0.1;
/// And so much room that the base alone has more than the whole and as much again: its rings should be no larger than the
/// accent wants.
const OFF_BASE: f64 = 0.05;
/// And where a larger ring of the second kind would have no less room: it has something to rock in.
const OFF_FREE: f64 = 1.5;
/// So much larger it is taken for that.
const LARGER: f64 = 1.03;
/// For each row that is asked for so many shapes are tried at most.
const TRIES: usize = 2;
/// Shapes of which both ratios together differ by less than this part are alike.
const NEAR: f64 = 0.03;

/// A choice that looks as if it closes.
#[derive(Clone, Debug)]
pub(super) struct Candidate {
    /// The sizes, by number, one for each kind.
    pub picks: Vec<usize>,
    /// About how much room it has.
    pub room: f64,
    /// Ratio of the core radii, and of the wires, of the second kind and the first.
    pub ratios: [f64; 2],
    /// Whether a larger ring of the second kind would have less room: it lies against its neighbours, which may hold it.
    pub held: bool,
}

/// All choices that look as if they close, in the order in which they are settled.
pub(super) struct Candidates {
    /// In that order.
    pub ordered: Vec<Candidate>,
    /// First sizes of which not every pair was surveyed, by number.
    pub beyond: BTreeSet<usize>,
}

/// Sorts out all choices: what is proved not to go, and what the base does not allow, is counted among the misses of
/// `fit`, and so is what looks too tight.
pub(super) fn candidates(fit: &mut Fit, settled: &Settled, kind: &[usize], bounds: &Bounds) -> Candidates {
    let count = fit.offers.len();
    let choices: Vec<Vec<usize>> = match fit.kinds.len() {
        1 => (0..count).map(|n| vec![n]).collect(),
        _ => (0..count).flat_map(|a| (0..count).map(move |b| vec![a, b])).collect(),
    };
    let mut left: Vec<(Vec<usize>, [f64; 2])> = Vec::new();
    for choice in choices {
        let offers: Vec<&Offer> = choice.iter().filter_map(|n| fit.offers.get(*n)).collect();
        let sizes: Vec<(f64, f64)> = offers.iter().map(|o| (o.wire_mm, o.inner_mm)).collect();
        let Some((first, last)) = offers.first().zip(offers.last()) else { continue };
        if bounds.broken(&sizes).is_some() {
            fit.misses.proved += 1;
        } else if fit.base_floor.is_some_and(|floor| first.ratio() < floor - 1e-6) {
            fit.misses.base += 1;
        } else {
            let ratios = [last.radius() / first.radius(), last.wire_mm / first.wire_mm];
            left.push((choice, ratios));
        }
    }
    let survey = (fit.kinds.len() == 2)
        .then(|| Survey::of(settled, kind, &left.iter().map(|(_, ratios)| *ratios).collect::<Vec<_>>()));
    let alike = settled.floors.first().map(|f| f.found);
    let mut by_first: BTreeMap<usize, Vec<Candidate>> = BTreeMap::new();
    let mut beyond = BTreeSet::new();
    for (picks, ratios) in left {
        let floor = survey.as_ref().map_or(alike, |s| s.floor(ratios));
        let Some(first) = picks.first().copied() else { continue };
        let room = fit.offers.get(first).zip(floor).map(|(o, floor)| (o.ratio() + 1.0) / (floor + 1.0) - 1.0);
        match room {
            None => {
                fit.misses.beyond += 1;
                beyond.insert(first);
            }
            Some(room) if room < -OUT_BY => fit.misses.tight += 1,
            Some(room) => {
                let larger = survey.as_ref().and_then(|s| s.floor([ratios[0] * LARGER, ratios[1]]));
                let held = larger.zip(floor).is_some_and(|(larger, floor)| larger > floor + 1e-3);
                by_first.entry(first).or_default().push(Candidate { picks, room, ratios, held });
            }
        }
    }
    fit.survey = survey;
    Candidates { ordered: in_turn(by_first, &fit.offers, fit.base_floor), beyond }
}

/// The best of each first size in turn, then the second best, and so on: every size of the base gets its turn.
fn in_turn(by_first: BTreeMap<usize, Vec<Candidate>>, offers: &[Offer], base_floor: Option<f64>) -> Vec<Candidate> {
    let offer = |number: Option<&usize>| number.and_then(|n| offers.get(*n));
    let off = |c: &Candidate| {
        let wires = offer(c.picks.first()).zip(offer(c.picks.last())).map_or(1.0, |(a, b)| b.wire_mm / a.wire_mm);
        let alone =
            offer(c.picks.first()).zip(base_floor).map_or(c.room, |(o, floor)| (o.ratio() + 1.0) / (floor + 1.0) - 1.0);
        let off = (c.room - SOUGHT.min(OF_BASE * alone.max(0.0))).abs() / OFF_ROOM
            + (wires.max(1.0 / wires) - 1.0) / OFF_WIRE
            + (alone - c.room - OFF_BASE).max(0.0) / OFF_BASE
            + if c.held { 0.0 } else { OFF_FREE };
        // Rounded: what differs by less is alike, and then the larger second ring comes first. It has less to rock in.
        libm::round(2.0 * off)
    };
    let radius = |c: &Candidate| offer(c.picks.last()).map_or(0.0, Offer::radius);
    let order = |a: &Candidate, b: &Candidate| {
        off(a).total_cmp(&off(b)).then(radius(b).total_cmp(&radius(a))).then(a.picks.cmp(&b.picks))
    };
    let mut ranked: Vec<(usize, Candidate)> = Vec::new();
    for mut all in by_first.into_values() {
        all.sort_by(order);
        ranked.extend(all.into_iter().enumerate());
    }
    ranked.sort_by(|(i, a), (j, b)| i.cmp(j).then_with(|| order(a, b)));
    ranked.into_iter().map(|(_, c)| c).collect()
}

/// What came of settling.
pub(super) struct Pairs {
    /// Those that close.
    pub rows: Vec<Row>,
    /// Those of which no pose was found, and the room they lack.
    pub not_found: Vec<(Vec<Offer>, f64)>,
    /// The candidates that were tried, by number.
    pub tried: BTreeSet<usize>,
    /// How many shapes were settled for them.
    pub shapes: usize,
}

/// Aspect ratio and wire (in wires of the first kind) of every kind, in steps of [`SHAPE_STEP`].
type Shape = Vec<[i64; 2]>;

/// Settles candidates, each shape once, until there are `most` rows or the tries are used up. The first half is taken in
/// order; from what sits straight of them the others are chosen: first sizes that have nothing straight yet, with what
/// comes nearest to a shape that is.
pub(super) fn settled_pairs(weave: &Weave, fit: &Fit, ordered: &[Candidate], most: usize) -> Pairs {
    let mut pairs = Pairs { rows: Vec::new(), not_found: Vec::new(), tried: BTreeSet::new(), shapes: 0 };
    let mut known: BTreeMap<Shape, Option<Shaped>> = BTreeMap::new();
    let mut straight: Vec<&Candidate> = Vec::new();
    let counter = Counter::of(weave);
    while pairs.rows.len() < most && pairs.tried.len() < most.saturating_mul(TRIES) {
        let lacking = (most - pairs.rows.len()).min(most.div_ceil(2));
        let batch = next(ordered, &pairs.tried, &straight, lacking);
        if batch.is_empty() {
            break;
        }
        let chosen: Vec<Vec<&Offer>> =
            batch.iter().map(|(_, c)| c.picks.iter().filter_map(|n| fit.offers.get(*n)).collect()).collect();
        let mut shapes: Vec<Shape> = chosen.iter().map(|offers| shape(offers)).collect();
        let each = shapes.clone();
        shapes.sort();
        shapes.dedup();
        shapes.retain(|s| !known.contains_key(s));
        let settled: Vec<Option<Shaped>> = shapes.par_iter().map(|s| Shaped::of(weave, &fit.kinds, s)).collect();
        pairs.shapes += shapes.len();
        known.extend(shapes.into_iter().zip(settled));
        for (((number, candidate), offers), shape) in batch.into_iter().zip(&chosen).zip(each) {
            let wire = offers.first().map_or(1.0, |o| o.wire_mm);
            pairs.tried.insert(number);
            match known.get(&shape).and_then(Option::as_ref) {
                Some(found) if found.closes => {
                    let reach = found.reach.as_ref().map(|reach| reach.scaled(wire));
                    let needs = counter.needs(reach.as_ref());
                    let repeat_mm = reach.map_or(Vec::new(), |reach| reach.pitch_mm);
                    let row = Row {
                        picks: picks(&fit.kinds, offers, &needs),
                        room: found.room.max(0.0),
                        repeat_mm,
                        sits: found.sits.clone(),
                        size: needs.size,
                    };
                    if row.worst() == Some(Word::Straight) {
                        straight.push(candidate);
                    }
                    pairs.rows.push(row);
                }
                found => {
                    let room = found.map_or(-1.0, |f| f.room);
                    pairs.not_found.push((offers.iter().map(|o| (*o).clone()).collect(), room));
                }
            }
        }
    }
    pairs
}

/// The next candidates to settle, with their numbers.
fn next<'c>(
    ordered: &'c [Candidate],
    tried: &BTreeSet<usize>,
    straight: &[&Candidate],
    count: usize,
) -> Vec<(usize, &'c Candidate)> {
    let left = ordered.iter().enumerate().filter(|(number, _)| !tried.contains(number));
    if straight.is_empty() {
        return left.take(count).collect();
    }
    let far = |c: &Candidate| {
        let apart = |one: &[f64; 2], other: &[f64; 2]| {
            one.iter().zip(other).map(|(a, b)| (a / b).max(b / a) - 1.0).sum::<f64>()
        };
        // In steps, so that of what comes as near the order decides.
        let nearest = straight.iter().map(|s| apart(&s.ratios, &c.ratios)).fold(f64::INFINITY, f64::min);
        libm::round(nearest / NEAR)
    };
    let done = |c: &Candidate| straight.iter().any(|s| s.picks.first() == c.picks.first());
    let mut left: Vec<(usize, &Candidate)> = left.collect();
    // One of each first size, as long as there are others.
    left.sort_by(|(i, a), (j, b)| done(a).cmp(&done(b)).then(far(a).total_cmp(&far(b))).then(i.cmp(j)));
    let mut seen: BTreeSet<usize> = BTreeSet::new();
    let (first, more): (Vec<_>, Vec<_>) =
        left.into_iter().partition(|(_, c)| c.picks.first().is_some_and(|n| seen.insert(*n)));
    first.into_iter().chain(more).take(count).collect()
}

fn shape(offers: &[&Offer]) -> Shape {
    let wire = offers.first().map_or(1.0, |o| o.wire_mm);
    #[allow(clippy::cast_possible_truncation)] // Small numbers.
    let steps = |x: f64| libm::round(x / SHAPE_STEP).clamp(1.0, 1e9) as i64;
    offers.iter().map(|o| [steps(o.ratio()), steps(o.wire_mm / wire)]).collect()
}

/// What is known of a shape, the wire of the first kind 1 mm thick.
struct Shaped {
    closes: bool,
    room: f64,
    reach: Option<Reach>,
    sits: Vec<(String, Word)>,
}

impl Shaped {
    fn of(weave: &Weave, kinds: &[String], shape: &Shape) -> Option<Self> {
        #[allow(clippy::cast_precision_loss)] // Small numbers.
        let sizes = shape.iter().map(|part| {
            let [ratio, wire] = part.map(|steps| steps as f64 * SHAPE_STEP);
            (wire, wire * ratio)
        });
        let weave = weave.with_sizes(&kinds.iter().map(String::as_str).zip(sizes).collect::<Vec<_>>());
        let settled = weave.settled().ok()?;
        let name = |family: FamilyId| weave.pattern().family_name(family);
        Some(Self {
            closes: settled.closes() == Some(true),
            room: settled.room()?,
            reach: Reach::of(settled),
            sits: settled.sits.iter().map(|s| (name(s.family).to_owned(), s.word)).collect(),
        })
    }
}
