//! Sizes with which a weave closes, and the order in which a maker would try them.

use super::offer::Offer;
use crate::pattern::Repeats;
use crate::settle::{Hold, LITTLE_ROOM, Seat, Word};
use std::cmp::Ordering;

/// Whether a line of the shelf has enough rings.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Enough {
    /// As many as are needed, or more.
    Yes,
    /// How many are missing.
    Short(u64),
    /// The shelf does not give the number of rings, or the text does not say how much is made.
    Unknown,
}

/// The size chosen for one kind.
#[derive(Clone, Debug, PartialEq)]
pub struct Pick {
    /// The kind.
    pub kind: String,
    /// The size.
    pub offer: Offer,
    /// How many rings of this kind all pieces need; `None` where the text does not say how much is made.
    pub needed: Option<u64>,
    /// Whether each of the shelf's lines of this size has enough.
    pub enough: Vec<Enough>,
}

/// Whether some line of the shelf has enough, the best first.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum OnHand {
    Enough,
    Unknown,
    TooFew,
}

impl Pick {
    fn on_hand(&self) -> OnHand {
        let of_line = |enough: &Enough| match enough {
            Enough::Yes => OnHand::Enough,
            Enough::Unknown => OnHand::Unknown,
            Enough::Short(_) => OnHand::TooFew,
        };
        self.enough.iter().map(of_line).min().unwrap_or(OnHand::Unknown)
    }
}

/// Sizes with which the weave closes: found.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// One size for each kind.
    pub picks: Vec<Pick>,
    /// How much thicker all wires could be, as a part of them.
    pub room: f64,
    /// Length of one repeat of the base drawn out, along each way, mm; empty for a unit, and where it is not known.
    pub repeat_mm: Vec<f64>,
    /// How each family of accents sits.
    pub sits: Vec<Seat>,
    /// How many repeats one piece has, where the text gives their number or a length.
    pub size: Option<Repeats>,
}

/// How accents sit, the best first.
#[derive(PartialEq, Eq, PartialOrd, Ord)]
enum Sitting {
    Straight,
    Askew,
    Loose,
}

/// How much room a row has, the best first.
#[derive(PartialEq, Eq, PartialOrd, Ord)]
enum Ease {
    /// From 3 to 20 %.
    Right,
    Little,
    Open,
}

impl Row {
    /// How close its rings lie.
    pub fn hold(&self) -> Hold {
        Hold::of(self.room)
    }

    /// Whether it has less than 3 % of room: rings are never exactly of the size they are sold as.
    pub fn little_room(&self) -> bool {
        self.room < LITTLE_ROOM
    }

    /// How the accents sit that sit worst; `None` without accents.
    pub fn worst(&self) -> Option<Word> {
        Seat::worst(&self.sits)
    }

    /// Whether all accents sit straight; so does a row without accents.
    pub(super) fn straight(&self) -> bool {
        matches!(self.worst(), None | Some(Word::Straight))
    }

    /// What a maker would try first: accents that sit straight, then askew, then loose; room from 3 to 20 %, then less,
    /// then more; enough on hand, then not known, then too few; less room; the thicker wire; the larger ring.
    pub fn before(&self, other: &Self) -> Ordering {
        let rank = |row: &Self| (row.sitting(), row.ease(), row.on_hand());
        // Room to the decimals that are shown, so that the thicker wire comes first where they are equal.
        let room = |row: &Self| libm::round(1000.0 * row.room);
        rank(self).cmp(&rank(other)).then_with(|| room(self).total_cmp(&room(other))).then_with(|| other.by_size(self))
    }

    fn sitting(&self) -> Sitting {
        match self.worst() {
            None | Some(Word::Straight) => Sitting::Straight,
            Some(Word::Askew) => Sitting::Askew,
            Some(Word::Loose) => Sitting::Loose,
        }
    }

    fn ease(&self) -> Ease {
        match self.hold() {
            _ if self.little_room() => Ease::Little,
            Hold::Open => Ease::Open,
            Hold::Dense | Hold::Middling => Ease::Right,
        }
    }

    fn on_hand(&self) -> OnHand {
        self.picks.iter().map(Pick::on_hand).max().unwrap_or(OnHand::Unknown)
    }

    /// By the wire of the first kind, then its inner diameter, then those of the second kind.
    fn by_size(&self, other: &Self) -> Ordering {
        let both = self.picks.iter().zip(&other.picks).map(|(a, b)| (&a.offer, &b.offer));
        both.map(|(a, b)| a.wire_mm.total_cmp(&b.wire_mm).then(a.inner_mm.total_cmp(&b.inner_mm)))
            .find(|order| order.is_ne())
            .unwrap_or(Ordering::Equal)
    }
}
