//! A pose as it lies on the bench: flat, front up, first ring at the left; and what the text says of how
//! rings lie.

use super::Circle;
use super::find::has_links;
use super::outline::{eye_tip, lies_over};
use super::problem::{Pose, Problem};
use crate::notation::{Hand, Side};
use crate::pattern::{Lies, Pattern, Target};
use crate::rings::Cell;
use glam::DVec3;

/// A pose that lies flat and satisfies every lying statement.
#[derive(Clone, Debug)]
pub struct View {
    /// The pose, the chain along x, the front towards +z, the far side towards +y.
    pub pose: Pose,
    /// How the eyes tip, in degrees from upright, in the order of the text: below 0 to the left.
    pub tips: Vec<f64>,
}

impl View {
    /// The lean: the way all eyes tip; `None` where there are none, or where they do not agree.
    pub fn lean(&self) -> Option<Hand> {
        match self.tips.as_slice() {
            [] => None,
            tips if tips.iter().all(|t| *t < 0.0) => Some(Hand::Left),
            tips if tips.iter().all(|t| *t > 0.0) => Some(Hand::Right),
            _ => None,
        }
    }
}

/// Every way of laying a pose of a straight chain, or its mirror image where that has the same links, on
/// the bench so that the rings of every eye face one way and all lying statements hold: with the one face
/// up or the other.
///
/// The pose must be of one repeat of `cell`, not of two taken as one.
pub fn views(pattern: &Pattern, cell: &Cell, problem: &Problem, pose: &Pose) -> Vec<View> {
    if pose.twist != 0.0 || problem.ways != 1 || pose.rings.len() != cell.graph.node_count() {
        return Vec::new();
    }
    let flat = turned_about_length(pose, thinnest(pose));
    let mirror = oriented(problem, &mirrored(&flat));
    let mut views = Vec::new();
    for pose in [Some(flat), mirror].into_iter().flatten() {
        for angle in [0.0, std::f64::consts::PI] {
            let pose = turned_about_length(&pose, angle);
            let seen = Seen { pattern, cell, pose: &pose };
            if seen.eyes_face_one_way() && pattern.lying.iter().all(|l| seen.holds(&l.lies)) {
                let tips = seen.tips();
                views.push(View { pose, tips });
            }
        }
    }
    views
}

/// The angle to turn a chain by about its length to make it thinnest from front to back.
fn thinnest(pose: &Pose) -> f64 {
    const STEPS: u32 = 720;
    let thickness = |angle: f64| {
        let (sin, cos) = libm::sincos(angle);
        let up = DVec3::new(0.0, -sin, cos);
        let reach = |r: &Circle, sign: f64| {
            let along = r.normal.dot(up);
            sign * r.centre.dot(up) + r.radius * (1.0 - along * along).max(0.0).sqrt()
        };
        let most = |sign: f64| pose.rings.iter().map(|r| reach(r, sign)).fold(f64::NEG_INFINITY, f64::max);
        most(1.0) + most(-1.0)
    };
    let step = std::f64::consts::PI / f64::from(STEPS);
    let least = (0..STEPS).map(|k| step * f64::from(k)).min_by(|a, b| thickness(*a).total_cmp(&thickness(*b)));
    let (mut low, mut high) = (least.unwrap_or(0.0) - step, least.unwrap_or(0.0) + step);
    // Narrowing by thirds; the thickness falls and rises once within a step.
    for _ in 0..60 {
        let (one, other) = (low + (high - low) / 3.0, high - (high - low) / 3.0);
        if thickness(one) < thickness(other) { high = other } else { low = one }
    }
    // What is looked at from `up` comes to lie along z when the chain is turned back by the angle.
    -0.5 * (low + high)
}

/// A pose turned about the x axis.
fn turned_about_length(pose: &Pose, angle: f64) -> Pose {
    let (sin, cos) = libm::sincos(angle);
    let turn = |v: DVec3| DVec3::new(v.x, cos * v.y - sin * v.z, sin * v.y + cos * v.z);
    let rings = pose.rings.iter().map(|r| Circle { centre: turn(r.centre), normal: turn(r.normal), ..*r }).collect();
    Pose { rings, ..pose.clone() }
}

/// The mirror image, far and near exchanged.
fn mirrored(pose: &Pose) -> Pose {
    let across = |v: DVec3| DVec3::new(v.x, -v.y, v.z);
    let rings =
        pose.rings.iter().map(|r| Circle { centre: across(r.centre), normal: across(r.normal), ..*r }).collect();
    Pose { rings, ..pose.clone() }
}

/// The pose with rings turned over so that all links have the sign wanted; `None` where no turning does it.
fn oriented(problem: &Problem, pose: &Pose) -> Option<Pose> {
    for along in [false, true] {
        let mut pose = pose.clone();
        pose.turned[0] ^= along && problem.ways > 0;
        let mut over: Vec<Option<bool>> = vec![None; pose.rings.len()];
        while let Some(start) = over.iter().position(Option::is_none) {
            *over.get_mut(start)? = Some(false);
            let mut open = vec![start];
            while let Some(ring) = open.pop() {
                let own = (*over.get(ring)?)?;
                for link in problem.links.iter().filter(|l| l.from == ring || l.to == ring) {
                    let other = if link.from == ring { link.to } else { link.from };
                    let sign = super::link_sign(pose.rings.get(link.from)?, &pose.image(link.to, link.shift)?);
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
        if has_links(problem, &pose) {
            return Some(pose);
        }
    }
    None
}

struct Seen<'s> {
    pattern: &'s Pattern,
    cell: &'s Cell,
    pose: &'s Pose,
}

impl Seen<'_> {
    fn circle(&self, target: &Target) -> Option<Circle> {
        let ring = self.cell.ring(target.family, target.offset)?;
        self.pose.image(ring.index(), self.cell.fold(target.offset).1)
    }

    /// Whether the two rings of every eye have their fronts the same way, as an eye says. Turning over every
    /// second ring of a row keeps all links but not this: `through` and `around` would change places.
    fn eyes_face_one_way(&self) -> bool {
        self.eyes().all(|(a, b)| a.normal.dot(b.normal) > 0.0)
    }

    fn eyes(&self) -> impl Iterator<Item = (Circle, Circle)> + '_ {
        let eyes = self.pattern.passes.iter().flat_map(|p| &p.meets).filter(|m| m.eye);
        eyes.filter_map(|m| Some((self.circle(m.at.first()?)?, self.circle(m.at.get(1)?)?)))
    }

    /// Whether a lying statement holds. What is said of folding and of between is not looked at yet.
    fn holds(&self, lies: &Lies) -> bool {
        match lies {
            Lies::Behind(one, other) => self.over(other, one),
            Lies::Over(one, other) => self.over(one, other),
            Lies::On(ring, side) => self.on(ring, *side).unwrap_or(false),
            Lies::Between(..) | Lies::Folded(..) => true,
        }
    }

    fn over(&self, one: &Target, other: &Target) -> bool {
        let pair = self.circle(one).zip(self.circle(other));
        pair.and_then(|(a, b)| lies_over(&a, &b)) == Some(true)
    }

    /// Whether a ring lies farther to that side than the rings it is linked with do on the whole.
    fn on(&self, ring: &Target, side: Side) -> Option<bool> {
        let own = self.cell.ring(ring.family, ring.offset)?.index();
        let rings = &self.pose.rings;
        let around: Vec<f64> = self
            .cell
            .graph
            .neighbors(petgraph::graph::NodeIndex::new(own))
            .filter_map(|n| rings.get(n.index()).map(|r| r.centre.y))
            .collect();
        let count = u32::try_from(around.len()).ok().filter(|n| *n > 0)?;
        let middle = around.iter().sum::<f64>() / f64::from(count);
        let y = rings.get(own)?.centre.y;
        Some(if side == Side::Far { y > middle } else { y < middle })
    }

    fn tips(&self) -> Vec<f64> {
        self.eyes().filter_map(|(a, b)| eye_tip(&a, &b)).collect()
    }
}
