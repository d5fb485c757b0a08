//! One bounded step of a pose towards an aim: a linear program over everything that may move.
//!
//! Each place where two rings come near keeps its distance, to first order: the slope of such a distance is
//! the unit vector between its two points. (Tightening by linearised contacts: Ashton, Cantarella, Piatek,
//! Rawdon, Experimental Mathematics 20 (2011).)

use super::distance::{Near, near};
use super::problem::{Pose, Problem};
use super::program::Program;
use super::pull::Pull;
use glam::DVec3;

/// What a step is to bring.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Aim {
    /// The thickest wire.
    Wire,
    /// Room for wire of the scale given, and no more.
    Room,
    /// A longer or a shorter repeat, the wire as it is.
    Length(Pull),
    /// Smaller rings, the wire as it is: those of [`Moves::growing`].
    Smaller,
}

/// What may move: for each ring five numbers, its centre and two tilts; then for each way its shift, and
/// the twist; the radius that the growing rings share; last the scale of the wire.
pub(crate) struct Moves<'m> {
    /// The rings and how they repeat.
    pub problem: &'m Problem,
    /// Which rings have their core radius as an unknown, by number; they grow alike.
    pub growing: &'m [usize],
}

impl<'m> Moves<'m> {
    /// Rings move, and none grows.
    pub fn of(problem: &'m Problem) -> Self {
        Self { problem, growing: &[] }
    }

    /// The length of the first way, then both lengths of the second.
    fn way(&self) -> usize {
        5 * self.problem.rings.len()
    }

    fn twist(&self) -> usize {
        self.way() + [0, 1, 3].get(self.problem.ways).copied().unwrap_or(0)
    }

    fn radius(&self) -> usize {
        self.twist() + usize::from(self.problem.spiral)
    }

    fn scale(&self) -> usize {
        self.radius() + usize::from(!self.growing.is_empty())
    }

    /// The columns whose sum is the length along all ways.
    fn lengths(&self) -> impl Iterator<Item = usize> + use<> {
        let (way, ways) = (self.way(), self.problem.ways);
        [(1, way), (2, way + 2)].into_iter().filter(move |(least, _)| ways >= *least).map(|(_, col)| col)
    }

    /// The best step of a bounded length from a pose that holds wire of `scale`, and the wire it promises.
    ///
    /// The program is in parts of `trust`: its numbers have the same size however short the step is.
    pub fn step(&self, pose: &Pose, scale: f64, trust: f64, aim: Aim) -> Option<(Vec<f64>, f64)> {
        let wire = matches!(aim, Aim::Wire | Aim::Room);
        let count = self.scale() + usize::from(wire);
        let contacts = near(self.problem, pose, scale, 6.0 * trust);
        let mut program = Program::default();
        // Each row says: what the moves take from a distance and the wire adds is no more than the distance there is.
        let mut line = vec![0.0; self.scale() + 1];
        for contact in &contacts {
            line.fill(0.0);
            self.slope(pose, contact, &mut line);
            if let Some(slot) = line.get_mut(self.scale()) {
                *slot = contact.wires;
            }
            let entries = line.iter().copied().enumerate().take(count).filter(|(_, v)| *v != 0.0);
            program.row(entries, (contact.distance - scale * contact.wires) / trust);
        }
        let mean = self.problem.mean_radius();
        for col in 0..self.scale() {
            let is_tilt = col < self.way() && col % 5 >= 3 || self.problem.spiral && col == self.twist();
            let most = if is_tilt { 1.0 / mean } else { 1.0 };
            program.row([(col, 1.0)].into_iter(), most);
            program.row([(col, -1.0)].into_iter(), most);
        }
        let mut cost = vec![0.0; count];
        match aim {
            Aim::Wire | Aim::Room => {
                let thinnest = contacts.iter().map(|c| c.wires).fold(f64::INFINITY, f64::min).max(1e-9);
                let most = if aim == Aim::Wire { 10.0 / thinnest } else { 0.0 };
                program.row([(self.scale(), 1.0)].into_iter(), most);
                *cost.get_mut(self.scale())? = -1.0;
            }
            Aim::Length(way) => {
                for col in self.lengths() {
                    *cost.get_mut(col)? = -way.sign();
                }
            }
            Aim::Smaller => *cost.get_mut(self.radius())? = 1.0,
        }
        let mut step = program.solve(&cost)?;
        for part in &mut step {
            *part *= trust;
        }
        let promised = if wire { scale + step.last()? } else { scale };
        Some((step, promised))
    }

    /// Minus the slope of a distance against everything that moves.
    fn slope(&self, pose: &Pose, contact: &Near, line: &mut [f64]) {
        let apart = (contact.on_from - contact.on_to).normalize_or_zero();
        let mut add = |col: usize, value: f64| {
            if let Some(slot) = line.get_mut(col) {
                *slot += value;
            }
        };
        // Moving the first ring along `apart` widens the distance, moving the second narrows it.
        if let Some(ring) = pose.rings.get(contact.from) {
            let col = 5 * contact.from;
            for (i, part) in apart.to_array().into_iter().enumerate() {
                add(col + i, -part);
            }
            let (u, v) = ring.axes();
            let arm = contact.on_from - ring.centre;
            add(col + 3, -u.cross(arm).dot(apart));
            add(col + 4, -v.cross(arm).dot(apart));
            if self.growing.contains(&contact.from) {
                add(self.radius(), -arm.dot(apart) / ring.radius);
            }
        }
        if let Some(ring) = pose.rings.get(contact.to) {
            let col = 5 * contact.to;
            // The unknowns move the ring in the first repeat; its image makes the same moves, turned on by the repeats.
            for (i, axis) in [DVec3::X, DVec3::Y, DVec3::Z].into_iter().enumerate() {
                add(col + i, pose.turned_on(axis, contact.shift).dot(apart));
            }
            let (u, v) = ring.axes();
            let image = pose.moved(*ring, contact.shift);
            let arm = contact.on_to - image.centre;
            add(col + 3, pose.turned_on(u, contact.shift).cross(arm).dot(apart));
            add(col + 4, pose.turned_on(v, contact.shift).cross(arm).dot(apart));
            if self.growing.contains(&contact.to) {
                add(self.radius(), arm.dot(apart) / ring.radius);
            }
        }
        let [row, column] = contact.shift.to_array().map(f64::from);
        if self.problem.ways >= 1 {
            add(self.way(), row * apart.x);
        }
        if self.problem.ways >= 2 {
            add(self.way() + 1, column * apart.x);
            add(self.way() + 2, column * apart.y);
        }
        if self.problem.spiral {
            add(self.twist(), row * DVec3::X.cross(contact.on_to).dot(apart));
        }
    }

    /// A pose after a step.
    pub fn moved(&self, pose: &Pose, step: &[f64]) -> Pose {
        let by = |col: usize| step.get(col).copied().unwrap_or(0.0);
        let mut pose = pose.clone();
        for (number, ring) in pose.rings.iter_mut().enumerate() {
            let col = 5 * number;
            let (u, v) = ring.axes();
            let tilt = u * by(col + 3) + v * by(col + 4);
            ring.centre += DVec3::new(by(col), by(col + 1), by(col + 2));
            ring.normal = (ring.normal + tilt.cross(ring.normal)).normalize_or_zero();
            if self.growing.contains(&number) {
                ring.radius += by(self.radius());
            }
        }
        if self.problem.ways >= 1 {
            pose.ways[0].x += by(self.way());
        }
        if self.problem.ways >= 2 {
            pose.ways[1].x += by(self.way() + 1);
            pose.ways[1].y += by(self.way() + 2);
        }
        if self.problem.spiral {
            pose.twist += by(self.twist());
        }
        pose
    }
}
