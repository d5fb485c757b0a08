//! Repeated steps, given once.

use super::order::Step;
use crate::pattern::{FamilyId, Shift};
use crate::rings::{Piece, Ring};
use std::collections::BTreeMap;

/// The most steps that are looked at together as one round of a repeat.
const LONGEST: usize = 4096;
/// Rounds that make a repeat; of longer rounds two are enough.
const ROUNDS: usize = 3;
/// See [`ROUNDS`].
const LONG: usize = 4;

/// One step, or a round of steps and how often it is done.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Part {
    /// Number of its first step, from 0.
    pub first: usize,
    /// Steps in one round.
    pub steps: usize,
    /// How many rounds there are; 1 for a single step.
    pub times: usize,
    /// The first round, itself told in parts; empty for a single step.
    pub round: Vec<Part>,
}

/// What makes two steps alike: how far on the ring is from the one before, what it is, what it passes and how it
/// lies, told from itself.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Alike {
    family: FamilyId,
    on: Shift,
    passes: Vec<(FamilyId, Shift, i8, bool)>,
    stays: Vec<(usize, Shift)>,
}

/// Steps in parts.
pub(super) fn parts(piece: &Piece, steps: &[Step]) -> Vec<Part> {
    let mut kinds: BTreeMap<Alike, usize> = BTreeMap::new();
    let mut tokens = Vec::with_capacity(steps.len());
    let mut before = Shift::ZERO;
    for step in steps {
        let Ring { family, at, .. } = piece.graph[step.ring];
        let passes = step.passes.iter().map(|p| {
            let other = &piece.graph[p.ring];
            (other.family, other.at - at, p.sign, p.picked_up)
        });
        let stays = step.stays.iter().map(|s| (s.statement, s.at - at)).collect();
        let alike = Alike { family, on: at - before, passes: passes.collect(), stays };
        before = at;
        let next = kinds.len();
        tokens.push(*kinds.entry(alike).or_insert(next));
    }
    in_parts(&tokens, 0)
}

/// A run of steps, given by their kinds, in parts; `first` is the number of the first.
fn in_parts(kinds: &[usize], first: usize) -> Vec<Part> {
    let next = next_alike(kinds);
    let mut parts = Vec::new();
    let mut at = 0;
    while at < kinds.len() {
        let (steps, times) = best_round(kinds, &next, at);
        let round = match kinds.get(at..at + steps) {
            Some(round) if times > 1 && steps > 1 => in_parts(round, first + at),
            _ if times > 1 => vec![Part { first: first + at, steps: 1, times: 1, round: Vec::new() }],
            _ => Vec::new(),
        };
        parts.push(Part { first: first + at, steps, times, round });
        at += steps * times;
    }
    parts
}

/// For each step the next of its kind.
fn next_alike(kinds: &[usize]) -> Vec<Option<usize>> {
    let mut seen: BTreeMap<usize, usize> = BTreeMap::new();
    let mut next: Vec<Option<usize>> =
        kinds.iter().enumerate().rev().map(|(number, kind)| seen.insert(*kind, number)).collect();
    next.reverse();
    next
}

/// Steps and times of the round that begins here and covers most; the shortest of those that cover the same.
fn best_round(kinds: &[usize], next: &[Option<usize>], at: usize) -> (usize, usize) {
    let mut best = (1, 1);
    let following = |step: usize| next.get(step).copied().flatten();
    let mut again = following(at);
    while let Some(start) = again.filter(|start| start - at <= LONGEST && best.0 * best.1 < kinds.len() - at) {
        let steps = start - at;
        let same = kinds.iter().skip(at).zip(kinds.iter().skip(start)).take_while(|(a, b)| a == b).count();
        let times = same / steps + 1;
        if (times >= ROUNDS || times >= 2 && steps >= LONG) && times * steps > best.0 * best.1 {
            best = (steps, times);
        }
        again = following(start);
    }
    best
}
