//! A turn round a ring, and the parts of it for which something holds.

use std::f64::consts::TAU;

/// Places round a ring that are looked at.
const PLACES: u32 = 180;

/// A part of a turn: its first place and its last, which may lie beyond a full turn.
#[derive(Clone, Copy, Debug)]
pub struct Run {
    first: u32,
    last: u32,
}

impl Run {
    /// The angles of its places, radians.
    pub fn angles(self) -> impl Iterator<Item = f64> + Clone {
        (self.first..=self.last).map(angle)
    }

    /// The angle at a part of its way, from 0 to 1.
    pub fn angle_at(self, part: f64) -> f64 {
        angle(self.first) + (angle(self.last) - angle(self.first)) * part
    }
}

fn angle(place: u32) -> f64 {
    TAU * f64::from(place) / f64::from(PLACES)
}

/// The runs of places for whose angles something holds.
pub fn runs(holds: impl Fn(f64) -> bool) -> Vec<Run> {
    let all: Vec<bool> = (0..PLACES).map(|k| holds(angle(k))).collect();
    let at = |k: u32| all.get((k % PLACES) as usize).copied().unwrap_or(false);
    let Some(start) = (0..PLACES).find(|k| !at(*k)) else { return vec![Run { first: 0, last: PLACES }] };
    let mut runs = Vec::new();
    let mut from = None;
    for k in start..=start + PLACES {
        match (at(k), from) {
            (true, None) => from = Some(k),
            (false, Some(first)) => {
                runs.push(Run { first, last: k - 1 });
                from = None;
            }
            _ => {}
        }
    }
    runs
}
