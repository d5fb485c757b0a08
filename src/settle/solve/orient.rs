//! Turning a pose on the bench: flat, over, and to its mirror image.

use super::find::has_links;
use super::problem::{Pose, Problem};
use crate::settle::pair::Circle;
use glam::{DMat3, DVec3};
use std::f64::consts::PI;

/// Every way a pose may be laid on the bench: a straight chain flat along x, with the one face up or the
/// other; a sheet in its plane, rows and columns as they are; a spiral as it is; a unit flat, with the one
/// face up or the other. Each also as its mirror image, where that has the same links. What lies flat are the
/// rings of `base`, whatever accents stand out of them.
pub(crate) fn laid(problem: &Problem, pose: &Pose, base: &dyn Fn(usize) -> bool) -> Vec<Pose> {
    let rings = pose.rings.iter().enumerate().filter(|(ring, _)| base(*ring)).map(|(_, circle)| *circle);
    let strip = Pose { rings: rings.collect(), ..pose.clone() };
    let flat = match problem.ways {
        0 => turned(pose, flattest(&strip)),
        1 if !problem.spiral => turned(pose, DMat3::from_rotation_x(thinnest(&strip))),
        _ => pose.clone(),
    };
    let across = if problem.ways == 2 { DVec3::new(1.0, 1.0, -1.0) } else { DVec3::new(1.0, -1.0, 1.0) };
    let mirror = oriented(problem, &mirrored(&flat, across));
    let over = problem.ways < 2 && !problem.spiral;
    let mut all = Vec::new();
    for pose in [Some(flat), mirror].into_iter().flatten() {
        let back = over.then(|| turned(&pose, DMat3::from_diagonal(DVec3::new(1.0, -1.0, -1.0))));
        all.push(pose);
        all.extend(back);
    }
    all
}

/// How far a pose reaches along a direction, wire left out, mm: its least and greatest height over the
/// origin. Only the rings of one repeat are looked at.
pub(crate) fn reach(pose: &Pose, along: DVec3) -> (f64, f64) {
    let mut reach = (f64::INFINITY, f64::NEG_INFINITY);
    for ring in &pose.rings {
        let tilt = ring.normal.dot(along);
        let half = ring.radius * (1.0 - tilt * tilt).max(0.0).sqrt();
        let middle = ring.centre.dot(along);
        reach = (reach.0.min(middle - half), reach.1.max(middle + half));
    }
    reach
}

fn thickness(pose: &Pose, along: DVec3) -> f64 {
    let (low, high) = reach(pose, along);
    high - low
}

/// The angle to turn a chain by about its length to make it thinnest from front to back.
pub(crate) fn thinnest(pose: &Pose) -> f64 {
    let up = |angle: f64| {
        let (sin, cos) = libm::sincos(angle);
        DVec3::new(0.0, -sin, cos)
    };
    // What is looked at from `up` comes to lie along z when the chain is turned back by the angle.
    -least(&|angle| thickness(pose, up(angle)))
}

/// The angle from 0 to a half turn at which a value is least.
fn least(value: &dyn Fn(f64) -> f64) -> f64 {
    const STEPS: u32 = 720;
    let step = PI / f64::from(STEPS);
    let near = (0..STEPS).map(|k| step * f64::from(k)).min_by(|a, b| value(*a).total_cmp(&value(*b)));
    let (mut low, mut high) = (near.unwrap_or(0.0) - step, near.unwrap_or(0.0) + step);
    // Narrowing by thirds; the value falls and rises once within a step.
    for _ in 0..60 {
        let (one, other) = (low + (high - low) / 3.0, high - (high - low) / 3.0);
        if value(one) < value(other) { high = other } else { low = one }
    }
    0.5 * (low + high)
}

/// The turning that makes a unit thinnest along z and then longest along x, about where it lies.
fn flattest(pose: &Pose) -> DMat3 {
    const STEPS: u32 = 48;
    let direction = |up: f64, round: f64| {
        let (sin, cos) = libm::sincos(up);
        let (s, c) = libm::sincos(round);
        DVec3::new(sin * c, sin * s, cos)
    };
    let (mut best, mut at) = (f64::INFINITY, (0.0, 0.0));
    let mut step = PI / f64::from(STEPS);
    for k in 0..=STEPS / 2 {
        for l in 0..2 * STEPS {
            let there = (step * f64::from(k), step * f64::from(l));
            let here = thickness(pose, direction(there.0, there.1));
            if here < best - 1e-12 {
                (best, at) = (here, there);
            }
        }
    }
    while step > 1e-9 {
        let around = [(step, 0.0), (-step, 0.0), (0.0, step), (0.0, -step)].map(|(a, b)| (at.0 + a, at.1 + b));
        let better = around.into_iter().find(|t| thickness(pose, direction(t.0, t.1)) < best - 1e-12);
        match better {
            Some(there) => (best, at) = (thickness(pose, direction(there.0, there.1)), there),
            None => step *= 0.5,
        }
    }
    let z = direction(at.0, at.1);
    let (u, v) = z.any_orthonormal_pair();
    let side = |angle: f64| {
        let (sin, cos) = libm::sincos(angle);
        u * cos + v * sin
    };
    let x = side(least(&|angle| -thickness(pose, side(angle))));
    DMat3::from_cols(x, z.cross(x), z).transpose()
}

/// A pose turned in space, the way it repeats with it.
pub(crate) fn turned(pose: &Pose, by: DMat3) -> Pose {
    let rings = pose.rings.iter().map(|r| Circle { centre: by * r.centre, normal: by * r.normal, ..*r }).collect();
    Pose { rings, ways: pose.ways.map(|w| by * w), ..pose.clone() }
}

/// The mirror image: every place times `across`.
fn mirrored(pose: &Pose, across: DVec3) -> Pose {
    let rings =
        pose.rings.iter().map(|r| Circle { centre: across * r.centre, normal: across * r.normal, ..*r }).collect();
    Pose { rings, twist: -pose.twist, ..pose.clone() }
}

/// The pose with rings turned over so that all links have the sign wanted; `None` where no turning does it.
fn oriented(problem: &Problem, pose: &Pose) -> Option<Pose> {
    problem.turnings().iter().find_map(|choice| {
        let mut pose = pose.clone();
        for (turned, flip) in pose.turned.iter_mut().zip(choice) {
            *turned ^= flip;
        }
        let mut over: Vec<Option<bool>> = vec![None; pose.rings.len()];
        while let Some(start) = over.iter().position(Option::is_none) {
            *over.get_mut(start)? = Some(false);
            let mut open = vec![start];
            while let Some(ring) = open.pop() {
                let own = (*over.get(ring)?)?;
                for link in problem.links.iter().filter(|l| l.from == ring || l.to == ring) {
                    let other = if link.from == ring { link.to } else { link.from };
                    let sign =
                        crate::settle::pair::link_sign(pose.rings.get(link.from)?, &pose.image(link.to, link.shift)?);
                    if let Some(slot @ None) = over.get_mut(other) {
                        *slot = Some(own ^ (sign != link.sign));
                        open.push(other);
                    }
                }
            }
        }
        for (ring, over) in pose.rings.iter_mut().zip(&over) {
            if *over == Some(true) {
                *ring = ring.turned_over();
            }
        }
        has_links(problem, &pose).then_some(pose)
    })
}
