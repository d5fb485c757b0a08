//! Where the search for a pose starts: rings thrown at random, or laid out as the links suggest.
//!
//! Many weaves are rows of rings that lie flat, held by rings woven through them. The links show which rings can lie
//! flat: rings of which no two are linked. A woven ring goes down through some of them and comes up through others,
//! so it stands on the line between. A layout that contradicts the links does no harm: the search ends elsewhere.

use super::net::Net;
use super::problem::Problem;
use glam::{DVec2, DVec3};
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;

/// How rings are laid out: how far a link spans, in mean core radii; how far flat rings lean, as shingles do,
/// along the first way; how far a woven ring leans from upright, as the tangent of half the angle.
struct Layout {
    span: f64,
    shingle: f64,
    lean: f64,
}

/// The layouts tried first, for chains and sheets: flat and wide, as where rings lie side by side, then closer
/// and shingled.
const LAYOUTS: [Layout; 4] = [
    Layout { span: 1.4, shingle: 0.0, lean: 0.0 },
    Layout { span: 1.2, shingle: 0.4, lean: 0.2 },
    Layout { span: 1.0, shingle: -0.4, lean: -0.5 },
    Layout { span: 0.9, shingle: 0.4, lean: 0.5 },
];
/// Every place and normal of a layout is changed at random by up to this much, in mean core radii: rings laid on one
/// place part, and no ring stands exactly where two directions downhill are equal.
const CHANCE: f64 = 0.08;

/// The numbers of start `number`, in the order of [`super::shortfall::Numbers`].
pub(crate) fn start(problem: &Problem, turned: [bool; 2], number: u64) -> Vec<f64> {
    let mut random = ChaCha8Rng::seed_from_u64(number);
    let layout = usize::try_from(number).ok().and_then(|number| LAYOUTS.get(number));
    let laid = layout.filter(|_| problem.ways > 0 && !problem.spiral);
    laid.and_then(|layout| laid_out(problem, turned, layout, &mut random))
        .unwrap_or_else(|| thrown(problem, &mut random))
}

/// A number between −`most` and `most`.
pub(crate) fn within(most: f64, random: &mut ChaCha8Rng) -> f64 {
    (random.random::<f64>() - 0.5) * 2.0 * most
}

fn thrown(problem: &Problem, random: &mut ChaCha8Rng) -> Vec<f64> {
    let mut x = Vec::new();
    for _ in &problem.rings {
        x.extend([(); 6].map(|()| within(1.0, random)));
    }
    if problem.ways >= 1 {
        x.push(1.0 + within(0.7, random));
    }
    if problem.ways >= 2 {
        x.extend([within(1.0, random), 1.0 + within(0.7, random)]);
    }
    if problem.spiral {
        x.push(within(3.1, random));
    }
    x
}

/// Rings in rows with others woven through; `None` where the links leave the lengths of the ways open.
fn laid_out(problem: &Problem, turned: [bool; 2], layout: &Layout, random: &mut ChaCha8Rng) -> Option<Vec<f64>> {
    let net = Net::of(problem);
    let ways = net.lattice(problem.ways, layout.span)?;
    let faces = net.faces(turned);
    let point = |repeats: DVec2| ways[0] * repeats.x + ways[1] * repeats.y;
    let mut x = Vec::new();
    for (number, size) in problem.rings.iter().enumerate() {
        let face = faces.get(number).copied().unwrap_or(0);
        let (off, normal) = if face == 0 {
            // The middle of all places where the ring passes flat ones downwards, or upwards.
            let middle = |sign: i8| {
                let through = net.ends(number).iter().filter(|end| end.passes(&faces, turned) == sign);
                let (sum, count) = through
                    .fold((DVec3::ZERO, 0.0), |(sum, count), end| (sum + point(net.span(number, end)), count + 1.0));
                (count > 0.0).then(|| sum / count)
            };
            let chance = DVec3::new(within(1.0, random), within(1.0, random), 0.0);
            standing(middle(1), middle(-1), size.radius / problem.mean_radius(), layout.lean, chance)
        } else {
            (DVec3::ZERO, DVec3::new(layout.shingle, 0.0, 1.0).normalize_or_zero() * f64::from(face))
        };
        for part in [point(net.place(number)) + off, normal] {
            x.extend(part.to_array().map(|part| part + within(CHANCE, random)));
        }
    }
    x.push(ways[0].x);
    if problem.ways >= 2 {
        x.extend([ways[1].x, ways[1].y]);
    }
    Some(x)
}

/// Centre and normal of a ring that goes down at one point and comes up at another, leaning to a side; upright for a
/// `lean` of 0. With only one point known, `chance` gives the direction to the other.
fn standing(down: Option<DVec3>, up: Option<DVec3>, radius: f64, lean: f64, chance: DVec3) -> (DVec3, DVec3) {
    let across = chance.normalize_or(DVec3::X);
    let (down, up) = match (down, up) {
        (Some(down), Some(up)) => (down, up),
        (Some(down), None) => (down, down - across * 2.0 * radius),
        (None, Some(up)) => (up + across * 2.0 * radius, up),
        (None, None) => (across * radius, -across * radius),
    };
    let across = (down - up).normalize_or(across);
    // Sine and cosine of the angle whose half has this tangent.
    let (sin, cos) = (2.0 * lean / (1.0 + lean * lean), (1.0 - lean * lean) / (1.0 + lean * lean));
    let side = DVec3::Z * cos + across.cross(DVec3::Z) * sin;
    let half = 0.5 * (down - up).length();
    let rise = (radius * radius - half * half).max(0.0).sqrt();
    // At the point down from the centre the path, along `across` × normal, is to run against z.
    (0.5 * (down + up) + side * rise, across.cross(side))
}
