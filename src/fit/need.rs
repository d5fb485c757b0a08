//! How many rings of each kind are needed, and whether the shelf has them.

use super::offer::Offer;
use super::row::{Enough, Pick};
use crate::Weave;
use crate::count::{BagCount, Counts, Reach};
use crate::pattern::Repeats;
use std::collections::BTreeMap;
use std::sync::Mutex;

/// Rings of each kind for all pieces, with spares.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Needs {
    /// The size of one piece, where it is known.
    pub size: Option<Repeats>,
    rings: BTreeMap<String, u64>,
}

impl Needs {
    /// Rings of a kind, where their number is known.
    fn of(&self, kind: &str) -> Option<u64> {
        self.size.and_then(|_| self.rings.get(kind).copied())
    }

    /// These sizes, one for each kind, with what is needed of each.
    pub fn picks(&self, kinds: &[String], offers: &[&Offer]) -> Vec<Pick> {
        let pick = |(kind, offer): (&String, &&Offer)| {
            // Rings of one size for two kinds come out of one bag.
            let same = || kinds.iter().zip(offers).filter(|(_, other)| *other == offer);
            let from_one_bag: Option<u64> = same().map(|(kind, _)| self.of(kind)).sum();
            let enough = |have: Option<u64>| match from_one_bag.zip(have) {
                Some((needed, have)) if have >= needed => Enough::Yes,
                Some((needed, have)) => Enough::Short(needed - have),
                None => Enough::Unknown,
            };
            Pick {
                kind: kind.clone(),
                offer: (*offer).clone(),
                needed: self.of(kind),
                enough: offer.rings.iter().map(|r| enough(r.on_hand)).collect(),
            }
        };
        kinds.iter().zip(offers).map(pick).collect()
    }
}

/// Counts the rings a weave needs at many sizes of rings; pieces of one size are counted once.
pub(super) struct Counter {
    /// The bags of a kit or class by name; the weave itself, without a name, where it has none.
    bags: Vec<(Option<String>, Weave)>,
    known: Mutex<BTreeMap<Made, Needs>>,
}

/// What the number of rings follows from.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Made {
    size: [u32; 2],
    pieces: u32,
    /// The bits of the percentage.
    spares: Option<u64>,
}

impl Counter {
    /// For a weave.
    pub fn of(weave: &Weave) -> Self {
        let names = weave.pattern().bags.iter().map(|bag| Some(bag.name.value.clone()));
        let mut bags: Vec<(Option<String>, Weave)> = names.zip(weave.bags()).collect();
        if bags.is_empty() {
            bags.push((None, weave.clone()));
        }
        Self { bags, known: Mutex::default() }
    }

    /// What all bags need where the rings reach this far: as many repeats as the text says, or as come nearest to the
    /// length it asks for. A sample that was measured with other rings is left out of account.
    pub fn needs(&self, reach: Option<&Reach>) -> Needs {
        let each: Vec<Needs> = self.bags.iter().map(|(name, bag)| self.of_bag(name.as_ref(), bag, reach)).collect();
        let size = each.first().and_then(|needs| needs.size);
        if each.iter().any(|needs| needs.size.is_none()) {
            return Needs { size, rings: BTreeMap::new() };
        }
        Needs { size, rings: added(each.into_iter().flat_map(|needs| needs.rings)) }
    }

    fn of_bag(&self, name: Option<&String>, bag: &Weave, reach: Option<&Reach>) -> Needs {
        let Some(size) = bag.size_asked_with(reach) else { return Needs::default() };
        let make = &bag.pattern().make;
        let pieces = make.pieces.as_ref().map_or(1, |p| p.value.max(1));
        let asked = Made { size: size.0, pieces, spares: make.spares.map(f64::to_bits) };
        let known = self.known.lock().ok().and_then(|known| known.get(&asked).cloned());
        if let Some(needs) = known {
            return needs;
        }
        // A piece too large to be counted is not known.
        let Ok(piece) = bag.piece(size) else { return Needs::default() };
        let bag = BagCount { name: name.cloned(), rings: None, counts: Counts::without_length(bag, &piece) };
        let packed = bag.counts.colours.iter().map(|colour| (colour.kind.clone(), bag.packed(colour)));
        let needs = Needs { size: Some(size), rings: added(packed) };
        if let Ok(mut known) = self.known.lock() {
            known.insert(asked, needs.clone());
        }
        needs
    }
}

/// Rings by kind.
fn added(rings: impl Iterator<Item = (String, u64)>) -> BTreeMap<String, u64> {
    let mut sums: BTreeMap<String, u64> = BTreeMap::new();
    for (kind, more) in rings {
        *sums.entry(kind).or_default() += more;
    }
    sums
}
