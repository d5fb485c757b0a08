//! The rows of an answer, and their order.

use super::need::Needs;
use super::offer::Offer;
use crate::pattern::Repeats;
use crate::settle::{Hold, LITTLE_ROOM, Word};
use std::cmp::Ordering;

/// Whether a line of the shelf has enough rings.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Enough {
    /// As many as are needed, or more.
    Yes,
    /// So many too few.
    Short(u64),
    /// The shelf does not say how many there are, or the text not how much is made.
    Unknown,
}

/// The size chosen for one kind.
#[derive(Clone, Debug, PartialEq)]
pub struct Pick {
    /// The kind.
    pub kind: String,
    /// The size.
    pub offer: Offer,
    /// Rings of this kind that are needed for all pieces, where the text says how much is made.
    pub needed: Option<u64>,
    /// Whether each of the shelf's lines of this size has as many.
    pub enough: Vec<Enough>,
}

impl Pick {
    /// Whether some line of the shelf has enough: 0 yes, 1 not known, 2 no.
    fn rank(&self) -> u8 {
        let rank = |e: &Enough| match e {
            Enough::Yes => 0,
            Enough::Unknown => 1,
            Enough::Short(_) => 2,
        };
        self.enough.iter().map(rank).min().unwrap_or(1)
    }
}

/// Sizes with which the weave closes: found.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// One size for each kind.
    pub picks: Vec<Pick>,
    /// How much thicker all wires could be, as a part of them.
    pub room: f64,
    /// One repeat of the base drawn out, along each way, mm; none of a unit, and where it was not worked out.
    pub repeat_mm: Vec<f64>,
    /// How each accent sits, by the name of its family.
    pub sits: Vec<(String, Word)>,
    /// How many repeats are made, where the text says so or a length.
    pub size: Option<Repeats>,
}

impl Row {
    /// How close its rings lie.
    pub fn hold(&self) -> Hold {
        Hold::of(self.room)
    }

    /// Whether less than 3 % of room is a warning: rings are never quite as written.
    pub fn little_room(&self) -> bool {
        self.room < LITTLE_ROOM
    }

    /// How its accents sit, the worst first; `None` without accents.
    pub fn worst(&self) -> Option<Word> {
        [Word::Loose, Word::Askew, Word::Straight].into_iter().find(|word| self.sits.iter().any(|(_, w)| w == word))
    }

    /// What a maker would try first: accents that sit straight, then askew, then loose; room from 3 to 20 %, then less,
    /// then more; enough on hand, then not known, then too few; less room; the thicker wire; the larger ring.
    pub fn before(&self, other: &Self) -> Ordering {
        let key = |row: &Self| {
            let sits = match row.worst() {
                None | Some(Word::Straight) => 0_u8,
                Some(Word::Askew) => 1,
                Some(Word::Loose) => 2,
            };
            let room = if row.little_room() { 1_u8 } else { 2 * u8::from(row.hold() == Hold::Open) };
            (sits, room, row.picks.iter().map(Pick::rank).max().unwrap_or(1))
        };
        // Room as it is shown; of rows that show alike the thicker wire comes first.
        let shown = |row: &Self| libm::round(1000.0 * row.room);
        let sizes =
            |row: &Self| row.picks.iter().map(|p| [p.offer.wire_mm, p.offer.inner_mm]).collect::<Vec<_>>().concat();
        key(self).cmp(&key(other)).then_with(|| shown(self).total_cmp(&shown(other))).then_with(|| {
            let (one, two) = (sizes(self), sizes(other));
            let differing = two.iter().zip(&one).map(|(b, a)| b.total_cmp(a)).find(|o| o.is_ne());
            differing.unwrap_or(Ordering::Equal)
        })
    }
}

/// Sizes that are not among the rows, and why.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Misses {
    /// The wires do not go through a hole: proved.
    pub proved: usize,
    /// The base alone does not close with rings so small: no pose was found.
    pub base: usize,
    /// The weave does not close: no pose was found.
    pub not_found: usize,
    /// The survey takes them to be too tight; not settled.
    pub tight: usize,
    /// The survey takes them to close; not settled.
    pub promising: usize,
    /// Too unlike the others to be surveyed.
    pub beyond: usize,
    /// Those that come nearest to closing among those settled, and how much room they lack (below 0), the nearest first.
    pub nearest: Vec<(Vec<Offer>, f64)>,
}

/// A row's picks, with what is needed of each.
pub(super) fn picks(kinds: &[String], offers: &[&Offer], needs: &Needs) -> Vec<Pick> {
    let pick = |(kind, offer): (&String, &&Offer)| {
        let needed = needs.of(kind);
        // Rings of one size for two kinds come out of one bag.
        let together = || {
            let alike = kinds.iter().zip(offers).filter(|(_, other)| *other == offer);
            alike.map(|(kind, _)| needs.of(kind)).sum::<Option<u64>>()
        };
        let enough = |have: Option<u64>| match together().zip(have) {
            Some((needed, have)) if have >= needed => Enough::Yes,
            Some((needed, have)) => Enough::Short(needed - have),
            None => Enough::Unknown,
        };
        Pick {
            kind: kind.clone(),
            offer: (*offer).clone(),
            needed,
            enough: offer.rings.iter().map(|r| enough(r.on_hand)).collect(),
        }
    };
    kinds.iter().zip(offers).map(pick).collect()
}
