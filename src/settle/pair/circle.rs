//! The core circle of a ring: round, rigid, oriented.

use glam::DVec3;

/// The line along the middle of a ring's wire.
///
/// A ring's *front* is the side from which its path is seen to run clockwise, and a ring that passes
/// another from its front to its back goes *down* it, sign +1. `normal` points to the front. Seen from
/// the tip of `normal` the path runs clockwise, so at a point p of the circle it runs along
/// (p − centre) × normal: the right-hand rule holds about −`normal`, not about `normal`. A pass down a
/// ring goes against its `normal`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Circle {
    /// Middle of the hole, mm.
    pub centre: DVec3,
    /// Unit vector to the ring's front.
    pub normal: DVec3,
    /// Core radius, mm: half of inner diameter plus wire.
    pub radius: f64,
}

impl Circle {
    /// A circle with the normal brought to unit length. `None` unless every number is finite, the
    /// radius positive and the normal long enough to have a direction.
    pub fn new(centre: DVec3, normal: DVec3, radius: f64) -> Option<Self> {
        // Twice, because the first quotient of a very short or long normal is not exactly a unit.
        let normal = (normal / normal.abs().max_element()).try_normalize()?.try_normalize()?;
        let circle = Self { centre, normal, radius };
        circle.is_sound().then_some(circle)
    }

    /// Whether the numbers are finite and the radius positive.
    pub(crate) fn is_sound(&self) -> bool {
        self.centre.is_finite() && self.normal.is_finite() && self.radius.is_finite() && self.radius > 0.0
    }

    /// The same ring turned over where it lies: its front is where its back was, and its path runs the
    /// other way.
    #[must_use]
    pub fn turned_over(self) -> Self {
        Self { normal: -self.normal, ..self }
    }

    /// Two unit vectors in the plane of the circle, at right angles. Which two is arbitrary but fixed.
    /// The path of the ring runs from the second to the first.
    pub fn axes(&self) -> (DVec3, DVec3) {
        self.normal.any_orthonormal_pair()
    }

    /// Direction of the path at the point of the circle nearest to `point`: a unit vector, or zero for
    /// a point on the ring's axis.
    pub fn path_at(&self, point: DVec3) -> DVec3 {
        (point - self.centre).cross(self.normal).normalize_or_zero()
    }

    /// The point of the circle nearest to `point`. Every point of the circle is as near to a point on
    /// its axis; then one of them, always the same.
    pub fn nearest(&self, point: DVec3) -> DVec3 {
        let from = point - self.centre;
        let out = (from - self.normal * from.dot(self.normal)).try_normalize().unwrap_or_else(|| self.axes().0);
        self.centre + out * self.radius
    }
}
