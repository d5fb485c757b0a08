//! What is known of sizes before anything is settled: which wires must go through which holes.

use crate::measure::hole_needed;
use crate::settle::Settled;

/// The kinds whose wires pass the rings of each kind: of every ring of the pose, the same list once.
#[derive(Clone, Debug)]
pub(super) struct Holes<'k> {
    holes: Vec<Hole<'k>>,
}

/// The hole of a ring of one kind.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Hole<'k> {
    kind: &'k str,
    /// The kind of every wire that passes it, sorted.
    passed_by: Vec<&'k str>,
}

impl<'k> Holes<'k> {
    /// Of a settled weave; `kinds` are the kinds of the rings of its pose, by number.
    pub fn of(settled: &Settled, kinds: &[&'k str]) -> Self {
        let mut holes: Vec<Hole<'k>> = kinds.iter().map(|kind| Hole { kind, passed_by: Vec::new() }).collect();
        for link in &settled.problem.links {
            for (ring, other) in [(link.from, link.to), (link.to, link.from)] {
                if let Some((hole, wire)) = holes.get_mut(ring).zip(kinds.get(other)) {
                    hole.passed_by.push(wire);
                }
            }
        }
        for hole in &mut holes {
            hole.passed_by.sort_unstable();
        }
        holes.sort();
        holes.dedup();
        Self { holes }
    }

    /// Whether some hole is proved too small for the wires that must pass it. `size` gives wire and inner diameter of a
    /// kind, mm.
    pub fn too_small(&self, size: impl Fn(&str) -> Option<(f64, f64)>) -> bool {
        self.holes.iter().any(|hole| {
            let wires: Vec<f64> = hole.passed_by.iter().filter_map(|kind| Some(size(kind)?.0)).collect();
            // Sizes are compared to the last digits they are written with.
            size(hole.kind).is_some_and(|(_, inner)| inner < hole_needed(&wires) * (1.0 - 1e-9))
        })
    }
}
