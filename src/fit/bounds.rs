//! What is known of sizes before anything is settled: which wires must go through which holes.

use crate::measure::hole_needed;
use crate::settle::Settled;

/// The wires that pass the rings of one kind, by kind: of every ring of the pose, each sort once.
#[derive(Clone, Debug)]
pub(super) struct Bounds {
    /// Kind of the ring, and how many wires of each kind pass it.
    passed: Vec<(usize, Vec<usize>)>,
}

impl Bounds {
    /// Of a settled weave; `kind` is the kind of each ring of its pose, of `kinds` kinds.
    pub fn of(settled: &Settled, kind: &[usize], kinds: usize) -> Self {
        let mut passed: Vec<(usize, Vec<usize>)> = kind.iter().map(|k| (*k, vec![0; kinds])).collect();
        for link in &settled.problem.links {
            for (ring, other) in [(link.from, link.to), (link.to, link.from)] {
                let slot = kind.get(other).and_then(|k| passed.get_mut(ring)?.1.get_mut(*k));
                if let Some(slot) = slot {
                    *slot += 1;
                }
            }
        }
        passed.sort();
        passed.dedup();
        Self { passed }
    }

    /// The first kind whose hole is proved too small for the wires that must pass it, and the inner diameter they need,
    /// mm; `sizes` are wire and inner diameter of every kind, mm.
    pub fn broken(&self, sizes: &[(f64, f64)]) -> Option<(usize, f64)> {
        self.passed.iter().find_map(|(kind, counts)| {
            let wires = counts.iter().zip(sizes).flat_map(|(count, (wire, _))| std::iter::repeat_n(*wire, *count));
            let needed = hole_needed(&wires.collect::<Vec<f64>>());
            let (_, inner) = sizes.get(*kind)?;
            // The hole of a ring and what passes it are compared to the last digits that sizes are written with.
            (*inner < needed * (1.0 - 1e-9)).then_some((*kind, needed))
        })
    }
}
