//! Chains that do not close straight, but do when each repeat may turn: about the length of the chain, which
//! twists it, or about an axis beside it, which curls it.

use crate::settle::pair::Circle;
use crate::settle::solve::{Effort, Tight, tighten_with};
use crate::settle::solve::{Pose, Problem, thinnest, turned};
use glam::{DMat3, DVec3};
use std::f64::consts::FRAC_PI_2;

/// Turns tried at first, radians a repeat.
const TURNS: [f64; 2] = [0.15, -0.15];
/// Radius at first of a curled chain, in mean core radii.
const BEND: f64 = 12.0;

/// How a chain closes that has no room when it is straight.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Curled {
    /// Turn of each repeat, degrees.
    pub turn_deg: f64,
    /// Mean diameter, mm, of the circle of a chain that curls, measured through the middles of the rings; `None` for a
    /// chain that twists about its own length.
    pub across: Option<f64>,
}

/// How a chain closes at its sizes when it need not be straight; `None` where nothing is found from the
/// straight pose.
pub(crate) fn closes_curled(problem: &Problem, straight: &Tight) -> Option<Curled> {
    let free = Problem { spiral: true, ..problem.clone() };
    let twisted = TURNS.iter().map(|turn| Pose { twist: *turn, ..straight.pose.clone() });
    let flat = turned(&straight.pose, DMat3::from_rotation_x(thinnest(&straight.pose)));
    // Over its face, over its back, and over either edge.
    let quarters = [0.0, 2.0, 1.0, 3.0];
    let ways =
        quarters.map(|q| bent(&turned(&flat, DMat3::from_rotation_x(q * FRAC_PI_2)), BEND * problem.mean_radius()));
    twisted.chain(ways).find_map(|pose| {
        let tight = tighten_with(&free, pose, Effort::until(1.0));
        (tight.scale >= 1.0).then(|| {
            let count = u32::try_from(tight.pose.rings.len()).map_or(1.0, f64::from).max(1.0);
            let aside: f64 = tight.pose.rings.iter().map(|r| libm::hypot(r.centre.y, r.centre.z)).sum();
            let aside = aside / count;
            let across = (aside > 1.5 * problem.mean_radius()).then_some(2.0 * aside);
            Curled { turn_deg: tight.pose.twist.to_degrees(), across }
        })
    })
}

/// A straight chain laid round the x axis at a distance, its +z outwards.
fn bent(pose: &Pose, radius: f64) -> Pose {
    let rings = pose.rings.iter().map(|r| {
        let (sin, cos) = libm::sincos(r.centre.x / radius);
        // Along, across and up become round, along the axis and outwards.
        let placed = |v: DVec3| DVec3::new(v.y, -v.x * cos - v.z * sin, -v.x * sin + v.z * cos);
        let out = r.centre.z + radius;
        Circle { centre: DVec3::new(r.centre.y, -out * sin, out * cos), normal: placed(r.normal), ..*r }
    });
    // Not quite nothing along the axis: a chain that does not get on has no images.
    let ways = [DVec3::X * (1e-3 * radius), DVec3::ZERO];
    Pose { rings: rings.collect(), ways, twist: pose.ways[0].x / radius, turned: pose.turned }
}
