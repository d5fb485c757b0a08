//! Two rings as they are seen from the front, looking against z: where their outlines cross, which is
//! nearer there, and how the lens between them tips.

use super::circle::Circle;
use glam::DVec3;

/// Steps round an outline in which crossings are looked for.
const STEPS: u32 = 720;

/// Where two outlines cross: the points of the two rings that are seen in one place.
#[derive(Clone, Copy, Debug)]
pub struct OutlineCrossing {
    /// On the first.
    pub on_a: DVec3,
    /// On the second.
    pub on_b: DVec3,
}

/// Every crossing of the outlines of two core circles, seen along z, in the order round the first. Rings
/// seen edge on have none. Lengths as those of the circles.
pub fn outline_crossings(a: &Circle, b: &Circle) -> Vec<OutlineCrossing> {
    let axes = a.axes();
    let point = |angle: f64| {
        let (sin, cos) = libm::sincos(angle);
        a.centre + (axes.0 * cos + axes.1 * sin) * a.radius
    };
    // How far inside the second outline a point is seen: above 0 inside.
    let inside = |p: DVec3| {
        let seen = seen_on(b, p)?;
        Some(b.radius - (seen - b.centre).length())
    };
    let step = std::f64::consts::TAU / f64::from(STEPS);
    let mut crossings = Vec::new();
    for k in 0..STEPS {
        let (mut low, mut high) = (step * f64::from(k), step * f64::from(k + 1));
        let (Some(at_low), Some(at_high)) = (inside(point(low)), inside(point(high))) else { return Vec::new() };
        if (at_low > 0.0) == (at_high > 0.0) {
            continue;
        }
        for _ in 0..50 {
            let middle = 0.5 * (low + high);
            match inside(point(middle)) {
                Some(m) if (m > 0.0) == (at_low > 0.0) => low = middle,
                _ => high = middle,
            }
        }
        let on_a = point(low);
        if let Some(on_b) = seen_on(b, on_a) {
            crossings.push(OutlineCrossing { on_a, on_b });
        }
    }
    crossings
}

/// The point in the plane of a ring that is seen where `p` is; `None` for a ring seen edge on.
fn seen_on(ring: &Circle, p: DVec3) -> Option<DVec3> {
    const EDGE_ON: f64 = 1e-9;
    let flat = ring.normal.z;
    if flat.abs() < EDGE_ON {
        return None;
    }
    let away = p - ring.centre;
    let z = -(away.x * ring.normal.x + away.y * ring.normal.y) / flat;
    Some(DVec3::new(p.x, p.y, ring.centre.z + z))
}

/// Whether the first of two unlinked rings lies over the second wherever their outlines cross; `None`
/// where they do not cross, or where it is over at one place and under at another.
pub(crate) fn lies_over(a: &Circle, b: &Circle) -> Option<bool> {
    let crossings = outline_crossings(a, b);
    let over = crossings.iter().filter(|c| c.on_a.z > c.on_b.z).count();
    match over {
        _ if crossings.is_empty() => None,
        0 => Some(false),
        n if n == crossings.len() => Some(true),
        _ => None,
    }
}

/// How the eye of two rings tips, in degrees from upright: above 0 to the right, below 0 to the left. The
/// long axis of the eye runs through the two points where the outlines cross. `None` unless they cross in
/// just two points.
pub(crate) fn eye_tip(a: &Circle, b: &Circle) -> Option<f64> {
    let [one, other] = outline_crossings(a, b).try_into().ok()?;
    let axis = one.on_a - other.on_a;
    let axis = if axis.y < 0.0 { -axis } else { axis };
    Some(libm::atan2(axis.x, axis.y).to_degrees())
}
