//! A third opinion on the smallest distance: the crate `parry3d-f64` with its own bounding volumes and
//! projections, from the corners of one many-sided polygon to the sides of another.

use super::pairs::pairs;
use byrnie::settle::{Circle, clearances};
use glam::DVec3;
use parry3d_f64::math::Vector;
use parry3d_f64::query::PointQuery;
use parry3d_f64::shape::Polyline;
use std::f64::consts::TAU;

const SIDES: u32 = 1024;

fn corners(circle: &Circle) -> Vec<DVec3> {
    let (u, v) = circle.axes();
    let corner = |i| {
        let (sin, cos) = (f64::from(i) * TAU / f64::from(SIDES)).sin_cos();
        circle.centre + circle.radius * (u * cos + v * sin)
    };
    (0..=SIDES).map(corner).collect()
}

#[test]
fn the_smallest_distance_agrees_with_polygons() {
    let vector = |p: &DVec3| Vector::new(p.x, p.y, p.z);
    for (a, b) in pairs(41, 150) {
        let line = Polyline::new(corners(&b).iter().map(vector).collect(), None);
        let nearest =
            corners(&a).iter().map(|p| line.distance_to_local_point(vector(p), true)).fold(f64::INFINITY, f64::min);
        let found = clearances(&a, &b)[0].distance;
        // A side leaves the circle by R (1 − cos(π/n)); the nearest corner is half a side from the
        // nearest point at most, which at a minimum costs less than its square over the distance, and
        // where the circles cross no more than itself.
        let half_side = TAU * a.radius / f64::from(SIDES) / 2.0;
        let tolerance = b.radius * (TAU / f64::from(SIDES) / 2.0).powi(2) + half_side.min(half_side.powi(2) / found);
        assert!((nearest - found).abs() <= tolerance, "{nearest} {found} {tolerance} {a:?} {b:?}");
    }
}
