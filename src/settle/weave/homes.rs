//! Which ring of the settled repeat a ring of a piece is an image of.

use super::settled::Settled;
use crate::pattern::Offset;
use std::collections::BTreeMap;

/// The rings of the settled repeat, by family and by where in the repeat they stand.
#[derive(Clone, Debug)]
pub struct Homes {
    rings: BTreeMap<(usize, Offset), usize>,
    stands: Vec<Offset>,
    repeats: Offset,
}

impl Homes {
    /// Those of a settled weave.
    pub fn of(settled: &Settled) -> Self {
        let repeats = settled.repeats.map(|r| r.max(1));
        let rings = settled.rings.iter().enumerate().map(|(n, (family, at))| ((*family, folded(*at, repeats)), n));
        Self { rings: rings.collect(), stands: settled.rings.iter().map(|(_, at)| *at).collect(), repeats }
    }

    /// Repeats of the base in the settled repeat, along each way; at least 1.
    pub fn repeats(&self) -> Offset {
        self.repeats
    }

    /// For the ring of a family at a repeat (from 1) of a piece: the number of the settled ring it is an image of, and how
    /// many settled repeats on it stands. `None` for a ring that `ends` adds where the repeat has none.
    pub fn of_ring(&self, family: usize, at: Offset) -> Option<(usize, Offset)> {
        let home = *self.rings.get(&(family, folded(at, self.repeats)))?;
        let stands = self.stands.get(home)?;
        let on =
            |way: usize| -> Option<i32> { Some((at.get(way)? - stands.get(way)?).div_euclid(*self.repeats.get(way)?)) };
        Some((home, [on(0)?, on(1)?]))
    }
}

/// A repeat of the piece, counted within the repeat that was settled.
fn folded(at: Offset, repeats: Offset) -> Offset {
    [(at[0] - 1).rem_euclid(repeats[0]), (at[1] - 1).rem_euclid(repeats[1])]
}
