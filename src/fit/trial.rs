//! What comes of settling a weave with certain sizes, and the row it makes.

use super::need::Counter;
use super::offer::Offer;
use super::row::Row;
use crate::Weave;
use crate::count::Reach;
use crate::settle::{Seat, Word};

/// What is known of a weave with certain sizes.
#[derive(Clone, Debug)]
pub(super) struct Trial {
    /// Whether it closes.
    pub closes: bool,
    /// How much thicker all wires could be, as a part of them; below 0 where it does not close.
    pub room: f64,
    /// How far its rings reach, where that is known.
    pub reach: Option<Reach>,
    /// How its accents sit.
    pub sits: Vec<Seat>,
}

impl Trial {
    /// Settles a weave with these sizes, wire and inner diameter of each kind, mm. `None` where no pose is found.
    pub fn of(weave: &Weave, sizes: &[(&str, (f64, f64))]) -> Option<Self> {
        let there = weave.with_sizes(sizes);
        let settled = there.settled().ok()?;
        Some(Self {
            closes: settled.closes() == Some(true),
            room: settled.room()?,
            reach: Reach::of(settled),
            sits: settled.seats(there.pattern()),
        })
    }

    /// Whether it closes and all accents sit straight.
    pub fn straight(&self) -> bool {
        self.closes && self.sits.iter().all(|seat| seat.word == Word::Straight)
    }

    /// The same with all rings `by` times as large.
    #[must_use]
    pub fn scaled(&self, by: f64) -> Self {
        Self { reach: self.reach.as_ref().map(|reach| reach.scaled(by)), ..self.clone() }
    }

    /// The row of these sizes, one for each of `kinds`.
    pub fn row(self, kinds: &[String], offers: &[&Offer], counter: &Counter) -> Row {
        let needs = counter.needs(self.reach.as_ref());
        Row {
            picks: needs.picks(kinds, offers),
            room: self.room.max(0.0),
            repeat_mm: self.reach.map_or_else(Vec::new, |reach| reach.pitch_mm),
            sits: self.sits,
            size: needs.size,
        }
    }
}
