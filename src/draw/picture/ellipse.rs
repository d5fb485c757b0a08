//! A ring as the viewer sees it: the ellipse of its core circle, and the depth of each point.

use crate::draw::plane::{length, seen};
use crate::settle::Circle;
use glam::DVec3;
use kurbo::{Point, Rect, Vec2};
use std::f64::consts::TAU;

/// A core circle in a parallel projection along z, in the unit of the pose; y upwards.
#[derive(Clone, Copy, Debug)]
pub struct Ellipse {
    centre: DVec3,
    /// Half axes in space. The first is at right angles to the line of sight, the second leans away from it the most.
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

    /// The point at an angle (radians), in space.
    pub fn at(&self, angle: f64) -> DVec3 {
        let (sin, cos) = libm::sincos(angle);
        self.centre + self.long * cos + self.short * sin
    }

    /// How the point moves as the angle grows, in space.
    pub fn slope(&self, angle: f64) -> DVec3 {
        let (sin, cos) = libm::sincos(angle);
        self.short * cos - self.long * sin
    }

    /// The middle.
    pub fn centre(&self) -> Point {
        seen(self.centre).to_point()
    }

    /// Half of the long axis.
    pub fn half_long(&self) -> f64 {
        seen(self.long).hypot()
    }

    /// Half of the short axis.
    pub fn half_short(&self) -> f64 {
        seen(self.short).hypot()
    }

    /// The angle from x to the long axis, radians.
    pub fn tilt(&self) -> f64 {
        libm::atan2(self.long.y, self.long.x)
    }

    /// Whether angles grow anticlockwise.
    pub fn anticlockwise(&self) -> bool {
        seen(self.long).cross(seen(self.short)) > 0.0
    }

    /// The box round its band.
    pub fn bounds(&self) -> Rect {
        let half = |one: f64, other: f64| (one * one + other * other).sqrt() + 0.5 * self.wire;
        let half = Vec2::new(half(self.long.x, self.short.x), half(self.long.y, self.short.y));
        Rect::from_points(self.centre() - half, self.centre() + half)
    }

    /// A place, counted in half axes from the middle.
    fn in_axes(&self, place: Point) -> Vec2 {
        let from = place - self.centre();
        let part = |axis: DVec3| from.dot(seen(axis)) / seen(axis).hypot2().max(1e-18);
        Vec2::new(part(self.long), part(self.short))
    }

    /// A lower bound of the distance from a place to the line of the ellipse.
    pub fn away(&self, place: Point) -> f64 {
        // The plane in which the ellipse is a circle of radius 1 shrinks the most along the short axis.
        (length(self.in_axes(place)) - 1.0).abs() * self.half_short()
    }

    /// About how far a place is from the line of the ellipse.
    pub fn distance(&self, place: Point) -> f64 {
        const POINTS: u32 = 90;
        let at = |k: u32| seen(self.at(TAU * f64::from(k) / f64::from(POINTS))).to_point();
        (0..POINTS).map(|k| at(k).distance(place)).fold(f64::INFINITY, f64::min)
    }

    /// Whether a place is inside the line of the ellipse.
    pub fn holds(&self, place: Point) -> bool {
        length(self.in_axes(place)) < 1.0
    }
}
