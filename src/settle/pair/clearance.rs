//! How near two rings come to each other, at every place where they come near.
//!
//! The nearest point of a circle to a given point is known in closed form, so the distance between two
//! circles is a function of one angle; its stationary points are roots of a polynomial of degree 8.
//! That much is D. Vranek, "Fast and accurate circle–circle and circle–line 3D distance computation",
//! J. Graphics Tools 7 (2002), and D. Eberly's note "Distance to circles in 3D" (both named from
//! memory). Here the polynomial only separates the roots, by halving in Bernstein form; the minima
//! themselves are then found on the distance, whose rounding is far smaller.

use super::circle::Circle;
use super::minima::{MOST, minima};
use super::profile::Profile;
use arrayvec::ArrayVec;
use glam::DVec3;

/// One place where two core circles come nearer than anywhere around it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Clearance {
    /// Distance between the two points, mm. The rings touch there when it is half the sum of their
    /// wires.
    pub distance: f64,
    /// The point on the first circle.
    pub on_a: DVec3,
    /// The point on the second circle.
    pub on_b: DVec3,
}

/// The clearances of a pair of rings, the smallest first: three at most, or four to stand for a pair
/// that is at the same distance all round.
pub type Clearances = ArrayVec<Clearance, MOST>;

/// Every local minimum of the distance between two core circles, to within 1e-9 mm for rings under a
/// metre. (Circles as good as equal, within 1e-8 of their size of each other all round, are known only
/// to that: squares of such distances are lost in rounding.)
///
/// Some pairs are at the same distance all round: rings on one axis in parallel planes, two tight
/// linked rings each centred on the other's wire, a ring lying along another as two bands of one torus
/// (Villarceau's circles). They have no separate minima; four points a quarter turn apart stand for
/// all. A pair almost like that has the minima it has, and small moves shift them far: a solver should
/// watch more points than these ([`Circle::nearest`]).
///
/// Circles with a number that is not finite, or a radius that is not positive, have no clearances.
pub fn clearances(a: &Circle, b: &Circle) -> Clearances {
    // The smaller runs: points of a ring that circles a wire are all at one distance from the wire,
    // which can only be seen from the ring.
    let swapped = b.radius < a.radius;
    let (runner, fixed) = if swapped { (*b, *a) } else { (*a, *b) };
    let Some(profile) = Profile::new(runner, fixed) else { return Clearances::new() };
    let clearance = |turn| {
        let (distance, on_runner, on_fixed) = profile.pair(turn);
        let (on_a, on_b) = if swapped { (on_fixed, on_runner) } else { (on_runner, on_fixed) };
        Clearance { distance, on_a, on_b }
    };
    let mut found: Clearances = minima(&profile).into_iter().map(clearance).collect();
    found.sort_by(|one, two| one.distance.total_cmp(&two.distance));
    found
}

/// The clearances smaller than `limit` mm. Pairs that are plainly farther apart cost next to nothing.
pub fn clearances_below(a: &Circle, b: &Circle, limit: f64) -> Clearances {
    if at_least(a, b) >= limit {
        return Clearances::new();
    }
    let mut found = clearances(a, b);
    found.retain(|clearance| clearance.distance < limit);
    found
}

/// A distance in mm that the two circles are certain to keep.
fn at_least(a: &Circle, b: &Circle) -> f64 {
    let between = b.centre - a.centre;
    let sine = a.normal.cross(b.normal).length();
    let (over_a, over_b) = (between.dot(a.normal), between.dot(b.normal));
    let planes = (over_a.abs() - sine * b.radius).max(over_b.abs() - sine * a.radius);
    let from_a = spheres(over_b, (between - b.normal * over_b).length(), a.radius, b.radius);
    let from_b = spheres(over_a, (between - a.normal * over_a).length(), b.radius, a.radius);
    planes.max(from_a).max(from_b)
}

/// All points of one circle are as far from its own centre as its radius, and those of the other lie
/// between two spheres about that centre, which is `over` the other's plane and `aside` of its axis.
fn spheres(over: f64, aside: f64, own: f64, other: f64) -> f64 {
    let distance = |across: f64| (across * across + over * over).sqrt();
    (distance(aside - other) - own).max(own - distance(aside + other))
}
