//! A ring as it is seen: the ellipse of its core circle, and how near each point of it is.

use crate::settle::Circle;
use glam::{DVec2, DVec3};

/// A core circle in a parallel projection along z.
#[derive(Clone, Copy, Debug)]
pub struct Ellipse {
    centre: DVec3,
    /// Half axes in space: the first lies across the line of sight, the second leans away from it the most.
    long: DVec3,
    short: DVec3,
    /// Thickness of the wire.
    pub wire: f64,
}

impl Ellipse {
    /// The ellipse of a circle.
    pub fn of(circle: &Circle, wire: f64) -> Self {
        let across = circle.normal.cross(DVec3::Z);
        let long = if across.length() < 1e-9 { DVec3::X } else { across.normalize() };
        let short = circle.normal.cross(long);
        Self { centre: circle.centre, long: long * circle.radius, short: short * circle.radius, wire }
    }

    /// The point at an angle, in space.
    pub fn at(&self, angle: f64) -> DVec3 {
        let (sin, cos) = libm::sincos(angle);
        self.centre + self.long * cos + self.short * sin
    }

    /// The direction in which the point moves, in space.
    pub fn slope(&self, angle: f64) -> DVec3 {
        let (sin, cos) = libm::sincos(angle);
        self.short * cos - self.long * sin
    }

    /// The middle of the ellipse.
    pub fn centre(&self) -> DVec2 {
        self.centre.truncate()
    }

    /// Half of the long axis.
    pub fn half_long(&self) -> f64 {
        self.long.truncate().length()
    }

    /// Half of the short axis, as it is seen.
    pub fn half_short(&self) -> f64 {
        self.short.truncate().length()
    }

    /// How the long axis lies, in radians from x.
    pub fn tilt(&self) -> f64 {
        libm::atan2(self.long.y, self.long.x)
    }

    /// Whether angles grow anticlockwise, as it is seen.
    pub fn anticlockwise(&self) -> bool {
        self.long.truncate().perp_dot(self.short.truncate()) > 0.0
    }

    /// How far left, low, right and high its band reaches.
    pub fn reach(&self) -> [f64; 4] {
        let half = |one: f64, other: f64| libm::sqrt(one * one + other * other) + 0.5 * self.wire;
        let (x, y) = (half(self.long.x, self.short.x), half(self.long.y, self.short.y));
        [self.centre.x - x, self.centre.y - y, self.centre.x + x, self.centre.y + y]
    }

    /// How far a place is from the line of the ellipse as it is seen, at least.
    pub fn away(&self, p: DVec2) -> f64 {
        let from = p - self.centre();
        let part = |axis: DVec3| {
            let axis = axis.truncate();
            from.dot(axis) / axis.length_squared().max(1e-18)
        };
        // The plane in which the ellipse is a circle of radius 1 is shrunk nowhere more than along the short axis.
        let round = libm::hypot(part(self.long), if self.half_short() > 1e-9 { part(self.short) } else { 0.0 });
        (round - 1.0).abs() * self.half_short()
    }

    /// How far a place is from the line of the ellipse as it is seen, about.
    pub fn distance(&self, p: DVec2) -> f64 {
        const POINTS: u32 = 90;
        let at = |k: u32| self.at(std::f64::consts::TAU * f64::from(k) / f64::from(POINTS)).truncate();
        (0..POINTS).map(|k| at(k).distance(p)).fold(f64::INFINITY, f64::min)
    }

    /// Whether a place is inside the line of the ellipse.
    pub fn holds(&self, p: DVec2) -> bool {
        let from = p - self.centre();
        let part = |axis: DVec3| from.dot(axis.truncate()) / axis.truncate().length_squared().max(1e-18);
        libm::hypot(part(self.long), part(self.short)) < 1.0
    }
}
