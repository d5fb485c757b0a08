//! Where the work goes on alike: steps that are done over and over are told once.

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

/// One step, or a round of steps done so many times.
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

/// What makes two steps alike: how far on the ring stands from the one before, what it is, and what it passes and how it
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
    told(&tokens, 0)
}

/// A run of steps, given by their kinds, told in parts; `first` is the number of the first.
fn told(kinds: &[usize], first: usize) -> Vec<Part> {
    // For each step the next of its kind.
    let mut next = vec![usize::MAX; kinds.len()];
    let mut seen: BTreeMap<usize, usize> = BTreeMap::new();
    for (number, kind) in kinds.iter().enumerate().rev() {
        if let Some(slot) = next.get_mut(number) {
            *slot = seen.insert(*kind, number).unwrap_or(usize::MAX);
        }
    }
    let mut parts = Vec::new();
    let mut at = 0;
    while at < kinds.len() {
        // The round that covers most; of equals the shortest.
        let mut best = (1, 1);
        let mut again = next.get(at).copied().unwrap_or(usize::MAX);
        while again < kinds.len() && again - at <= LONGEST && best.0 * best.1 < kinds.len() - at {
            let steps = again - at;
            let same = kinds.iter().skip(at).zip(kinds.iter().skip(again)).take_while(|(a, b)| a == b).count();
            let times = same / steps + 1;
            if (times >= ROUNDS || times >= 2 && steps >= LONG) && times * steps > best.0 * best.1 {
                best = (steps, times);
            }
            again = next.get(again).copied().unwrap_or(usize::MAX);
        }
        let (steps, times) = best;
        let round = match kinds.get(at..at + steps) {
            Some(round) if times > 1 && steps > 1 => told(round, first + at),
            _ if times > 1 => vec![Part { first: first + at, steps: 1, times: 1, round: Vec::new() }],
            _ => Vec::new(),
        };
        parts.push(Part { first: first + at, steps, times, round });
        at += steps * times;
    }
    parts
}
