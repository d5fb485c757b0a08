//! Whether two rings are linked, which way, and by how much.
//!
//! Two round circles meet each other's plane in two points at most, and are linked when just one of
//! them lies inside. The circle goes down through the plane at one of the two and up at the other, so
//! the linking number is whether the way down is inside, less whether the way up is.

use super::Circle;
use glam::DVec3;

/// Planes that make a smaller angle (in radians) count as parallel.
const PARALLEL: f64 = 1e-12;

/// Where the second ring of a pair goes through the plane of the first.
///
/// The two depths belong to the points where the second ring passes from front to back of that plane
/// and from back to front. A ring that does not reach the plane has both depths measured at its point
/// nearest to the plane, so all three numbers change without jumps while the ring moves, except when
/// the two planes are turned through parallel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Crossing {
    /// How far the second ring reaches through the plane of the first, mm: the height of its part on
    /// the smaller side. Negative: the gap between the ring and the plane.
    pub reach: f64,
    /// How deep inside the first circle the second goes down, mm. Negative: so far outside it.
    pub down: f64,
    /// How deep inside the first circle the second comes up, mm. Negative: so far outside it.
    pub up: f64,
}

impl Crossing {
    /// Linking number: +1 when the second ring goes down the first, −1 when up, 0 when they are not
    /// linked.
    pub fn sign(&self) -> i8 {
        if self.reach > 0.0 { i8::from(self.down > 0.0) - i8::from(self.up > 0.0) } else { 0 }
    }

    /// How safely the rings have the wanted sign, mm: positive when they have it, and then how far the
    /// nearer crossing is from where the link would change; negative when they have not, and then
    /// about how far they are from it.
    pub fn margin(&self, wanted: i8) -> f64 {
        match wanted {
            0 => self.down.min(self.up).max(-self.down.max(self.up)).max(-self.reach),
            1.. => self.down.min(-self.up) + self.reach.min(0.0),
            _ => self.up.min(-self.down) + self.reach.min(0.0),
        }
    }
}

/// Where `b` goes through the plane of `a`.
///
/// With ℓ the direction common to both planes, along normal a × normal b, and s the sine of the angle
/// between them, the height of b's points over the plane of a runs as s · (distance along the steepest
/// way in the plane of b). The crossing on the side of +ℓ goes down, that of −ℓ up: b's path runs along
/// (p − centre) × normal b, and (ℓ × normal b) · normal a = −s.
pub fn crossing(a: &Circle, b: &Circle) -> Crossing {
    let between = b.centre - a.centre;
    let height = between.dot(a.normal);
    let common = a.normal.cross(b.normal);
    let sine = common.length();
    let depth = |point: DVec3| a.radius - (between + point).length();
    if sine < PARALLEL {
        let inward = (between - a.normal * height).try_normalize().unwrap_or_else(|| b.axes().0);
        let depth = depth(-inward * b.radius);
        return Crossing { reach: -height.abs(), down: depth, up: depth };
    }
    let line = common / sine;
    let steepest = b.normal.cross(line);
    // Not `clamp`, which panics on a radius that is no number.
    let along = (-height / sine).max(-b.radius).min(b.radius);
    let across = line * ((b.radius - along) * (b.radius + along)).max(0.0).sqrt();
    Crossing {
        reach: b.radius * sine - height.abs(),
        down: depth(steepest * along + across),
        up: depth(steepest * along - across),
    }
}

/// Linking number of two rings: +1 when each goes down the other (from its front to its back), −1 when
/// each goes up the other, 0 when they are not linked. Rings in parallel planes, or in one plane, are not
/// linked; for rings whose core circles touch (within rounding) the sign means nothing.
pub fn link_sign(a: &Circle, b: &Circle) -> i8 {
    crossing(a, b).sign()
}
