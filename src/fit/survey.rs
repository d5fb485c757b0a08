//! A surface over all pairs of sizes: for the ratio ρ of the core radii of two kinds and the ratio q of their wires, the
//! aspect ratio of the first kind from which on the weave closes. It is worked out at points a few percent apart, each
//! tightened from the pose of a neighbour, and read off between them.

use crate::settle::{RingSize, Settled, Start};
use rayon::prelude::*;
use std::collections::{BTreeMap, BTreeSet};

/// Points lie so far apart, as parts, along ρ and along q.
const STEPS: [f64; 2] = [0.08, 0.25];
/// The most points; those farthest from the sizes of the text are left out.
const MOST_POINTS: usize = 200;
/// Rings are surveyed whose radii and wires differ at most so many times. Common practice, no source.
const UNLIKE: [f64; 2] = [3.0, 2.0];
/// From so many neighbours a point is tried.
const MOST_STARTS: usize = 2;

/// A point by number along ρ and q.
type Point = [i32; 2];

/// What was found at the points.
#[derive(Clone, Debug)]
pub(super) struct Survey {
    floors: BTreeMap<Point, Option<f64>>,
}

impl Survey {
    /// The surface around all pairs of ratios `wanted`, from the pose of a settled weave. `kind` is the kind of each of its
    /// rings: 0 or 1; ratios are to the first ring of kind 0.
    pub fn of(settled: &Settled, kind: &[usize], wanted: &[[f64; 2]]) -> Self {
        let mut survey = Self { floors: BTreeMap::new() };
        let of_kind = |k: usize| {
            let ring = kind.iter().position(|at| *at == k)?;
            settled.problem.rings.get(ring).copied()
        };
        let Some((first, second)) = of_kind(0).zip(of_kind(1)) else { return survey };
        let near = |ratios: [f64; 2]| place(ratios).map(|x| whole(libm::round(x)));
        let anchor = near([second.radius / first.radius, second.wire / first.wire]);
        let wanted = wanted.iter().filter(|w| alike(**w));
        let needed: BTreeSet<Point> = wanted.flat_map(|w| corners(place(*w)).map(|(point, _)| point)).collect();
        let Some((low, high)) = bounds(needed.iter().chain([&anchor])) else { return survey };
        let at = |start: &Start, point: Point| {
            let [rho, q] = ratios(point);
            start.resized(|ring| match kind.get(ring) {
                Some(1) => RingSize { radius: first.radius * rho, wire: first.wire * q },
                // Rings of the first kind as they are; beside one that is chosen these may be several.
                _ => settled.problem.rings.get(ring).copied().unwrap_or(first),
            })
        };
        let floor = |start: &Start| 2.0 * first.radius / (first.wire * start.scale) - 1.0;
        let mut starts: BTreeMap<Point, Start> = BTreeMap::new();
        let mut wave = vec![anchor];
        while !wave.is_empty() && survey.floors.len() < MOST_POINTS {
            wave.truncate(MOST_POINTS - survey.floors.len());
            let found: Vec<(Point, Option<Start>)> = wave
                .par_iter()
                .map(|point| {
                    let own = Start::of(settled);
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

    /// About from which aspect ratio of the first kind on the weave closes with these ratios; `None` outside of what was
    /// surveyed, and where no pose was found.
    pub fn floor(&self, ratios: [f64; 2]) -> Option<f64> {
        let corners = corners(place(ratios)).into_iter();
        corners
            .map(|(point, part)| if part > 0.0 { Some(part * (*self.floors.get(&point)?)?) } else { Some(0.0) })
            .sum()
    }
}

/// Whether rings with these ratios are like enough to be surveyed.
fn alike(ratios: [f64; 2]) -> bool {
    ratios.iter().zip(UNLIKE).all(|(r, most)| (1.0 / most..=most).contains(r))
}

fn neighbours([i, j]: Point) -> [Point; 4] {
    [[i - 1, j], [i + 1, j], [i, j - 1], [i, j + 1]]
}

/// The ratios of a point.
fn ratios(point: Point) -> [f64; 2] {
    let [rho, q] = point.map(f64::from);
    let [of_rho, of_q] = STEPS;
    [libm::pow(1.0 + of_rho, rho), libm::pow(1.0 + of_q, q)]
}

/// Where ratios lie among the points.
fn place([rho, q]: [f64; 2]) -> [f64; 2] {
    let [of_rho, of_q] = STEPS;
    [libm::log(rho) / libm::log(1.0 + of_rho), libm::log(q) / libm::log(1.0 + of_q)]
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
