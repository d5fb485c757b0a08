//! Which wires hide a point of a ring from the viewer.

use super::arcs::near;
use super::ellipse::Ellipse;
use super::meeting::points;
use crate::draw::plane::seen;
use glam::DVec3;

/// Points of one ring that are nearer to each other than this part of half its long axis do not hide each other.
const BEND: f64 = 0.05;
/// A wire hides what is deeper than its middle by at least this part of it: wires that touch side by side hide nothing.
const DEEPER: f64 = 0.25;

/// All rings of a scene, ready to be asked whether they cover a point.
pub struct Cover<'e> {
    ellipses: &'e [Ellipse],
    points: Vec<Vec<DVec3>>,
    near: Vec<Vec<usize>>,
}

impl<'e> Cover<'e> {
    /// The cover that these rings are.
    pub fn of(ellipses: &'e [Ellipse]) -> Self {
        let mut beside: Vec<Vec<usize>> = (0..ellipses.len()).map(|n| vec![n]).collect();
        for (one, other) in near(ellipses) {
            for (ring, with) in [(one, other), (other, one)] {
                if let Some(beside) = beside.get_mut(ring) {
                    beside.push(with);
                }
            }
        }
        Self { ellipses, points: ellipses.iter().map(points).collect(), near: beside }
    }

    /// Whether a point on the skin or in the middle of the wire of a ring lies under a wire, or nearer beside one than `beside`.
    pub fn hides(&self, ring: usize, p: DVec3, beside: f64) -> bool {
        self.near.get(ring).into_iter().flatten().any(|other| self.over(*other, ring, p, beside))
    }

    /// Whether the wire of ring `other` is over a point of `ring`.
    fn over(&self, other: usize, ring: usize, p: DVec3, beside: f64) -> bool {
        let (Some(ellipse), Some(points)) = (self.ellipses.get(other), self.points.get(other)) else { return false };
        let within = 0.5 * ellipse.wire + beside;
        if ellipse.away(seen(p).to_point()) > within {
            return false;
        }
        let own = |q: DVec3| other == ring && (q - p).length() < (BEND * ellipse.half_long()).max(ellipse.wire);
        let next = points.iter().cycle().skip(1);
        points.iter().zip(next).any(|(a, b)| {
            let (from, along) = (seen(p - *a), seen(*b - *a));
            let t = (from.dot(along) / along.hypot2().max(1e-18)).clamp(0.0, 1.0);
            let q = *a + (*b - *a) * t;
            seen(q - p).hypot2() < within * within && q.z > p.z + DEEPER * ellipse.wire && !own(q)
        })
    }
}
