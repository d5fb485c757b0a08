//! Every minimum of a profile.
//!
//! Halve the turn until each stretch holds at most one root of the profile's polynomial: on a stretch with
//! none the slope keeps its sign, on a stretch with one it changes it once at most. A minimum lies where
//! one sign of the slope is negative and the next positive, and nowhere else; so none is missed, down
//! to what rounding hides (a minimum whose rim is lower than about 1e-13 of the pair's size).

use super::profile::{Profile, Turn};
use super::stretch::Stretch;
use arrayvec::ArrayVec;

/// Most minima of one pair. Two circles have m minima, s saddles and M ≥ 1 maxima of distance on the
/// torus of pairs of points; m + M = s by Euler's count and m + s + M ≤ 8 by the degree of the
/// polynomial, so m ≤ 3, and three do occur: one
/// random pair of equal rings in some 100,000. Four to have room for a pair at the same distance all round.
pub const MOST: usize = 4;

/// Stretches are halved no more often than this: about 1e-7 of a turn. A double root is never resolved.
const MOST_HALVINGS: u8 = 24;
/// A stretch with no slope to be seen at either end is halved no more often than this.
const MOST_BLIND_HALVINGS: u8 = 4;
/// Steps to close in on one minimum; halving alone needs some 50.
const MOST_STEPS: u8 = 100;
/// Newton's method ends with a step smaller than this: the next would be smaller than rounding.
const LAST_STEP: f64 = 1e-9;

/// The turns at which a profile has its minima, in order; or, when the distance is the same all round,
/// four turns a quarter apart.
pub fn minima(profile: &Profile) -> ArrayVec<Turn, MOST> {
    let mut search = Search { profile, first: None, last: None, found: ArrayVec::new() };
    let ends = [0.0, 2.0].map(|turn| End { turn, sign: profile.sign(turn) });
    let [start, middle] = ends;
    search.meet(start);
    search.halve(&profile.half_turn(1.0), start, middle, 0);
    search.halve(&profile.half_turn(-1.0), middle, End { turn: 4.0, sign: start.sign }, 0);
    if let Some(first) = search.first {
        search.meet(End { turn: first.turn + 4.0, sign: first.sign });
    }
    // No slope seen at any of 32 ends or more, though eight roots are the most a slope can have; or a
    // slope that is lost in rounding here and there.
    if search.found.is_empty() { ArrayVec::from([0.0, 1.0, 2.0, 3.0]) } else { search.found }
}

/// An end of a stretch and the sign of the slope there.
#[derive(Clone, Copy)]
struct End {
    turn: Turn,
    sign: i8,
}

struct Search<'a> {
    profile: &'a Profile,
    /// First and last end met whose sign is not zero.
    first: Option<End>,
    last: Option<End>,
    found: ArrayVec<Turn, MOST>,
}

impl Search<'_> {
    /// Halves a stretch until its ends tell all about it, and meets those ends from left to right.
    fn halve(&mut self, stretch: &Stretch, from: End, to: End, halvings: u8) {
        let seen = usize::from(from.sign != 0) + usize::from(to.sign != 0);
        let settled = match stretch.sign_changes() {
            0 => seen > 0,
            1 => seen == 2,
            _ => false,
        };
        if settled || halvings >= MOST_HALVINGS || (seen == 0 && halvings >= MOST_BLIND_HALVINGS) {
            return self.meet(to);
        }
        let (left, right) = stretch.halves();
        let turn = 0.5 * (from.turn + to.turn);
        let middle = End { turn, sign: self.profile.sign(turn) };
        self.halve(&left, from, middle, halvings + 1);
        self.halve(&right, middle, to, halvings + 1);
    }

    fn meet(&mut self, end: End) {
        if end.sign == 0 {
            return;
        }
        if let Some(last) = self.last
            && last.sign < 0
            && end.sign > 0
        {
            // Full only when rounding makes ripples of a distance that is the same all round.
            let _ = self.found.try_push(self.close_in(last.turn, end.turn));
        }
        self.first = self.first.or(Some(end));
        self.last = Some(end);
    }

    /// Newton's method, kept between a falling and a rising slope; halving wherever it does not at
    /// least halve its step.
    fn close_in(&self, mut falling: Turn, mut rising: Turn) -> Turn {
        let mut turn = 0.5 * (falling + rising);
        let mut longest = f64::INFINITY;
        for _ in 0..MOST_STEPS {
            let (slope, step) = self.profile.newton(turn);
            if slope < 0.0 {
                falling = turn;
            } else {
                rising = turn;
            }
            let next = turn + step;
            if step.abs() < longest && falling <= next && next <= rising {
                turn = next;
                longest = 0.5 * step.abs();
                if step.abs() < LAST_STEP {
                    break;
                }
            } else {
                longest = 0.5 * (rising - falling);
                turn = 0.5 * (falling + rising);
                if longest < f64::EPSILON {
                    break;
                }
            }
        }
        turn
    }
}
