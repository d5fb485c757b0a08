//! How large a piece a text asks for.

use super::extent::repeats_for_extent;
use super::length::repeats_for_length;
use crate::pattern::{Lattice, Repeats};
use crate::text::Spanned;
use crate::weave::Weave;

impl Weave {
    /// How many repeats the file asks for, where it does: by number, or by a length and the length of a repeat, as
    /// measured or else as computed. 0 is taken as 1. The weave is settled only where a length is all that is given.
    pub fn size_asked(&self) -> Option<Repeats> {
        let make = &self.pattern().make;
        let number = |n: &Option<Spanned<u32>>| n.as_ref().map(|n| n.value.max(1));
        match self.pattern().lattice {
            Lattice::Unit => Some(Repeats([1, 1])),
            Lattice::Chain => number(&make.repeats).or_else(|| repeats_for_length(self)).map(|n| Repeats([n, 1])),
            Lattice::Sheet => {
                let [rows, columns] = [number(&make.rows), number(&make.columns)];
                let missing = rows.is_none() || columns.is_none();
                let [height, width] = if missing { repeats_for_extent(self) } else { [None, None] };
                Some(Repeats([rows.or(height)?, columns.or(width)?]))
            }
        }
    }

    /// The size asked for, or one just large enough to show both ends, the inside and every accent.
    pub fn size(&self) -> Repeats {
        self.size_asked().unwrap_or_else(|| {
            let mut least = [8_u32, 8];
            for link in &self.links().links {
                for (least, offset) in least.iter_mut().zip(link.offset.to_array()) {
                    *least = (*least).max(2 * offset.unsigned_abs() + 4);
                }
            }
            for accent in &self.pattern().accents {
                for ((least, from), every) in least.iter_mut().zip(accent.from.to_array()).zip(accent.every.to_array())
                {
                    *least = (*least).max(from.unsigned_abs().saturating_add(3 * every.unsigned_abs()).min(100_000));
                }
            }
            // An example must not be too large.
            let room = 200_000 / u32::try_from(self.pattern().families.len()).unwrap_or(1).max(1);
            match self.pattern().lattice {
                Lattice::Unit => Repeats([1, 1]),
                Lattice::Chain => Repeats([least[0].min(room), 1]),
                Lattice::Sheet => Repeats(least.map(|n| n.min(room.isqrt().max(8)))),
            }
        })
    }
}
