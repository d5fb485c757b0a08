//! Accents on the settled base, in the maker's order: the base is drawn out, each accent ring is put where its links
//! require it, and then everything is tightened and drawn out together. An accent can lodge in several ways; all of
//! them show how it sits.

use super::base::{Base, fits};
use super::put_on::place;
use super::rock::rock;
use super::sizes::Known;
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
    /// How they sit, in a word.
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
    /// Its pose with the thickest wire; `None` where the accents found no place.
    pub tight: Option<Tight>,
    /// The ways the accents lodge at the sizes given, drawn out, the longest first; empty where they do not
    /// fit.
    pub lodged: Vec<Pose>,
    /// How each accent family sits; empty where they do not fit or no sizes are given.
    pub sits: Vec<Sits>,
}

/// Counts the lying statements of the text that a pose of the problem breaks.
pub(crate) type Untrue<'u> = dyn Fn(&Problem, &Pose) -> usize + 'u;

/// A settled base and the accents to put on it.
pub(crate) struct Accents<'a> {
    pub base: &'a Base,
    /// One repeat with its accents.
    pub cell: &'a Cell,
    /// The accent families, in the order they are put on.
    pub families: &'a [FamilyId],
    /// What the text says of sizes.
    pub known: Known,
    /// Where the text says how accents lie: how many of these statements a pose breaks.
    pub untrue: Option<&'a Untrue<'a>>,
}

impl Accents<'_> {
    /// Puts the accents on the base. `problem` has the rings and links of the whole repeat.
    pub fn put_on(&self, problem: &Problem) -> Accented {
        let (problem, bare) = unrolled(self.base, problem, self.cell);
        let families: Vec<FamilyId> =
            (0..problem.rings.len()).filter_map(|r| problem.stands(self.cell, r).map(|(family, _)| family)).collect();
        let whole = Whole { problem: &problem, bare, families, accents: self.families };
        let kept = self.truest(&problem, whole.places());
        let fitting = self.known != Known::Nothing && fits(self.base.wire);
        let lodged = if fitting { whole.lodged(&kept) } else { Vec::new() };
        let sits = if lodged.is_empty() { Vec::new() } else { whole.sits(&lodged) };
        let tight = thickest(&problem, kept);
        Accented { problem, tight, lodged, sits }
    }

    /// The poses that break the fewest lying statements. Each is tightened first, because what a loose pose shows can
    /// change as it tightens.
    fn truest(&self, problem: &Problem, places: Vec<Tight>) -> Vec<Tight> {
        let Some(untrue) = self.untrue else { return places };
        let mut kept: Vec<Tight> =
            places.into_par_iter().map(|t| tighten_with(problem, t.pose, Effort::GOOD)).collect();
        let untruths: Vec<usize> = kept.iter().map(|t| untrue(problem, &t.pose)).collect();
        let least = untruths.iter().min().copied();
        let mut counts = untruths.into_iter();
        kept.retain(|_| counts.next() == least);
        kept
    }
}

/// The rings of the whole repeat, and the pose of the base that the accents are put on.
struct Whole<'w> {
    problem: &'w Problem,
    /// The base drawn out; accent rings are not in their place yet.
    bare: Pose,
    /// The family of every ring, by number.
    families: Vec<FamilyId>,
    /// The accent families, in the order they are put on.
    accents: &'w [FamilyId],
}

impl Whole<'_> {
    fn family(&self, ring: usize) -> Option<FamilyId> {
        self.families.get(ring).copied()
    }

    fn is_accent(&self, ring: usize) -> bool {
        self.family(ring).is_some_and(|f| self.accents.contains(&f))
    }

    /// The different poses in which the accents found a place, the roomiest first, roughly tightened.
    fn places(&self) -> Vec<Tight> {
        // Work is shared among the cores; results stay in order.
        let starts = (0..tries(self.problem.ways)).into_par_iter();
        let mut rough: Vec<Tight> = starts.filter_map(|start| self.placed(start)).collect();
        rough.sort_by(|a, b| b.scale.total_cmp(&a.scale));
        let mut kept: Vec<Tight> = Vec::new();
        for tight in rough {
            let same = |k: &Tight| {
                (k.scale - tight.scale).abs() < 0.01 * k.scale
                    && apart(&k.pose, &tight.pose, &|ring| self.is_accent(ring)) < 5.0
            };
            if !kept.iter().any(same) {
                kept.push(tight);
            }
        }
        kept.truncate(6);
        kept
    }

    /// The accents put on one family after the other, from one random start; `None` where one finds no place.
    fn placed(&self, start: u64) -> Option<Tight> {
        let mut pose = self.bare.clone();
        let mut absent: Vec<usize> = (0..pose.rings.len()).filter(|r| self.is_accent(*r)).collect();
        for accent in self.accents {
            let (free, rest): (Vec<usize>, Vec<usize>) =
                absent.into_iter().partition(|r| self.family(*r) == Some(*accent));
            pose = place(self.problem, &pose, &free, &rest, start)?;
            absent = rest;
        }
        Some(tighten_with(self.problem, pose, Effort::ROUGH))
    }

    /// The different ways the accents lodge in the piece drawn out with wire as it is, the longest piece first.
    fn lodged(&self, kept: &[Tight]) -> Vec<Pose> {
        let drawn = |tight: &Tight| {
            let snug = if tight.scale >= 1.0 {
                tight.clone()
            } else {
                tighten_with(self.problem, tight.pose.clone(), Effort::until(1.0))
            };
            pull_with(self.problem, &snug.pose, 1.0, Pull::Taut, FINE_ENOUGH)
        };
        let all: Vec<Pose> = kept.par_iter().filter_map(drawn).collect();
        let mut lodged: Vec<Pose> = Vec::new();
        for pose in all {
            let same = |k: &Pose| {
                (k.length() - pose.length()).abs() < SAME_LENGTH * k.length()
                    && apart(k, &pose, &|ring| self.is_accent(ring)) < SAME_TILT
            };
            if !lodged.iter().any(same) {
                lodged.push(pose);
            }
        }
        lodged.sort_by(|a, b| b.length().total_cmp(&a.length()));
        // The longest is shown, so it is drawn out exactly.
        if let Some(first) = lodged.first_mut() {
            *first = pull(self.problem, first, 1.0, Pull::Taut).unwrap_or_else(|| first.clone());
        }
        lodged
    }

    /// How each accent family sits.
    fn sits(&self, lodged: &[Pose]) -> Vec<Sits> {
        let rings = |accent: FamilyId| (0..self.problem.rings.len()).filter(move |r| self.family(*r) == Some(accent));
        let sits = self.accents.iter().map(|accent| self.sits_of(*accent, &rings(*accent).collect::<Vec<_>>(), lodged));
        sits.collect()
    }

    fn sits_of(&self, family: FamilyId, rings: &[usize], lodged: &[Pose]) -> Sits {
        let bare = self.bare.length();
        let of = |ring: usize| rings.contains(&ring);
        let loss = |pose: &Pose| if bare > 0.0 { (100.0 * (1.0 - pose.length() / bare)).max(0.0) } else { 0.0 };
        let widest = |among: &[&Pose]| {
            let pairs = among.iter().flat_map(|one| among.iter().map(move |other| (one, other)));
            pairs.map(|(one, other)| apart(one, other, &of)).fold(0.0, f64::max)
        };
        let all: Vec<&Pose> = lodged.iter().collect();
        // A hand can move a ring between any two poses in which the piece keeps its length.
        let free: Vec<&Pose> = lodged.iter().filter(|p| loss(p) <= FULL_PERCENT).collect();
        // In the longest of them the ring is rocked; all others stay.
        let rocked = free.first().map(|pose| rings.iter().map(|r| rock(self.problem, pose, 1.0, *r)));
        let rock_deg = rocked.into_iter().flatten().fold(widest(&free), f64::max);
        let (spread_deg, loss_percent) = (widest(&all), lodged.iter().map(loss).fold(0.0, f64::max));
        let word = if rock_deg >= LOOSE_DEGREES {
            Word::Loose
        } else if loss_percent <= FULL_PERCENT {
            // All its ways of lodging lie within what it rocks.
            Word::Straight
        } else {
            Word::Askew
        };
        Sits { family, word, spread_deg, rock_deg, loss_percent, ways: lodged.len() }
    }
}

/// The thickest of the two roomiest poses, shaken and tightened to the end.
fn thickest(problem: &Problem, kept: Vec<Tight>) -> Option<Tight> {
    let best: Vec<(Tight, u64)> = kept.into_iter().take(2).zip(0..).collect();
    let best: Vec<Tight> = best.into_par_iter().map(|(t, number)| shaken(problem, t, number, Effort::GOOD)).collect();
    let best = best.into_iter().reduce(|best, t| if t.scale > best.scale { t } else { best });
    best.map(|t| tighten(problem, t.pose))
}

/// The greatest angle, degrees, between any of the rings `of` in two poses; turned over counts as the same.
fn apart(one: &Pose, other: &Pose, of: &dyn Fn(usize) -> bool) -> f64 {
    let pairs = one.rings.iter().zip(&other.rings).enumerate().filter(|(ring, _)| of(*ring));
    pairs.map(|(_, (a, b))| libm::acos(a.normal.dot(b.normal).abs().min(1.0)).to_degrees()).fold(0.0, f64::max)
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
