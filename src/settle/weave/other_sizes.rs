//! A settled weave at other sizes, from the pose it has. `byrnie fit` tries many sizes this way.

use super::settled::Settled;
use crate::pattern::Pattern;
use crate::settle::solve::{Effort, Pose, Problem, Pull, RingSize, has_links, pull_with, tighten_with};

/// Lengths need not be more exact than this part of the mean core radius.
const FINE_ENOUGH: f64 = 1e-4;
/// An aspect ratio within this of the floor is at it.
const AT_FLOOR: f64 = 1e-6;

/// A pose to start from: rings of certain sizes, and where they lie.
#[derive(Clone, Debug)]
pub struct Start {
    /// The rings and links.
    pub problem: Problem,
    /// Where they lie.
    pub pose: Pose,
    /// How many times thicker all wires could be as they lie.
    pub scale: f64,
}

impl Start {
    /// The pose a settled weave has at its floor.
    pub fn of(settled: &Settled) -> Self {
        Self {
            problem: settled.problem.clone(),
            pose: settled.at_floor.view.pose.clone(),
            scale: settled.at_floor.scale,
        }
    }

    /// The same rings with other sizes (by the number of the ring), tightened from where they lie, to some tenths of a
    /// percent. `None` where the rings as they lie would no longer be linked as they should be: sizes must change by
    /// small steps.
    #[must_use]
    pub fn resized(&self, size: impl Fn(usize) -> RingSize) -> Option<Self> {
        let (mut problem, mut pose) = (self.problem.clone(), self.pose.clone());
        for (number, (ring, circle)) in problem.rings.iter_mut().zip(&mut pose.rings).enumerate() {
            *ring = size(number);
            circle.radius = ring.radius;
        }
        if !has_links(&problem, &pose) {
            return None;
        }
        let tight = tighten_with(&problem, pose, Effort::ROUGH);
        Some(Self { problem, pose: tight.pose, scale: tight.scale })
    }
}

impl Settled {
    /// The kind of every ring of the pose, by number.
    pub fn kinds<'p>(&'p self, pattern: &'p Pattern) -> Vec<&'p str> {
        self.rings.iter().map(|ring| pattern.families[ring.family].kind.as_str()).collect()
    }

    /// The pose drawn out, were all rings alike and of this aspect ratio, and how thick its wire is, as a part of the wire
    /// given; lengths to a ten-thousandth of the core radius. `None` below the floor, of a unit, and where rings differ.
    pub fn drawn_out_at(&self, ratio: f64) -> Option<(Pose, f64)> {
        let [floor] = self.floors.as_slice() else { return None };
        let size = self.problem.rings.first()?;
        // The wire of this aspect ratio, as a part of the wire given.
        let wire = 2.0 * size.radius / (size.wire * (ratio + 1.0));
        let inner = 2.0 * size.radius - size.wire * wire;
        if ratio < floor.found - AT_FLOOR || inner <= 0.0 || self.problem.ways == 0 {
            return None;
        }
        let tight = &self.at_floor;
        let pose = pull_with(&self.problem, &tight.view.pose, wire.min(tight.scale), Pull::Taut, FINE_ENOUGH)?;
        Some((pose, wire))
    }
}
