use super::pairs::{Dice, pairs};
use byrnie::settle::{Circle, crossing, link_sign};
use glam::{DQuat, DVec3};
use std::f64::consts::TAU;

/// Point of the path of a ring, and its velocity: seen from the tip of the normal it runs clockwise.
fn path(circle: &Circle, t: f64) -> (DVec3, DVec3) {
    let (u, v) = circle.axes();
    let (u, v) = if u.cross(v).dot(circle.normal) > 0.0 { (v, u) } else { (u, v) };
    let (sin, cos) = t.sin_cos();
    (circle.centre + circle.radius * (u * cos + v * sin), circle.radius * (v * cos - u * sin))
}

/// Gauss linking integral, lk = 1/4π ∮∮ (p − q) · (dp × dq) / |p − q|³ (Ricca, Nipoti, JKTR 20 (2011)),
/// by the trapezoid rule, which for smooth closed curves gains digits with every step. Which passes
/// are positive is a convention; here those in the direction of the other's right-hand normal.
pub fn gauss(a: &Circle, b: &Circle, steps: u32) -> f64 {
    let points =
        |c: &Circle| -> Vec<_> { (0..steps).map(|i| path(c, f64::from(i) * TAU / f64::from(steps))).collect() };
    let (along_a, along_b) = (points(a), points(b));
    let mut sum = 0.0;
    for (p, dp) in &along_a {
        for (q, dq) in &along_b {
            let r = *p - *q;
            sum += r.dot(dp.cross(*dq)) / (r.length_squared() * r.length());
        }
    }
    sum * (TAU / f64::from(steps)).powi(2) / (2.0 * TAU)
}

/// Unit circles in the xy-plane at the origin and in the xz-plane at (1, 0, 0): |linking number| 1
/// (check-values, "Circles and signs").
fn tight() -> (Circle, Circle) {
    (Circle::new(DVec3::ZERO, DVec3::Z, 1.0).unwrap(), Circle::new(DVec3::X, DVec3::Y, 1.0).unwrap())
}

#[test]
fn the_front_is_where_the_path_is_seen_to_run_clockwise() {
    // Looked at from +z, the point at three o'clock of a clockwise path moves towards six.
    let ring = Circle::new(DVec3::ZERO, DVec3::Z, 2.0).unwrap();
    assert_eq!(ring.path_at(DVec3::X * 2.0), -DVec3::Y);
    let (point, velocity) = path(&ring, 0.7);
    assert!((ring.path_at(point) * 2.0 - velocity).length() < 1e-12);
}

#[test]
fn down_is_from_front_to_back() {
    // b's path runs clockwise seen from +y, so in the middle of a it runs along
    // (−1, 0, 0) × (0, 1, 0) = (0, 0, −1): down through a, whose front is up.
    let (a, b) = tight();
    assert_eq!(b.path_at(DVec3::ZERO), -DVec3::Z);
    assert_eq!(link_sign(&a, &b), 1);
    let found = crossing(&a, &b);
    assert_eq!((found.reach, found.down, found.up), (1.0, 1.0, -1.0));
    assert_eq!((found.margin(1), found.margin(-1), found.margin(0)), (1.0, -1.0, -1.0));
}

#[test]
fn the_gauss_integral_agrees_on_the_published_pair() {
    let (a, b) = tight();
    assert!((gauss(&a, &b, 100) - f64::from(link_sign(&a, &b))).abs() < 1e-9);
}

#[test]
fn the_gauss_integral_agrees_on_random_pairs() {
    let (mut seen, mut checked) = ([0; 3], 0);
    for (a, b) in pairs(11, 600) {
        let (coarse, integral) = (gauss(&a, &b, 120), gauss(&a, &b, 170));
        // Rings that nearly touch need more steps than this; they do not tell.
        if (integral - coarse).abs() < 0.01 {
            let sign = link_sign(&a, &b);
            assert!((integral - f64::from(sign)).abs() < 0.05, "{integral} {sign} {a:?} {b:?}");
            seen[usize::try_from(sign + 1).unwrap()] += 1;
            checked += 1;
        }
    }
    assert!(checked > 550 && seen.iter().all(|n| *n > 50), "{checked} {seen:?}");
}

#[test]
fn signs_are_mutual_and_change_with_turning_over_and_with_mirrors() {
    for (a, b) in pairs(12, 20_000) {
        let sign = link_sign(&a, &b);
        assert_eq!(link_sign(&b, &a), sign, "{a:?} {b:?}");
        assert_eq!(link_sign(&a.turned_over(), &b), -sign, "{a:?} {b:?}");
        assert_eq!(link_sign(&a, &b.turned_over()), -sign, "{a:?} {b:?}");
        assert_eq!(link_sign(&a.turned_over(), &b.turned_over()), sign, "{a:?} {b:?}");
        // A mirror keeps which way a path runs along its points, so fronts are mirrored and swapped.
        let flip = |c: &Circle| {
            let mirror = |v: DVec3| DVec3::new(v.x, -v.y, v.z);
            Circle { centre: mirror(c.centre), normal: -mirror(c.normal), radius: c.radius }
        };
        assert_eq!(link_sign(&flip(&a), &flip(&b)), -sign, "{a:?} {b:?}");
    }
}

#[test]
fn signs_do_not_change_when_the_pair_is_moved() {
    let mut dice = Dice(13);
    for (a, b) in pairs(14, 5_000) {
        let turn = DQuat::from_axis_angle(dice.inside_ball(1.0).normalize(), dice.between(0.0, TAU));
        let shift = dice.inside_ball(50.0);
        let moved = |c: &Circle| Circle::new(turn * c.centre + shift, turn * c.normal, c.radius).unwrap();
        assert_eq!(link_sign(&moved(&a), &moved(&b)), link_sign(&a, &b), "{a:?} {b:?}");
    }
}

#[test]
fn the_sign_is_what_the_margins_say() {
    for (a, b) in pairs(15, 20_000) {
        let found = crossing(&a, &b);
        for wanted in [-1, 0, 1] {
            assert_eq!(found.margin(wanted) > 0.0, wanted == found.sign(), "{found:?} {wanted} {a:?} {b:?}");
        }
    }
}

/// Small moves change the three numbers little: no more than the move, but for the square root with
/// which the two points part when the ring comes through the plane.
#[test]
fn crossings_change_without_jumps() {
    let mut dice = Dice(16);
    for (a, b) in pairs(17, 5_000) {
        let step = 1e-7;
        let moved = Circle { centre: b.centre + dice.inside_ball(step), ..b };
        let (one, two) = (crossing(&a, &b), crossing(&a, &moved));
        let sine = a.normal.cross(b.normal).length();
        let most = step / sine + 2.0 * (2.0 * b.radius * step / sine).sqrt();
        for (x, y) in [(one.reach, two.reach), (one.down, two.down), (one.up, two.up)] {
            assert!((x - y).abs() <= most, "{one:?} {two:?} {a:?} {b:?}");
        }
    }
}

#[test]
fn parallel_and_coplanar_rings_are_not_linked() {
    let normal = DVec3::new(1.0, 2.0, 3.0);
    let a = Circle::new(DVec3::new(0.3, -0.2, 5.0), normal, 4.0).unwrap();
    let (u, v) = a.axes();
    for side in [a, a.turned_over()] {
        for shift in [DVec3::ZERO, u, u * 3.0 + v, u * 8.0, v * 20.0, a.normal, u * 4.0 + a.normal * 1e-9] {
            for radius in [4.0, 2.0, 9.0] {
                let b = Circle { centre: side.centre + shift, radius, ..side };
                assert_eq!((link_sign(&a, &b), link_sign(&b, &a)), (0, 0), "{shift:?} {radius}");
                let found = crossing(&a, &b);
                assert!([found.reach, found.down, found.up].iter().all(|x| x.is_finite()), "{found:?}");
            }
        }
    }
}

#[test]
fn nearly_parallel_rings_link_the_way_they_lean() {
    // Two rings of one plane, overlapping, one tilted a little about the line of the two centres.
    for tilt in [1e-3, 1e-6, 1e-9] {
        let a = Circle::new(DVec3::ZERO, DVec3::Z, 5.0).unwrap();
        let lean = |by: f64| Circle::new(DVec3::X * 4.0, DVec3::new(0.0, by, 1.0), 5.0).unwrap();
        // The common line is the x-axis: b meets it at −1, inside a, and at 9, outside.
        assert_eq!(link_sign(&a, &lean(tilt)), 1);
        assert_eq!(link_sign(&a, &lean(-tilt)), -1);
    }
}

#[test]
fn odd_numbers_do_no_harm() {
    for bad in [f64::NAN, f64::INFINITY, 1e308, 0.0, -1.0, 5e-324] {
        let a = Circle { centre: DVec3::splat(bad), normal: DVec3::Z, radius: 1.0 };
        let b = Circle { centre: DVec3::ZERO, normal: DVec3::new(bad, 0.0, 1.0), radius: bad };
        for (x, y) in [(&a, &b), (&b, &a), (&a, &a), (&b, &b)] {
            let sign = link_sign(x, y);
            assert!((-1..=1).contains(&sign));
        }
        assert!(Circle::new(DVec3::splat(f64::NAN), DVec3::Z, 1.0).is_none());
        assert!(Circle::new(DVec3::ZERO, DVec3::ZERO, 1.0).is_none());
        assert!(Circle::new(DVec3::ZERO, DVec3::Z, 0.0).is_none());
        assert!(Circle::new(DVec3::ZERO, DVec3::Z * f64::INFINITY, 1.0).is_none());
    }
    let far = Circle::new(DVec3::ZERO, DVec3::new(3e300, 0.0, 4e300), 1.0).unwrap();
    assert!((far.normal - DVec3::new(0.6, 0.0, 0.8)).length() < 1e-15);
    assert!(Circle::new(DVec3::ZERO, DVec3::new(3e-310, 0.0, 4e-310), 1.0).is_some());
}
