//! A pose as it lies on the bench, front up; and what the text says of how rings lie.

use crate::notation::{Hand, Side};
use crate::pattern::{Lies, Lying, Pattern, Shift, Target};
use crate::rings::Cell;
use crate::settle::pair::{Circle, eye_tip, lies_over};
use crate::settle::solve::{Net, Pose, Problem, folded, laid, turned};
use crate::text::Span;
use glam::{DMat3, DVec3};

/// Eyes that tip by less than this many degrees stand upright.
const UPRIGHT: f64 = 0.1;
/// Eyes that tip by less may do so by chance.
const CLEARLY: f64 = 3.0;

/// Repeats that turn by an angle with a smaller sine turn neither way.
const STRAIGHT: f64 = 1e-3;
/// Rings nearer to the middle than this part of their core radius lie on no side.
const NO_SIDE: f64 = 0.05;

/// A pose laid on the bench in one way.
#[derive(Clone, Debug)]
pub struct View {
    /// The pose; the front towards +z. A chain runs along x, its far side towards +y.
    pub pose: Pose,
    /// How the eyes tip, in degrees from upright, in the order of the text: below 0 to the left.
    pub tips: Vec<f64>,
    /// Lying statements that do not hold, by number.
    pub broken: Vec<usize>,
    /// The words of eyes that are none: the fronts of their two rings do not face one way, or their outlines
    /// do not cross in two points.
    pub no_eyes: Vec<Span>,
    /// Whether all eyes face one way.
    facing: bool,
}

impl View {
    /// Whether all that the text says of lying holds, and the rings of every eye have their fronts the same
    /// way. Turning over every second ring of a row keeps all links but not this: `through` and `around` would
    /// change places.
    pub fn fits(&self) -> bool {
        self.facing && self.broken.is_empty()
    }

    /// Whether the rings of every eye have their fronts the same way.
    pub fn eyes_face_one_way(&self) -> bool {
        self.facing
    }

    /// The lean: the way all eyes tip; `None` where there are none, or where they do not agree.
    pub fn lean(&self) -> Option<Hand> {
        match self.tips.as_slice() {
            [] => None,
            tips if tips.iter().all(|t| *t < -UPRIGHT) => Some(Hand::Left),
            tips if tips.iter().all(|t| *t > UPRIGHT) => Some(Hand::Right),
            _ => None,
        }
    }

    /// Whether some eyes clearly tip one way and some the other. Where rings have room, they stand a little this way
    /// or that.
    pub fn lean_changes(&self) -> bool {
        self.tips.iter().any(|t| *t < -CLEARLY) && self.tips.iter().any(|t| *t > CLEARLY)
    }
}

/// Every way of laying a pose, or its mirror image where that has the same links, on the bench: with the one
/// face up or the other. Of a sheet the front is where rows and columns run as they are written.
///
/// Eyes and lying statements are looked at where all their rings are in `cell`.
pub fn views(pattern: &Pattern, cell: &Cell, problem: &Problem, pose: &Pose) -> Vec<View> {
    let seen = |pose: Pose| {
        let seen = Seen { pattern, cell, problem, pose: &pose };
        let lying = pattern.lying.iter().enumerate();
        let broken = lying.filter(|(_, l)| !seen.holds(l)).map(|(number, _)| number).collect();
        let facing = seen.eyes().all(|(_, a, b)| a.normal.dot(b.normal) > 0.0);
        let tip = |(span, a, b): (Span, Circle, Circle)| {
            let eye = a.normal.dot(b.normal) > 0.0;
            (span, eye_tip(&a, &b).filter(|_| eye))
        };
        let tips: Vec<(Span, Option<f64>)> = seen.eyes().map(tip).collect();
        let mut no_eyes: Vec<Span> = tips.iter().filter(|(_, t)| t.is_none()).map(|(span, _)| *span).collect();
        no_eyes.dedup();
        let tips = if problem.ways == 1 && !problem.spiral {
            tips.into_iter().filter_map(|t| t.1).collect()
        } else {
            Vec::new()
        };
        View { pose, tips, broken, no_eyes, facing }
    };
    let base = |ring: usize| {
        let family = problem.stands(cell, ring).map(|(family, _)| &pattern.families[family]);
        family.is_some_and(|f| f.accent.is_none())
    };
    laid(problem, pose, &base).into_iter().map(seen).collect()
}

struct Seen<'s> {
    pattern: &'s Pattern,
    cell: &'s Cell,
    problem: &'s Problem,
    pose: &'s Pose,
}

impl Seen<'_> {
    /// A ring named in a statement, `on` repeats of the base on.
    fn circle(&self, target: &Target) -> Option<Circle> {
        self.circle_at(target, Shift::ZERO)
    }

    fn circle_at(&self, target: &Target, on: Shift) -> Option<Circle> {
        let at = target.offset + on;
        let ring = self.cell.ring(target.family, at)?;
        let (ring, shift) = self.problem.place(ring.index(), self.cell.fold(at).1);
        self.pose.image(ring, shift)
    }

    /// Every eye the text names: those of the base in each of its repeats, those of an accent in its first.
    fn eyes(&self) -> impl Iterator<Item = (Span, Circle, Circle)> + '_ {
        let eyes = self.pattern.passes.iter().flat_map(|p| p.meets.iter().map(move |m| (p, m))).filter(|(_, m)| m.eye);
        eyes.flat_map(move |(pass, m)| {
            let repeats = if pass.accent.is_none() { self.cell.period } else { Shift::ONE };
            let first = self.first_of(pass.accent);
            repeats.places().filter_map(move |place| {
                let on = first + place;
                Some((m.span, self.circle_at(m.at.first()?, on)?, self.circle_at(m.at.get(1)?, on)?))
            })
        })
    }

    /// The first repeat of the base an accent stands on, from 0.
    fn first_of(&self, accent: Option<usize>) -> Shift {
        let accent = accent.and_then(|a| self.pattern.accents.get(a));
        accent.map_or(Shift::ZERO, |a| a.from - Shift::ONE)
    }

    /// Whether a lying statement holds. One that names a ring the cell has not is taken to hold.
    fn holds(&self, lying: &Lying) -> bool {
        let on = self.first_of(lying.accent);
        let pair = |one: &Target, other: &Target| self.circle_at(one, on).zip(self.circle_at(other, on));
        match &lying.lies {
            Lies::Behind(one, other) => pair(other, one).is_none_or(|(a, b)| self.over(a, b)),
            Lies::Over(one, other) => pair(one, other).is_none_or(|(a, b)| self.over(a, b)),
            Lies::On(ring, side) => self.on(ring, *side).unwrap_or(true),
            Lies::Between(ring, one, other) => {
                pair(one, other).zip(self.circle_at(ring, on)).is_none_or(|((a, b), ring)| between(&ring, &a, &b))
            }
            // Of several repeats together no way of turning is read.
            Lies::Turning(hand) => self.cell.period.row > 1 || turning(self.pose.twist) == Some(*hand),
            Lies::Folded(one, other) => {
                let net = Net::of(self.problem);
                [one, other].into_iter().all(|target| {
                    let ring = self.cell.ring(target.family, target.offset);
                    let ring = ring.map(|ring| self.problem.place(ring.index(), self.cell.fold(target.offset).1).0);
                    ring.is_none_or(|ring| folded(self.problem, &net, self.pose, ring) == Some(true))
                })
            }
        }
    }

    /// Whether one ring is over another, seen from the front. A spiral has no front: it is turned about its
    /// length until the two are in front.
    fn over(&self, one: Circle, other: Circle) -> bool {
        let (one, other) = if self.problem.spiral {
            let middle = 0.5 * (one.centre + other.centre);
            let angle = libm::atan2(middle.y, middle.z);
            let front = turned(&Pose { rings: vec![one, other], ..self.pose.clone() }, DMat3::from_rotation_x(angle));
            match front.rings.as_slice() {
                [one, other] => (*one, *other),
                _ => (one, other),
            }
        } else {
            (one, other)
        };
        lies_over(&one, &other) == Some(true)
    }

    /// Whether a ring lies farther to that side than the rings it is linked with do on the whole; `None` where it
    /// lies in the middle of them, so that its side says nothing.
    fn on(&self, ring: &Target, side: Side) -> Option<bool> {
        let own = self.cell.ring(ring.family, ring.offset)?;
        let circle = self.circle(ring)?;
        let rings = &self.pose.rings;
        let around: Vec<f64> =
            self.cell.graph.neighbors(own).filter_map(|n| rings.get(n.index()).map(|r| r.centre.y)).collect();
        let count = u32::try_from(around.len()).ok().filter(|n| *n > 0)?;
        let middle = around.iter().sum::<f64>() / f64::from(count);
        let aside = circle.centre.y - middle;
        (aside.abs() > NO_SIDE * circle.radius).then_some((side == Side::Far) == (aside > 0.0))
    }
}

/// Which way a repeat turns by an angle, in radians; `None` where it does not, or by half a turn.
fn turning(twist: f64) -> Option<Hand> {
    let aside = libm::sin(twist);
    (aside.abs() > STRAIGHT).then_some(if aside > 0.0 { Hand::Right } else { Hand::Left })
}

/// Whether a ring passes the gap between two others: some part of it is over the hole or wire of each, on
/// the side where the other is.
fn between(ring: &Circle, one: &Circle, other: &Circle) -> bool {
    const STEPS: u32 = 360;
    let (u, v) = ring.axes();
    let towards = |from: &Circle, to: &Circle, p: DVec3| {
        let side = (to.centre - from.centre).dot(from.normal);
        let height = (p - from.centre).dot(from.normal);
        let aside = (p - from.centre - from.normal * height).length();
        height * side > 0.0 && aside < from.radius
    };
    (0..STEPS).any(|k| {
        let (sin, cos) = libm::sincos(std::f64::consts::TAU * f64::from(k) / f64::from(STEPS));
        let p = ring.centre + (u * cos + v * sin) * ring.radius;
        towards(one, other, p) && towards(other, one, p)
    })
}
