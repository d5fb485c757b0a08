//! A guess at which pairs of sizes close, from some tens of shapes.
//!
//! For the ratio of the core radii of two kinds and the ratio of their wires, the weave closes from some aspect ratio of the
//! first kind on. This is worked out at points a few percent apart, each tightened from the pose of a neighbour, and read
//! off between them.

use crate::settle::{RingSize, Settled, Start};
use rayon::prelude::*;
use std::collections::{BTreeMap, BTreeSet};

/// How far apart points lie, as parts, along the ratio of radii and along the ratio of wires.
const STEPS: [f64; 2] = [0.08, 0.25];
/// The most points. Those farthest from the sizes of the text are left out.
const MOST_POINTS: usize = 200;
/// How many times larger radii and wires of one kind may be than those of the other. Common practice, no source.
const UNLIKE: [f64; 2] = [3.0, 2.0];
/// From how many neighbours a point is tried.
const MOST_STARTS: usize = 2;

/// Core radius and wire of a ring of the second kind, each divided by that of the first.
pub(super) type Ratios = [f64; 2];

/// The ratios of two rings.
pub(super) fn ratios(first: RingSize, second: RingSize) -> Ratios {
    [second.radius / first.radius, second.wire / first.wire]
}

/// A point by number along both ratios.
type Point = [i32; 2];

/// What was found at the points.
#[derive(Clone, Debug)]
pub(super) struct Survey {
    floors: BTreeMap<Point, Option<f64>>,
}

impl Survey {
    /// The surface around all pairs of ratios `wanted`, from the pose of a settled weave. `kinds` are the kinds of its
    /// rings, by number, and `second` is the second kind; all other rings count as the first, and ratios are to the first
    /// of them.
    pub fn of(settled: &Settled, kinds: &[&str], second: &str, wanted: &[Ratios]) -> Self {
        let mut survey = Self { floors: BTreeMap::new() };
        let Some((first, other)) = first_of_each(settled, kinds, second) else { return survey };
        let anchor = place(ratios(first, other)).map(|x| whole(libm::round(x)));
        let wanted = wanted.iter().filter(|w| alike(**w));
        let needed: BTreeSet<Point> = wanted.flat_map(|w| corners(place(*w)).map(|(point, _)| point)).collect();
        let Some((low, high)) = bounds(needed.iter().chain([&anchor])) else { return survey };
        let at = |start: &Start, point: Point| {
            let [radius, wire] = ratios_at(point);
            start.resized(|ring| match kinds.get(ring) {
                Some(kind) if *kind == second => RingSize { radius: first.radius * radius, wire: first.wire * wire },
                // Beside a kind that is chosen there may be several others: their rings stay as they are.
                _ => settled.problem.rings.get(ring).copied().unwrap_or(first),
            })
        };
        let floor = |start: &Start| 2.0 * first.radius / (first.wire * start.scale) - 1.0;
        let mut starts: BTreeMap<Point, Start> = BTreeMap::new();
        let mut wave = vec![anchor];
        while !wave.is_empty() && survey.floors.len() < MOST_POINTS {
            wave.truncate(MOST_POINTS - survey.floors.len());
            let own = Start::of(settled);
            let found: Vec<(Point, Option<Start>)> = wave
                .par_iter()
                .map(|point| {
                    let around: Vec<&Start> = if *point == anchor {
                        vec![&own]
                    } else {
                        neighbours(*point).into_iter().filter_map(|n| starts.get(&n)).take(MOST_STARTS).collect()
                    };
                    let tried = around.into_iter().filter_map(|start| at(start, *point));
                    (*point, tried.reduce(|best, t| if t.scale > best.scale { t } else { best }))
                })
                .collect();
            for (point, start) in found {
                survey.floors.insert(point, start.as_ref().map(floor));
                starts.extend(start.map(|s| (point, s)));
            }
            let inside = |p: &Point| (0..2).all(|i| low.get(i) <= p.get(i) && p.get(i) <= high.get(i));
            let next: BTreeSet<Point> = starts.keys().flat_map(|p| neighbours(*p)).filter(inside).collect();
            wave = next.into_iter().filter(|p| !survey.floors.contains_key(p)).collect();
        }
        survey
    }

    /// How many points were worked out.
    pub fn points(&self) -> usize {
        self.floors.len()
    }

    /// About the smallest aspect ratio of the first kind with which the weave closes at these ratios; `None` outside of
    /// what was surveyed, and where no pose was found.
    pub fn floor(&self, ratios: Ratios) -> Option<f64> {
        let corners = corners(place(ratios)).into_iter();
        corners
            .map(|(point, part)| if part > 0.0 { Some(part * (*self.floors.get(&point)?)?) } else { Some(0.0) })
            .sum()
    }
}

/// A survey of one kind beside others, whose rings stay as they are.
#[derive(Clone, Debug)]
pub(super) struct Beside {
    /// The chosen kind is its second.
    pub survey: Survey,
    /// The ring of the others that ratios are to, mm.
    pub ring: RingSize,
}

impl Beside {
    /// About how much room there is with such rings of the chosen kind; `None` where that was not surveyed.
    pub fn room(&self, chosen: RingSize) -> Option<f64> {
        let floor = self.survey.floor(ratios(self.ring, chosen))?;
        Some(2.0 * self.ring.radius / (self.ring.wire * (floor + 1.0)) - 1.0)
    }
}

/// The first ring of the settled weave that is not of the second kind, and the first that is.
pub(super) fn first_of_each(settled: &Settled, kinds: &[&str], second: &str) -> Option<(RingSize, RingSize)> {
    let first = |is_second: bool| {
        let ring = kinds.iter().position(|kind| (*kind == second) == is_second)?;
        settled.problem.rings.get(ring).copied()
    };
    first(false).zip(first(true))
}

/// Whether rings with these ratios are enough alike to be surveyed.
fn alike(ratios: Ratios) -> bool {
    ratios.iter().zip(UNLIKE).all(|(r, most)| (1.0 / most..=most).contains(r))
}

fn neighbours([i, j]: Point) -> [Point; 4] {
    [[i - 1, j], [i + 1, j], [i, j - 1], [i, j + 1]]
}

/// The ratios at a point.
fn ratios_at(point: Point) -> Ratios {
    let [radius, wire] = point.map(f64::from);
    let [radius_step, wire_step] = STEPS;
    [libm::pow(1.0 + radius_step, radius), libm::pow(1.0 + wire_step, wire)]
}

/// Where ratios lie among the points.
fn place([radius, wire]: Ratios) -> [f64; 2] {
    let [radius_step, wire_step] = STEPS;
    [libm::log(radius) / libm::log(1.0 + radius_step), libm::log(wire) / libm::log(1.0 + wire_step)]
}

/// The four points around a place, and how much each counts there.
fn corners(place: [f64; 2]) -> [(Point, f64); 4] {
    let [i, j] = place.map(|a| whole(libm::floor(a)));
    let [over, up] = place.map(|a| a - libm::floor(a));
    [
        ([i, j], (1.0 - over) * (1.0 - up)),
        ([i + 1, j], over * (1.0 - up)),
        ([i, j + 1], (1.0 - over) * up),
        ([i + 1, j + 1], over * up),
    ]
}

#[allow(clippy::cast_possible_truncation)] // Clamped to what an i32 holds.
fn whole(x: f64) -> i32 {
    x.clamp(-1e6, 1e6) as i32
}

/// The least and the greatest of each number.
fn bounds<'p>(points: impl Iterator<Item = &'p Point>) -> Option<(Point, Point)> {
    points.fold(None, |all, p| {
        let (low, high) = all.unwrap_or((*p, *p));
        Some(([low[0].min(p[0]), low[1].min(p[1])], [high[0].max(p[0]), high[1].max(p[1])]))
    })
}
