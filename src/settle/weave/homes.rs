//! Which ring of the settled repeat a ring of a piece is an image of.

use super::settled::Settled;
use crate::pattern::{FamilyId, Shift};
use std::collections::BTreeMap;

/// The rings of the settled repeat, by family and by where in the repeat they stand.
#[derive(Clone, Debug)]
pub struct Homes {
    rings: BTreeMap<(FamilyId, Shift), usize>,
    stands: Vec<Shift>,
    repeats: Shift,
}

impl Homes {
    /// Those of a settled weave.
    pub fn of(settled: &Settled) -> Self {
        let repeats = settled.repeats;
        let rings = settled
            .rings
            .iter()
            .enumerate()
            .map(|(n, ring)| ((ring.family, (ring.at - Shift::ONE).fold(repeats).0), n));
        Self { rings: rings.collect(), stands: settled.rings.iter().map(|ring| ring.at).collect(), repeats }
    }

    /// Repeats of the base in the settled repeat, along each way; at least 1.
    pub fn repeats(&self) -> Shift {
        self.repeats
    }

    /// For the ring of a family at a repeat (from 1) of a piece: the number of the settled ring it is an image of, and how
    /// many settled repeats on it stands. `None` for a ring that `ends` adds where the repeat has none.
    pub fn of_ring(&self, family: FamilyId, at: Shift) -> Option<(usize, Shift)> {
        let home = *self.rings.get(&(family, (at - Shift::ONE).fold(self.repeats).0))?;
        let stands = *self.stands.get(home)?;
        Some((home, (at - stands).fold(self.repeats).1))
    }
}
