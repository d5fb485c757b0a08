//! Where the rings of a pose come near one another, and how thick their wire could be.

use super::problem::{Pose, Problem, RingSize};
use crate::pattern::Shift;
use crate::settle::pair::{Circle, clearances_below};
use glam::DVec3;

/// Cosine and sine of every twelfth of a turn.
const AROUND: [(f64, f64); 12] = {
    const H: f64 = 0.866_025_403_784_438_6;
    [
        (1.0, 0.0),
        (H, 0.5),
        (0.5, H),
        (0.0, 1.0),
        (-0.5, H),
        (-H, 0.5),
        (-1.0, 0.0),
        (-H, -0.5),
        (-0.5, -H),
        (0.0, -1.0),
        (0.5, -H),
        (H, -0.5),
    ]
};

/// A ring runs along another if at least this many of the twelve places are near.
const LONG: usize = 6;

/// One place where two rings come near.
#[derive(Clone, Copy, Debug)]
pub struct Near {
    /// Number of the ring.
    pub from: usize,
    /// Number of the other.
    pub to: usize,
    /// Which image of the other, in repeats.
    pub shift: Shift,
    /// Distance of the core circles there, mm.
    pub distance: f64,
    /// Half the sum of the two wires, mm: the rings touch at this distance.
    pub wires: f64,
    /// The point on the core circle of the first, mm.
    pub on_from: DVec3,
    /// The point on the core circle of the image, mm.
    pub on_to: DVec3,
}

impl Near {
    /// The same place in a pose `by` times as large.
    #[must_use]
    pub(crate) fn scaled(&self, by: f64) -> Self {
        Self {
            distance: self.distance * by,
            wires: self.wires * by,
            on_from: self.on_from * by,
            on_to: self.on_to * by,
            ..*self
        }
    }
}

/// Every place where two rings are nearer than `limit` times the mean of their wires plus `more` mm.
pub fn near(problem: &Problem, pose: &Pose, limit: f64, more: f64) -> Vec<Near> {
    let widest = problem.rings.iter().map(|r| r.wire).fold(0.0, f64::max);
    let mut found = Vec::new();
    for (from, to, shift) in pose.pairs(limit * widest + more) {
        let (Some(a), Some(b)) = (pose.rings.get(from), pose.image(to, shift)) else { continue };
        let wire = |n: usize| problem.rings.get(n).map_or(0.0, |r| r.wire);
        let wires = 0.5 * (wire(from) + wire(to));
        let places = clearances_below(a, &b, limit * wires + more);
        for c in &places {
            let (distance, on_from, on_to) = (c.distance, c.on_a, c.on_b);
            found.push(Near { from, to, shift, distance, wires, on_from, on_to });
        }
        // Where a ring runs along another at nearly one distance, a small move shifts the nearest place far, so
        // points all round the ring are watched as well.
        if !places.is_empty() && more > 0.0 {
            let (u, v) = a.axes();
            let before = found.len();
            for (cos, sin) in AROUND {
                let on_from = a.centre + (u * cos + v * sin) * a.radius;
                let on_to = b.nearest(on_from);
                let distance = on_from.distance(on_to);
                if distance < limit * wires + more {
                    found.push(Near { from, to, shift, distance, wires, on_from, on_to });
                }
            }
            if found.len() - before < LONG {
                found.truncate(before);
            }
        }
    }
    found
}

/// How many times thicker the wire of a pose could be, with core circles as they are: the least distance of
/// two rings over the mean of their wires. Below 1 the rings do not fit as they lie.
pub fn scale(problem: &Problem, pose: &Pose) -> f64 {
    // Any wire would do where no two rings come near; a ring's own hole bounds it.
    let own = |(circle, size): (&Circle, &RingSize)| 2.0 * circle.radius / size.wire;
    let most = pose.rings.iter().zip(&problem.rings).map(own).fold(f64::INFINITY, f64::min);
    near(problem, pose, most, 0.0).iter().map(|n| n.distance / n.wires).fold(most, f64::min)
}

/// How many times thicker the wire of two rings could be. Each is its number and its circle.
pub(crate) fn scale_of(problem: &Problem, a: (usize, &Circle), b: (usize, &Circle)) -> f64 {
    let wire = |n: usize| problem.rings.get(n).map_or(0.0, |r| r.wire);
    let wires = 0.5 * (wire(a.0) + wire(b.0));
    // Where nothing is nearer than twice the wires, they do not meet.
    clearances_below(a.1, b.1, 2.0 * wires).first().map_or(2.0, |c| c.distance / wires)
}
