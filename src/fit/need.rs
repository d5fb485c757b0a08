//! How many rings of each kind it takes.

use crate::Weave;
use crate::count::{BagCount, Counts, Reach, repeats_with, sheet_with};
use crate::pattern::{Lattice, Repeats};
use std::collections::BTreeMap;
use std::sync::Mutex;

/// Rings of each kind for all pieces, with what is to spare.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Needs {
    /// The size of one piece, where it is known.
    pub size: Option<Repeats>,
    rings: BTreeMap<String, u64>,
}

impl Needs {
    /// Rings of a kind, where it is known.
    pub fn of(&self, kind: &str) -> Option<u64> {
        self.size.and_then(|_| self.rings.get(kind).copied())
    }
}

/// Counts rings for many sizes of rings, those of each size of a piece once.
pub(super) struct Counter {
    /// The bags of a kit or class; the weave itself where it has none.
    bags: Vec<Weave>,
    in_bags: bool,
    known: Known,
}

/// What is known of pieces of a size, so many alike.
type Known = Mutex<BTreeMap<([u32; 2], u32, Option<u64>), Needs>>;

impl Counter {
    /// For a weave.
    pub fn of(weave: &Weave) -> Self {
        let bags = weave.bags();
        let in_bags = !bags.is_empty();
        Self { bags: if in_bags { bags } else { vec![weave.clone()] }, in_bags, known: Mutex::default() }
    }

    /// What is needed where the rings reach so far, for all bags of a kit or class: as many repeats as the text says, or as
    /// come nearest to the length it asks for. A sample measured at other sizes says nothing.
    pub fn needs(&self, reach: Option<&Reach>) -> Needs {
        let each: Vec<Needs> = self.bags.iter().map(|bag| self.of_bag(bag, reach)).collect();
        let size = each.first().and_then(|needs| needs.size);
        if each.iter().any(|needs| needs.size.is_none()) {
            return Needs { size, rings: BTreeMap::new() };
        }
        let mut rings: BTreeMap<String, u64> = BTreeMap::new();
        for (kind, more) in each.into_iter().flat_map(|needs| needs.rings) {
            *rings.entry(kind).or_default() += more;
        }
        Needs { size, rings }
    }

    fn of_bag(&self, bag: &Weave, reach: Option<&Reach>) -> Needs {
        let make = &bag.pattern().make;
        let number = |n: &Option<crate::text::Spanned<u32>>| n.as_ref().map(|n| n.value.max(1));
        let size = match bag.pattern().lattice {
            Lattice::Unit => Some(Repeats([1, 1])),
            Lattice::Chain => number(&make.repeats).or_else(|| repeats_with(bag, reach, None)).map(|n| Repeats([n, 1])),
            Lattice::Sheet => {
                let [height, width] = reach.map_or([None, None], |reach| sheet_with(bag, reach));
                number(&make.rows).or(height).zip(number(&make.columns).or(width)).map(|(r, c)| Repeats([r, c]))
            }
        };
        let Some(size) = size else { return Needs::default() };
        let pieces = make.pieces.as_ref().map_or(1, |p| p.value.max(1));
        let key = (size.0, pieces, make.spares.map(f64::to_bits));
        let known = |needs: &Known| needs.lock().ok().and_then(|k| k.get(&key).cloned());
        if let Some(needs) = known(&self.known) {
            return needs;
        }
        // What is too much to count is not known.
        let Ok(piece) = bag.piece(size) else { return Needs::default() };
        let counts = Counts::without_length(bag, &piece);
        let bag = BagCount { name: self.in_bags.then(String::new), rings: None, counts };
        let mut rings: BTreeMap<String, u64> = BTreeMap::new();
        for colour in &bag.counts.colours {
            *rings.entry(colour.kind.clone()).or_default() += bag.packed(colour);
        }
        let needs = Needs { size: Some(size), rings };
        if let Ok(mut known) = self.known.lock() {
            known.insert(key, needs.clone());
        }
        needs
    }
}
