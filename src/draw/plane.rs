//! Points in the plane: small additions to kurbo.

use glam::DVec3;
use kurbo::{Point, Rect, Vec2};

/// A vector in space as it is seen along z.
pub fn seen(vector: DVec3) -> Vec2 {
    Vec2::new(vector.x, vector.y)
}

/// The length of a vector, right to the last digit: kurbo's own is not, and among places that are equally good the last digit
/// would choose.
pub fn length(of: Vec2) -> f64 {
    libm::hypot(of.x, of.y)
}

/// The direction of a vector, with length 1; none where the vector is too short to have one.
pub fn direction(of: Vec2) -> Option<Vec2> {
    let length = length(of);
    (length >= 1e-9).then(|| of * (1.0 / length))
}

/// The middle of some points; the origin where there are none.
pub fn middle(points: &[Point]) -> Point {
    let sum: Vec2 = points.iter().map(|p| p.to_vec2()).sum();
    (sum * (1.0 / number(points.len().max(1)))).to_point()
}

/// The box round some points; empty and at the origin where there are none.
pub fn bounds(points: &[Point]) -> Rect {
    let first = points.first().copied().unwrap_or_default();
    points.iter().fold(Rect::from_points(first, first), |bounds, p| bounds.union_pt(*p))
}

/// A count as a number to calculate with.
pub fn number(count: usize) -> f64 {
    f64::from(u32::try_from(count).unwrap_or(u32::MAX))
}
