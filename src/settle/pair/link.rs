//! Whether two rings are linked, which way, and by how much.
//!
//! Two round circles meet each other's plane in two points at most, and are linked when just one of
//! them lies inside. The circle goes down through the plane at one of the two and up at the other, so
//! the linking number is whether the way down is inside, less whether the way up is.

use super::circle::Circle;
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

/// How a number changes as two circles move and tilt. Only the parts of the last two at right angles to
/// the normals mean anything: a normal keeps its length.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Slope {
    /// Against the centre of the second circle; against that of the first it is the opposite.
    pub centre: DVec3,
    /// Against the normal of the first.
    pub normal_a: DVec3,
    /// Against the normal of the second.
    pub normal_b: DVec3,
}

impl Slope {
    pub(crate) fn plus(self, other: Self) -> Self {
        Self {
            centre: self.centre + other.centre,
            normal_a: self.normal_a + other.normal_a,
            normal_b: self.normal_b + other.normal_b,
        }
    }

    /// The same with the first circle and the second exchanged.
    pub(crate) fn exchanged(self) -> Self {
        Self { centre: -self.centre, normal_a: self.normal_b, normal_b: self.normal_a }
    }

    /// The slope times a factor.
    pub(crate) fn times(self, by: f64) -> Self {
        Self { centre: self.centre * by, normal_a: self.normal_a * by, normal_b: self.normal_b * by }
    }
}

/// The margin of a crossing, as [`Crossing::margin`] has it, with its slope. Where two of its parts are equal
/// the slope is that of either.
pub fn margin_and_slope(a: &Circle, b: &Circle, wanted: i8) -> (f64, Slope) {
    let found = crossing(a, b);
    let margin = found.margin(wanted);
    if wanted == 0 {
        let higher = if found.down > found.up { 1.0 } else { -1.0 };
        let slope = if margin <= -found.reach {
            reach_slope(a, b).times(-1.0)
        } else if margin <= -found.down.max(found.up) {
            depth_slope(a, b, higher).times(-1.0)
        } else {
            depth_slope(a, b, -higher)
        };
        return (margin, slope);
    }
    // The crossing that should be inside, and the one that should be outside.
    let (side, inside, outside) = if wanted > 0 { (1.0, found.down, -found.up) } else { (-1.0, found.up, -found.down) };
    let slope = if inside < outside { depth_slope(a, b, side) } else { depth_slope(a, b, -side).times(-1.0) };
    (margin, if found.reach < 0.0 { slope.plus(reach_slope(a, b)) } else { slope })
}

/// Slope of [`Crossing::reach`].
fn reach_slope(a: &Circle, b: &Circle) -> Slope {
    let between = b.centre - a.centre;
    let height = between.dot(a.normal);
    let common = a.normal.cross(b.normal);
    let sine = common.length();
    let face = height.signum();
    let turning = if sine < PARALLEL { DVec3::ZERO } else { common * (b.radius / sine) };
    Slope {
        centre: a.normal * -face,
        normal_a: b.normal.cross(turning) - between * face,
        normal_b: turning.cross(a.normal),
    }
}

/// Slope of [`Crossing::down`] (`which` 1) or [`Crossing::up`] (−1).
///
/// As the second ring moves and turns, its point in the plane of the first slides along the ring so as to
/// stay in that plane: what it slides is what the plane asks for, over how steeply the ring goes through.
fn depth_slope(a: &Circle, b: &Circle, which: f64) -> Slope {
    let between = b.centre - a.centre;
    let height = between.dot(a.normal);
    let common = a.normal.cross(b.normal);
    let sine = common.length();
    if sine < PARALLEL {
        let flat = between - a.normal * height;
        let away = flat.length();
        let inward = flat.try_normalize().unwrap_or_else(|| b.axes().0);
        let out = (between - inward * b.radius).normalize_or_zero();
        let tilting = if away > 0.0 { out.dot(a.normal) * b.radius / away } else { 0.0 };
        return Slope { centre: -out, normal_a: -flat * tilting, normal_b: DVec3::ZERO };
    }
    let line = common / sine;
    let steepest = b.normal.cross(line);
    let along = (-height / sine).max(-b.radius).min(b.radius);
    let root = ((b.radius - along) * (b.radius + along)).max(0.0).sqrt();
    let spoke = steepest * along + line * (root * which);
    let point = between + spoke;
    let out = point.normalize_or_zero();
    if height.abs() >= sine * b.radius {
        // The point of the ring nearest to the plane: it lies along the steepest way.
        let pull = out * -along;
        let pull = (pull - steepest * pull.dot(steepest)) / sine;
        return Slope {
            centre: -out,
            normal_a: pull - b.normal * b.normal.dot(pull),
            normal_b: -pull * a.normal.dot(b.normal) - a.normal * b.normal.dot(pull),
        };
    }
    // Where the ring only just reaches the plane it slides without bound; a bound keeps the number sound.
    let path = b.normal.cross(spoke);
    let climb = a.normal.dot(path);
    let least = 1e-6 * b.radius;
    let slide = out.dot(path) / if climb.abs() < least { least.copysign(climb) } else { climb };
    let pull = a.normal * slide - out;
    Slope { centre: pull, normal_a: point * slide, normal_b: spoke * -b.normal.dot(pull) }
}

/// Linking number of two rings: +1 when each goes down the other (from its front to its back), −1 when
/// each goes up the other, 0 when they are not linked. Rings in parallel planes, or in one plane, are not
/// linked; for rings whose core circles touch (within rounding) the sign means nothing.
pub fn link_sign(a: &Circle, b: &Circle) -> i8 {
    crossing(a, b).sign()
}
