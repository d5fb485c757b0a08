//! Finding a pose with the wanted links and thin wire: from a random start, downhill on a penalty that
//! is zero when every wanted link crosses with a margin and every other pair is unlinked by a margin.

use super::problem::{Pose, Problem};
use super::{Circle, crossing};
use glam::DVec3;
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;

/// Steps downhill from one start.
const MOST_STEPS: usize = 300;
/// The margin of each link, as a part of the mean core radius.
const MARGIN: f64 = 0.12;

/// A pose with the wanted links from start number `start`, rings of every second repeat turned over along
/// the ways `turned`; `None` where the way downhill ends elsewhere.
pub fn find(problem: &Problem, turned: [bool; 2], start: u64) -> Option<Pose> {
    let mut random = ChaCha8Rng::seed_from_u64(start);
    let mean = problem.mean_radius();
    let mut at = random_start(problem, &mut random);
    let penalty = |x: &[f64]| penalty(problem, &pose_of(problem, x, turned), MARGIN * mean);
    let value = downhill(&penalty, &mut at);
    let pose = pose_of(problem, &at, turned);
    (value < 1e-12 * mean * mean && has_links(problem, &pose)).then_some(pose)
}

/// Whether every pair of the pose has the sign that is wanted.
pub fn has_links(problem: &Problem, pose: &Pose) -> bool {
    let wanted_near = problem.links.iter().all(|l| match (pose.rings.get(l.from), pose.image(l.to, l.shift)) {
        (Some(a), Some(b)) => super::link_sign(a, &b) == problem.wanted(l.from, l.to, l.shift),
        _ => false,
    });
    wanted_near
        && pose.pairs(0.0).into_iter().all(|(i, j, shift)| match (pose.rings.get(i), pose.image(j, shift)) {
            (Some(a), Some(b)) => super::link_sign(a, &b) == problem.wanted(i, j, shift),
            _ => false,
        })
}

/// Numbers of a pose: centre and normal of each ring, then the shifts. In units of the mean radius.
fn random_start(problem: &Problem, random: &mut ChaCha8Rng) -> Vec<f64> {
    let mut x = Vec::new();
    let mut around = |scale: f64| (random.random::<f64>() - 0.5) * 2.0 * scale;
    for _ in &problem.rings {
        x.extend((0..3).map(|_| around(1.0)));
        x.extend((0..3).map(|_| around(1.0)));
    }
    if problem.ways >= 1 {
        x.push(1.0 + around(0.7));
    }
    if problem.ways >= 2 {
        x.extend([around(1.0), 1.0 + around(0.7)]);
    }
    if problem.spiral {
        x.push(around(3.1));
    }
    x
}

fn pose_of(problem: &Problem, x: &[f64], turned: [bool; 2]) -> Pose {
    let mean = problem.mean_radius();
    let mut numbers = x.iter().copied();
    let mut next = || numbers.next().unwrap_or(0.0);
    let mut rings = Vec::with_capacity(problem.rings.len());
    for size in &problem.rings {
        let centre = DVec3::new(next(), next(), next()) * mean;
        let normal = DVec3::new(next(), next(), next());
        rings.push(Circle { centre, normal: normal.try_normalize().unwrap_or(DVec3::Z), radius: size.radius });
    }
    let mut ways = [DVec3::ZERO; 2];
    if problem.ways >= 1 {
        ways[0] = DVec3::X * next().abs().max(0.05) * mean;
    }
    if problem.ways >= 2 {
        ways[1] = DVec3::new(next(), next().abs().max(0.05), 0.0) * mean;
    }
    let twist = if problem.spiral { next() } else { 0.0 };
    Pose { rings, ways, twist, turned }
}

/// Sum over all pairs of the square of what each lacks of its margin, mm².
fn penalty(problem: &Problem, pose: &Pose, margin: f64) -> f64 {
    let mut sum = 0.0;
    let mut near = std::collections::BTreeSet::new();
    let mut lack = |i: usize, j: usize, shift: [i32; 2]| {
        if let (Some(a), Some(b)) = (pose.rings.get(i), pose.image(j, shift)) {
            let wanted = problem.wanted(i, j, shift);
            // Seen from either ring, a link has the same sign but another margin; both are wanted.
            let lacks = (margin - crossing(a, &b).margin(wanted)).max(0.0);
            let back = (margin - crossing(&b, a).margin(wanted)).max(0.0);
            // Linked rings that are far apart must be drawn together.
            let far = if wanted == 0 { 0.0 } else { (a.centre.distance(b.centre) - a.radius - b.radius).max(0.0) };
            sum += lacks * lacks + back * back + far * far;
        }
    };
    for (i, j, shift) in pose.pairs(margin) {
        near.insert((i, j, shift));
        lack(i, j, shift);
    }
    for l in &problem.links {
        let back = [-l.shift[0], -l.shift[1]];
        if !near.contains(&(l.from, l.to, l.shift)) && !near.contains(&(l.to, l.from, back)) {
            lack(l.from, l.to, l.shift);
        }
    }
    sum
}

/// Quasi-Newton descent (BFGS with backtracking; Nocedal, Wright, Numerical Optimization, 2006, ch. 6, from
/// memory) with central differences for the slope. Returns the value reached.
fn downhill(value: &dyn Fn(&[f64]) -> f64, x: &mut Vec<f64>) -> f64 {
    let n = x.len();
    let slope = |x: &[f64]| -> Vec<f64> {
        const STEP: f64 = 1e-6;
        let mut y = x.to_vec();
        (0..n)
            .map(|i| {
                let mut at = |by: f64| {
                    if let (Some(slot), Some(old)) = (y.get_mut(i), x.get(i)) {
                        *slot = old + by;
                    }
                    value(&y)
                };
                let difference = at(STEP) - at(-STEP);
                at(0.0);
                difference / (2.0 * STEP)
            })
            .collect()
    };
    let dot = |a: &[f64], b: &[f64]| a.iter().zip(b).map(|(x, y)| x * y).sum::<f64>();
    let unit = || (0..n).map(|i| (0..n).map(|j| f64::from(u8::from(i == j))).collect::<Vec<f64>>()).collect::<Vec<_>>();
    let mut inverse = unit();
    let mut here = value(x);
    let mut grade = slope(x);
    for _ in 0..MOST_STEPS {
        if here < 1e-14 {
            break;
        }
        let mut way: Vec<f64> = inverse.iter().map(|row| -dot(row, &grade)).collect();
        if dot(&way, &grade) >= 0.0 {
            inverse = unit();
            way = grade.iter().map(|g| -g).collect();
        }
        let longest = dot(&way, &way).sqrt();
        let mut step = if longest > 0.5 { 0.5 / longest } else { 1.0 };
        let fall = dot(&way, &grade);
        let mut moved = None;
        for _ in 0..30 {
            let there: Vec<f64> = x.iter().zip(&way).map(|(a, b)| a + step * b).collect();
            let reached = value(&there);
            if reached < here + 1e-4 * step * fall {
                moved = Some((there, reached));
                break;
            }
            step *= 0.5;
        }
        let Some((there, reached)) = moved else { break };
        let new_grade = slope(&there);
        let s: Vec<f64> = there.iter().zip(x.iter()).map(|(a, b)| a - b).collect();
        let y: Vec<f64> = new_grade.iter().zip(&grade).map(|(a, b)| a - b).collect();
        let curvature = dot(&s, &y);
        if curvature > 1e-12 {
            let hy: Vec<f64> = inverse.iter().map(|row| dot(row, &y)).collect();
            let scale = (1.0 + dot(&y, &hy) / curvature) / curvature;
            for ((row, si), hyi) in inverse.iter_mut().zip(&s).zip(&hy) {
                for ((cell, sj), hyj) in row.iter_mut().zip(&s).zip(&hy) {
                    *cell += scale * si * sj - (hyi * sj + si * hyj) / curvature;
                }
            }
        }
        *x = there;
        grade = new_grade;
        if here - reached < 1e-16 {
            here = reached;
            break;
        }
        here = reached;
    }
    here
}
