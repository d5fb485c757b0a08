//! Accents on the settled base, in the maker's order: the base is drawn out, each accent ring is put where
//! its links want it, and then all is tightened and drawn out together. An accent can lodge in several ways;
//! how it sits is read from all of them.

use super::base::{Base, fits};
use super::place::place;
use super::rock::rock;
use crate::pattern::{FamilyId, Shift};
use crate::rings::Cell;
use crate::settle::pair::Circle;
use crate::settle::solve::{
    Effort, Pose, Problem, Pull, RingSize, Tight, pull, pull_with, shaken, tighten, tighten_with,
};
use glam::DVec3;
use rayon::prelude::*;
use schemars::JsonSchema;
use serde::Serialize;

/// Ways of putting the accents on that are tried. A repeat of a sheet has many rings, and an accent there few
/// places to go.
pub(crate) fn tries(ways: usize) -> u64 {
    if ways == 2 { 6 } else { 12 }
}

/// How exactly ways of lodging are drawn out to tell them apart, as a part of the mean core radius.
const FINE_ENOUGH: f64 = 1e-4;
/// Rings that differ by less than this many degrees, in pieces that differ by less than this part in
/// length, lodge in one way.
const SAME_TILT: f64 = 2.0;
const SAME_LENGTH: f64 = 1e-3;
/// Up to this loss of length, percent, a piece counts as drawn out in full. (Common practice, no source.)
const FULL_PERCENT: f64 = 0.5;
/// From this many degrees of rocking on, end to end, a ring is loose: ten to either side is what an eye takes for
/// straight. (Common practice, no source.)
const LOOSE_DEGREES: f64 = 20.0;

/// How an accent sits.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Word {
    /// Drawn out, it comes to one tilt, and the piece to the length it has without it.
    Straight,
    /// It lodges at different tilts, or holds the piece back.
    Askew,
    /// It rocks freely.
    Loose,
}

impl Word {
    /// The word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Straight => "straight",
            Self::Askew => "askew",
            Self::Loose => "loose",
        }
    }
}

/// How the rings of an accent family sit, the piece drawn out.
#[derive(Clone, Debug)]
pub struct Sits {
    /// The family.
    pub family: FamilyId,
    /// The word for it.
    pub word: Word,
    /// The greatest angle between any two of its ways of lodging, degrees.
    pub spread_deg: f64,
    /// How far it rocks while the piece stays drawn out, degrees from end to end.
    pub rock_deg: f64,
    /// How much shorter the piece is than without accents where it lodges worst, percent.
    pub loss_percent: f64,
    /// In how many ways it lodges.
    pub ways: usize,
}

/// A base with its accents.
#[derive(Clone, Debug)]
pub(crate) struct Accented {
    /// The whole.
    pub problem: Problem,
    /// Its pose as thick as it goes; `None` where the accents found no place.
    pub tight: Option<Tight>,
    /// The ways the accents lodge at the sizes given, drawn out, the longest first; empty where they do not
    /// fit.
    pub lodged: Vec<Pose>,
    /// How each accent family sits; empty where they do not fit or no sizes are given.
    pub sits: Vec<Sits>,
}

/// How much of what the text says of lying is not so in a pose.
pub(crate) type Untrue<'u> = dyn Fn(&Problem, &Pose) -> usize + 'u;

/// Puts the accents on a base. `cell` is the whole repeat, `accents` the accent families in the order they
/// are put on; `untrue` counts what the text says of how they lie and is not so in a pose.
pub(crate) fn accented(
    base: &Base,
    problem: &Problem,
    cell: &Cell,
    accents: &[FamilyId],
    sized: bool,
    untrue: Option<&Untrue<'_>>,
) -> Accented {
    let (problem, unadorned) = unrolled(base, problem, cell);
    let families: Vec<FamilyId> =
        (0..problem.rings.len()).filter_map(|r| problem.stands(cell, r).map(|(family, _)| family)).collect();
    let family = |ring: usize| families.get(ring).copied();
    let placed = |start: u64| {
        let mut pose = unadorned.clone();
        let mut absent: Vec<usize> =
            (0..unadorned.rings.len()).filter(|r| family(*r).is_some_and(|f| accents.contains(&f))).collect();
        for accent in accents {
            let (free, rest): (Vec<usize>, Vec<usize>) = absent.into_iter().partition(|r| family(*r) == Some(*accent));
            pose = place(&problem, &pose, &free, &rest, start)?;
            absent = rest;
        }
        Some(tighten_with(&problem, pose, Effort::ROUGH))
    };
    // Work is shared among the cores; results stay in order.
    let mut rough: Vec<Tight> = (0..tries(problem.ways)).into_par_iter().filter_map(placed).collect();
    let is_accent = |ring: usize| family(ring).is_some_and(|f| accents.contains(&f));
    let mut kept: Vec<Tight> = Vec::new();
    rough.sort_by(|a, b| b.scale.total_cmp(&a.scale));
    for tight in rough {
        let same =
            |k: &Tight| (k.scale - tight.scale).abs() < 0.01 * k.scale && apart(&k.pose, &tight.pose, &is_accent) < 5.0;
        if !kept.iter().any(same) {
            kept.push(tight);
        }
    }
    kept.truncate(6);
    // Lying words choose among the places an accent can take; what a loose pose shows may change as it tightens.
    if let Some(untrue) = untrue {
        kept = kept.into_par_iter().map(|t| tighten_with(&problem, t.pose, Effort::GOOD)).collect();
        let untruths: Vec<usize> = kept.iter().map(|t| untrue(&problem, &t.pose)).collect();
        let least = untruths.iter().min().copied();
        let mut counts = untruths.into_iter();
        kept.retain(|_| counts.next() == least);
    }
    let mut accented = Accented { problem, tight: None, lodged: Vec::new(), sits: Vec::new() };
    let problem = &accented.problem;
    if sized && fits(base.wire) {
        accented.lodged = lodged(problem, &kept, &is_accent);
        let full = unadorned.length();
        let rings = |accent: FamilyId| (0..problem.rings.len()).filter(move |r| family(*r) == Some(accent));
        if !accented.lodged.is_empty() {
            let sits = accents
                .iter()
                .map(|accent| sits(problem, &accented.lodged, *accent, &rings(*accent).collect::<Vec<_>>(), full));
            accented.sits = sits.collect();
        }
    }
    let best: Vec<(Tight, u64)> = kept.into_iter().take(2).zip(0..).collect();
    let best: Vec<Tight> = best.into_par_iter().map(|(t, number)| shaken(problem, t, number, Effort::GOOD)).collect();
    let best = best.into_iter().reduce(|best, t| if t.scale > best.scale { t } else { best });
    accented.tight = best.map(|t| tighten(problem, t.pose));
    accented
}

/// The greatest angle, degrees, between any of the rings `of` in two poses; turned over counts as the same.
fn apart(one: &Pose, other: &Pose, of: &dyn Fn(usize) -> bool) -> f64 {
    let pairs = one.rings.iter().zip(&other.rings).enumerate().filter(|(ring, _)| of(*ring));
    pairs.map(|(_, (a, b))| libm::acos(a.normal.dot(b.normal).abs().min(1.0)).to_degrees()).fold(0.0, f64::max)
}

/// The ways the rings `of` lodge in the piece drawn out with wire as it is.
fn lodged(problem: &Problem, kept: &[Tight], of: &dyn Fn(usize) -> bool) -> Vec<Pose> {
    let drawn = |tight: &Tight| {
        let snug = if tight.scale >= 1.0 {
            tight.clone()
        } else {
            tighten_with(problem, tight.pose.clone(), Effort::until(1.0))
        };
        pull_with(problem, &snug.pose, 1.0, Pull::Taut, FINE_ENOUGH)
    };
    let all: Vec<Pose> = kept.par_iter().filter_map(drawn).collect();
    let mut lodged: Vec<Pose> = Vec::new();
    for pose in all {
        let same =
            |k: &Pose| (k.length() - pose.length()).abs() < SAME_LENGTH * k.length() && apart(k, &pose, of) < SAME_TILT;
        if !lodged.iter().any(same) {
            lodged.push(pose);
        }
    }
    lodged.sort_by(|a, b| b.length().total_cmp(&a.length()));
    // The longest is shown, and drawn out to the end.
    if let Some(first) = lodged.first_mut() {
        *first = pull(problem, first, 1.0, Pull::Taut).unwrap_or_else(|| first.clone());
    }
    lodged
}

fn sits(problem: &Problem, lodged: &[Pose], family: FamilyId, rings: &[usize], bare: f64) -> Sits {
    let of = |ring: usize| rings.contains(&ring);
    let loss = |pose: &Pose| if bare > 0.0 { (100.0 * (1.0 - pose.length() / bare)).max(0.0) } else { 0.0 };
    let widest = |among: &[&Pose]| {
        let pairs = among.iter().flat_map(|one| among.iter().map(move |other| (one, other)));
        pairs.map(|(one, other)| apart(one, other, &of)).fold(0.0, f64::max)
    };
    let all: Vec<&Pose> = lodged.iter().collect();
    // Between poses that hold nothing back a ring moves as a hand pleases, whatever it has to slip past.
    let free: Vec<&Pose> = lodged.iter().filter(|p| loss(p) <= FULL_PERCENT).collect();
    // The piece comes to its longest; there the ring is rocked, and all others stay.
    let ends = free.iter().take(1).flat_map(|pose| rings.iter().map(move |r| rock(problem, pose, 1.0, *r)));
    let rock = ends.fold(widest(&free), f64::max);
    let (spread, loss) = (widest(&all), lodged.iter().map(loss).fold(0.0, f64::max));
    let word = match () {
        () if rock >= LOOSE_DEGREES => Word::Loose,
        // Then every way of lodging is one of those between which it rocks.
        () if loss <= FULL_PERCENT => Word::Straight,
        () => Word::Askew,
    };
    Sits { family, word, spread_deg: spread, rock_deg: rock, loss_percent: loss, ways: lodged.len() }
}

/// The base as it lies drawn out, over the whole repeat: the problem, two repeats taken as one where the base
/// needs it, and the pose. Accent rings are not placed yet.
fn unrolled(base: &Base, problem: &Problem, cell: &Cell) -> (Problem, Pose) {
    let mut problem = problem.clone();
    let mut steps = Shift::ONE;
    for way in [0, 1] {
        let (own, whole) = (base.problem.times.along(way), cell.period.along(way));
        if whole % own != 0 {
            problem = problem.doubled(way);
        }
        *steps.along_mut(way) = whole * problem.times.along(way) / own;
    }
    let from = &base.taut.pose;
    let pose = Pose {
        rings: Vec::new(),
        ways: [from.ways[0] * f64::from(steps.row), from.ways[1] * f64::from(steps.column)],
        twist: from.twist * f64::from(steps.row),
        turned: [from.turned[0] && steps.row % 2 == 1, from.turned[1] && steps.column % 2 == 1],
    };
    let ring = |(number, size): (usize, &RingSize)| {
        let circle = problem.stands(cell, number).and_then(|(family, at)| {
            let (own, shift) = base.problem.place(base.cell.ring(family, at)?.index(), at);
            from.image(own, shift)
        });
        circle.unwrap_or(Circle { centre: DVec3::ZERO, normal: DVec3::Z, radius: size.radius })
    };
    let rings = problem.rings.iter().enumerate().map(ring).collect();
    (problem, Pose { rings, ..pose })
}
