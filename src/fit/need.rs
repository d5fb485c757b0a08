//! How many rings of each kind it takes.

use crate::Weave;
use crate::pattern::Lattice;
use crate::rings::Size;
use crate::supply::{Counts, Reach, repeats_with, sheet_with};
use std::collections::BTreeMap;
use std::sync::Mutex;

/// Rings of each kind for all pieces.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Needs {
    /// The size of one piece, where it is known.
    pub size: Option<Size>,
    rings: BTreeMap<String, u64>,
}

impl Needs {
    /// Rings of a kind, where it is known.
    pub fn of(&self, kind: &str) -> Option<u64> {
        self.size.and_then(|_| self.rings.get(kind).copied())
    }
}

/// Counts rings for many sizes of rings, those of each size of a piece once.
pub(super) struct Counter<'w> {
    weave: &'w Weave,
    known: Mutex<BTreeMap<[u32; 2], Needs>>,
}

impl<'w> Counter<'w> {
    /// For a weave.
    pub fn of(weave: &'w Weave) -> Self {
        Self { weave, known: Mutex::default() }
    }

    /// What is needed where the rings reach so far: as many repeats as the text says, or as come nearest to the length it
    /// asks for. A sample measured at other sizes says nothing.
    pub fn needs(&self, reach: Option<&Reach>) -> Needs {
        let make = &self.weave.pattern.make;
        let number = |n: &Option<crate::text::Spanned<u32>>| n.as_ref().map(|n| n.value.max(1));
        let size = match self.weave.pattern.lattice {
            Lattice::Unit => Some(Size([1, 1])),
            Lattice::Chain => {
                number(&make.repeats).or_else(|| repeats_with(self.weave, reach, None)).map(|n| Size([n, 1]))
            }
            Lattice::Sheet => {
                let [height, width] = reach.map_or([None, None], |reach| sheet_with(self.weave, reach));
                number(&make.rows).or(height).zip(number(&make.columns).or(width)).map(|(r, c)| Size([r, c]))
            }
        };
        let Some(size) = size else { return Needs::default() };
        let known = |needs: &Mutex<BTreeMap<[u32; 2], Needs>>| needs.lock().ok().and_then(|k| k.get(&size.0).cloned());
        if let Some(needs) = known(&self.known) {
            return needs;
        }
        // What is too much to count is not known.
        let Ok(piece) = self.weave.piece(size) else { return Needs::default() };
        let counts = Counts::without_length(self.weave, &piece);
        let pieces = u64::from(counts.pieces);
        let rings = counts.kinds.iter().map(|k| (k.name.clone(), u64::from(k.rings()) * pieces)).collect();
        let needs = Needs { size: Some(size), rings };
        if let Ok(mut known) = self.known.lock() {
            known.insert(size.0, needs.clone());
        }
        needs
    }
}
