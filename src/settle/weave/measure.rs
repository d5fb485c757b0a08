//! What is measured on a settled pose: lengths, tilts, extent; and its rings by name.

use super::settled::{Lengths, Settled, SettledRing};
use super::sizes::Known;
use crate::pattern::{FamilyId, Lattice, Pattern, Shift};
use crate::settle::pair::Circle;
use crate::settle::solve::{Pose, RingSize, reach};
use glam::DVec3;

impl Settled {
    /// Lengths of one repeat of the base in a pose of this weave.
    pub(crate) fn lengths(&self, pose: &Pose) -> Lengths {
        let along = |way: usize| {
            let way_of = pose.ways.get(way).copied().unwrap_or(DVec3::ZERO);
            way_of.length() / f64::from(self.repeats.along(way).max(1))
        };
        (0..self.problem.ways).map(along).collect()
    }

    /// Inner diameter of the first kind in the pose, mm.
    pub fn inner(&self) -> f64 {
        let size = self.rings.first().map_or(RingSize::UNKNOWN, |ring| self.sizes.of_family(ring.family));
        2.0 * size.radius - size.wire * self.wire
    }

    /// How long one of the unit of figures and exported poses is, mm: a millimetre, or, where no size is given in
    /// mm, the wire of the first ring, `wire` times as thick as given.
    pub(crate) fn unit(&self, wire: f64) -> f64 {
        let first = self.problem.rings.first().map_or(1.0, |r| r.wire * wire);
        if self.sizes.known == Known::Millimetres { 1.0 } else { first }
    }

    /// The word for that unit.
    pub(crate) fn unit_word(&self) -> &'static str {
        if self.sizes.known == Known::Millimetres { "mm" } else { "wires" }
    }

    /// How a chain closes that does not when straight: "curls into a circle of 58.2 mm, 5.5° a repeat".
    pub fn curls(&self) -> Option<String> {
        let curled = self.curled?;
        let turn = curled.turn_deg.abs();
        Some(match curled.across {
            Some(across) => {
                format!(
                    "curls into a circle of {:.1} {}, {turn:.1}° a repeat",
                    across / self.unit(1.0),
                    self.unit_word()
                )
            }
            None => format!("twists by {turn:.1}° a repeat"),
        })
    }

    /// Tilt of a family: the angle between the plane of its ring and the bench (of a spiral: and the length
    /// of the chain), degrees, for each of its rings in the repeat.
    pub fn tilts(&self, family: FamilyId) -> Vec<f64> {
        let axis = if self.problem.spiral { DVec3::X } else { DVec3::Z };
        let rings = self.rings.iter().zip(&self.view.pose.rings).filter(|(own, _)| own.family == family);
        let angle = |r: &Circle| {
            let along = r.normal.dot(axis).abs().min(1.0);
            let angle = if self.problem.spiral { libm::asin(along) } else { libm::acos(along) };
            angle.to_degrees()
        };
        rings.map(|(_, ring)| angle(ring)).collect()
    }

    /// Width across the length (none of a sheet) and thickness from front to back, wire and all, mm. Of a
    /// spiral both are the diameter of the tube it fills.
    pub fn extent(&self) -> (Option<f64>, f64) {
        let pose = &self.view.pose;
        let wire = self.problem.rings.iter().map(|r| r.wire * self.wire).fold(0.0, f64::max);
        if self.problem.spiral {
            let far = |r: &Circle| {
                let (u, v) = r.axes();
                (0..360)
                    .map(|k| {
                        let (sin, cos) = libm::sincos(f64::from(k).to_radians());
                        let p = r.centre + (u * cos + v * sin) * r.radius;
                        libm::hypot(p.y, p.z)
                    })
                    .fold(0.0, f64::max)
            };
            let across = 2.0 * pose.rings.iter().map(far).fold(0.0, f64::max) + wire;
            return (Some(across), across);
        }
        let along = |axis| {
            let (low, high) = reach(pose, axis);
            high - low + wire
        };
        ((self.problem.ways < 2).then(|| along(DVec3::Y)), along(DVec3::Z))
    }

    /// The name of a ring of the pose, `shift` repeats of the pose on: `b[2]`.
    pub fn ring_name(&self, pattern: &Pattern, ring: usize, shift: Shift) -> String {
        let Some(SettledRing { family, at }) = self.rings.get(ring) else { return "?".to_owned() };
        let name = pattern.family_name(*family);
        let place = *at + shift.times(self.repeats);
        match self.lattice {
            Lattice::Unit => name.to_owned(),
            Lattice::Chain => format!("{name}[{}]", place.row),
            Lattice::Sheet => format!("{name}[{},{}]", place.row, place.column),
        }
    }
}
