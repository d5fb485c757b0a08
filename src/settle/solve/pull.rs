//! Pulling a pose: the longest and the shortest repeat at which the rings, with their wire as it is, do not
//! overlap.

use super::distance::scale;
use super::find::has_links;
use super::problem::{Pose, Problem};
use super::step::{Aim, Moves};

/// The most linear programs for one pull.
const MOST_STEPS: usize = 500;
/// The step that gains less than this part of the mean core radius is the last.
const LEAST_GAIN: f64 = 1e-8;
/// A step shorter than this part of the mean core radius is not the last for that reason.
const SHORT: f64 = 1e-4;
/// The part of the wire that may be missing through rounding.
pub(crate) const ROUNDING: f64 = 1e-9;
/// The length of a step that wins back missing wire, as a multiple of the wire missing.
const GIVING_BACK: f64 = 3.0;
/// The shortest step, as a part of the mean core radius.
const FINEST: f64 = 1e-9;

/// Which way a piece is pulled.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pull {
    /// Drawn out, until its repeat is as long as it gets.
    Taut,
    /// Pushed together, until its repeat is as short as it gets.
    Together,
}

impl Pull {
    /// What a longer repeat is worth: 1 drawn out, −1 pushed together.
    pub(crate) fn sign(self) -> f64 {
        match self {
            Self::Taut => 1.0,
            Self::Together => -1.0,
        }
    }
}

/// The pose a piece comes to when it is pulled from a pose, with wire `wire` times as thick as in `problem`: the
/// repeat is as long, or as short, as it gets without pulling wire through wire. In a sheet the lengths along both
/// ways are added.
///
/// `None` where the pose does not hold such wire, or where nothing repeats.
pub fn pull(problem: &Problem, pose: &Pose, wire: f64, way: Pull) -> Option<Pose> {
    pull_with(problem, pose, wire, way, FINEST)
}

/// The same, with steps no shorter than `finest`, as a part of the mean core radius.
pub(crate) fn pull_with(problem: &Problem, pose: &Pose, wire: f64, way: Pull, finest: f64) -> Option<Pose> {
    if problem.ways == 0 {
        return None;
    }
    Drive { moves: &Moves::of(problem), wire, aim: Aim::Length(way), finest }.from(pose)
}

/// The same pose with the growing rings of `moves` as small as they can be.
pub(crate) fn shrunk(moves: &Moves<'_>, pose: &Pose) -> Option<Pose> {
    moves.growing.first()?;
    Drive { moves, wire: 1.0, aim: Aim::Smaller, finest: FINEST }.from(pose)
}

/// Steps towards an aim for as long as they gain, the wire kept.
struct Drive<'m> {
    moves: &'m Moves<'m>,
    /// How thick the wire is, as a part of the wire given.
    wire: f64,
    aim: Aim,
    /// The shortest step, as a part of the mean core radius.
    finest: f64,
}

impl Drive<'_> {
    /// How much of the aim a pose reaches: the thickness of the wire as a part of the wire given, or mm.
    fn reached(&self, pose: &Pose) -> f64 {
        match self.aim {
            Aim::Wire | Aim::Room => scale(self.moves.problem, pose),
            Aim::Length(way) => way.sign() * pose.length(),
            Aim::Smaller => {
                let first = self.moves.growing.first().and_then(|ring| pose.rings.get(*ring));
                first.map_or(0.0, |r| -r.radius)
            }
        }
    }

    /// Where a pose comes to; `None` where it does not hold the wire.
    fn from(&self, pose: &Pose) -> Option<Pose> {
        let problem = self.moves.problem;
        if !self.holds_wire(pose) {
            return None;
        }
        let mean = problem.mean_radius();
        let mut best = pose.clone();
        let mut trust = 0.1 * mean;
        for _ in 0..MOST_STEPS {
            let Some((by, _)) = self.moves.step(&best, self.wire, trust, self.aim) else { break };
            let first = self.moves.moved(&best, &by);
            let promised = self.reached(&first) - self.reached(&best);
            let there = self.corrected(first, trust);
            let gain = there.as_ref().map_or(0.0, |pose| self.reached(pose) - self.reached(&best));
            match there.filter(|pose| gain > 0.0 && has_links(problem, pose)) {
                Some(pose) => {
                    best = pose;
                    // A step that keeps what it promised may be longer next time.
                    if gain > 0.5 * promised {
                        trust = (2.0 * trust).min(0.1 * mean);
                    } else if gain < 0.2 * promised {
                        trust *= 0.5;
                    }
                    // A short step gains little; the next one is longer.
                    if gain < LEAST_GAIN * mean && trust > SHORT * mean {
                        break;
                    }
                }
                None if promised < LEAST_GAIN * mean && trust > SHORT * mean => break,
                None => trust *= 0.3,
            }
            if trust < self.finest * mean {
                break;
            }
        }
        Some(best)
    }

    fn holds_wire(&self, pose: &Pose) -> bool {
        scale(self.moves.problem, pose) >= self.wire * (1.0 - ROUNDING)
    }

    /// A pose after a step, with the wire that the step cost won back by shorter steps with the same aim; `None` where
    /// that fails.
    fn corrected(&self, mut pose: Pose, trust: f64) -> Option<Pose> {
        let thickest = self.moves.problem.rings.iter().map(|r| r.wire).fold(0.0, f64::max);
        for _ in 0..6 {
            let here = scale(self.moves.problem, &pose);
            if here >= self.wire * (1.0 - ROUNDING) {
                return Some(pose);
            }
            // The missing wire is an error of second order, so the step that wins it back must be as short: a longer
            // one would cost as much again.
            let lack = (self.wire - here) * thickest;
            let back = self.moves.step(&pose, self.wire, (GIVING_BACK * lack).min(trust), self.aim);
            let (by, _) = back.or_else(|| self.moves.step(&pose, self.wire, trust, Aim::Room))?;
            pose = self.moves.moved(&pose, &by);
        }
        self.holds_wire(&pose).then_some(pose)
    }
}
