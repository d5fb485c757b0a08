//! Which sizes of one kind of ring make a weave close, all other kinds as they are.

use super::floor::smallest_inner;
use super::settled::Settled;
use super::sizes::Known;
use crate::pattern::Pattern;
use crate::settle::solve::RingSize;

impl Settled {
    /// The smallest inner diameter found, mm, at which the weave closes when the rings of one kind have it, their
    /// wire and all other kinds as they are. `None` without sizes in mm, or where none makes room.
    pub fn smallest_inner(&self, pattern: &Pattern, kind: &str) -> Option<f64> {
        let family = pattern.families.find(|f| f.kind == kind)?;
        self.inner_with_room(pattern, kind, self.sizes.of_family(family).wire, 0.0)
    }

    /// The smallest inner diameter found, mm, at which the weave closes when the rings of a kind have it and wire
    /// of `wire` mm, and at which all wires could then be thicker by `room`, as a part of them. `None` without sizes
    /// in mm, or where no size of these rings makes so much room.
    pub fn inner_with_room(&self, pattern: &Pattern, kind: &str, wire: f64, room: f64) -> Option<f64> {
        if self.sizes.known != Known::Millimetres {
            return None;
        }
        let thicker = 1.0 + room;
        let family = |ring: usize| self.rings.get(ring).map(|r| &pattern.families[r.family]);
        let of_kind = |ring: usize| family(ring).is_some_and(|f| f.kind == kind);
        if let [floor] = self.floors.as_slice() {
            // Rings all alike: what counts is the aspect ratio.
            return (floor.kind == kind).then_some(wire * (thicker * (floor.found + 1.0) - 1.0));
        }
        let (mut problem, mut pose) = (self.problem.clone(), self.at_floor.view.pose.clone());
        for (ring, (size, circle)) in problem.rings.iter_mut().zip(&mut pose.rings).enumerate() {
            if of_kind(ring) {
                let inner = 2.0 * size.radius - size.wire;
                *size = RingSize { radius: 0.5 * (inner + wire), wire };
                circle.radius = size.radius;
            }
            size.wire *= thicker;
        }
        let growing: Vec<usize> = (0..problem.rings.len()).filter(|ring| of_kind(*ring)).collect();
        let (inner, _) = smallest_inner(&problem, &pose, &growing)?;
        // From the thicker wire to the wire as it is, core circles the same.
        Some(inner + wire * room)
    }
}
