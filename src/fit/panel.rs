//! What a map of wire against inner diameter shows: one panel for each kind.

use super::answer::{Fit, Held};
use super::offer::{Offer, ring, room};
use super::row::Row;
use super::survey::ratios;
use crate::settle::Word;

/// What is known of a size on a map.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// It closes, and accents, if there are any, sit straight.
    Closes,
    /// It closes; the accent sits askew or loose.
    Sits(Word),
    /// No pose was found, or it is proved that there is none.
    Not,
    /// It was not settled.
    NotSettled,
}

/// A size on a map.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    /// Wire diameter, mm.
    pub wire_mm: f64,
    /// Inner diameter, mm.
    pub inner_mm: f64,
    /// What is known of it.
    pub standing: Standing,
    /// The first row it is in, from 1.
    pub row: Option<usize>,
}

/// How an aspect ratio is known to bound what closes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Proof {
    /// The smallest found with which the base alone closes.
    BaseFound,
    /// The smallest found to close.
    Found,
    /// Proved: no smaller one closes.
    Proved,
    /// The smallest found to close is the proved minimum.
    ProvedAndFound,
}

impl Proof {
    /// The words beside its line.
    pub fn words(self) -> &'static str {
        match self {
            Self::BaseFound => "base alone: found",
            Self::Found => "found",
            Self::Proved => "proved",
            Self::ProvedAndFound => "proved and found",
        }
    }
}

/// A line of one aspect ratio on a map.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FloorLine {
    /// The aspect ratio.
    pub ratio: f64,
    /// How it is known.
    pub proof: Proof,
}

/// The map of one kind.
#[derive(Clone, Debug, PartialEq)]
pub struct Panel {
    /// The kind.
    pub kind: String,
    /// The other kinds and the sizes with which the panel is drawn.
    pub held: Vec<Held>,
    /// Whether the region was read off the survey: a guess.
    pub guessed: bool,
    /// Aspect ratios that bound it.
    pub floors: Vec<FloorLine>,
    /// All sizes there are to choose from.
    pub marks: Vec<Mark>,
}

/// Where floor and proved minimum differ by less, they are shown as one: to the decimals on a map.
const SHOWN: f64 = 5e-4;

impl Fit {
    /// The panels of a map, one for each kind. The second kind is shown with the first as it is in the first row, or in
    /// what comes nearest to closing.
    pub fn panels(&self) -> Vec<Panel> {
        let panel = |(number, kind): (usize, &String)| {
            let beside = self.beside_panel(number);
            let marks = self.offers.iter().map(|offer| self.mark(number, offer, beside.as_ref())).collect();
            let held = beside.map_or_else(|| self.held.clone(), |held| vec![held]);
            Panel { kind: kind.clone(), guessed: !held.is_empty(), held, floors: self.floor_lines(number), marks }
        };
        self.kinds.iter().enumerate().map(panel).collect()
    }

    /// About how much room there is with a wire and an inner diameter, mm, in a panel, by number; `None` where nothing is
    /// known.
    pub fn room_at(&self, panel: usize, wire_mm: f64, inner_mm: f64) -> Option<f64> {
        if !self.held.is_empty() {
            return self.beside.as_ref()?.room(ring(wire_mm, inner_mm));
        }
        let ratio = inner_mm / wire_mm;
        let Some(held) = self.beside_panel(panel) else {
            let floor = self.base_floor.or_else(|| self.floors.first().map(|floor| floor.found))?;
            return Some(room(ratio, floor));
        };
        let own = (ring(wire_mm, inner_mm), ratio);
        let other = (held.offer.ring(), held.offer.ratio());
        let ((first, ratio), (second, _)) = if panel == 0 { (own, other) } else { (other, own) };
        Some(room(ratio, self.survey.as_ref()?.floor(ratios(first, second))?))
    }

    /// The lines of aspect ratios in a panel.
    fn floor_lines(&self, panel: usize) -> Vec<FloorLine> {
        let line = |ratio: f64, proof: Proof| FloorLine { ratio, proof };
        if panel > 0 || !self.held.is_empty() {
            return Vec::new();
        }
        if let Some(floor) = self.base_floor {
            return vec![line(floor, Proof::BaseFound)];
        }
        match (self.kinds.as_slice(), self.floors.first()) {
            ([_], Some(floor)) if (floor.found - floor.proved).abs() < SHOWN => {
                vec![line(floor.found, Proof::ProvedAndFound)]
            }
            ([_], Some(floor)) => [line(floor.proved, Proof::Proved), line(floor.found, Proof::Found)]
                .into_iter()
                .filter(|line| line.ratio > 0.0)
                .collect(),
            _ => Vec::new(),
        }
    }

    /// The other kind and its size, where both are chosen and a panel depends on it.
    fn beside_panel(&self, panel: usize) -> Option<Held> {
        let (other, kind) = self.other_kind(panel)?;
        if panel == 0 && self.base_floor.is_some() {
            return None;
        }
        let in_row = self.rows.first().and_then(|row| row.picks.get(other)).map(|pick| &pick.offer);
        let nearest = || self.misses.nearest.first().and_then(|nearest| nearest.offers.get(other));
        Some(Held { kind: kind.clone(), offer: in_row.or_else(nearest)?.clone() })
    }

    /// The kind that is not that of a panel, of two.
    fn other_kind(&self, panel: usize) -> Option<(usize, &String)> {
        self.kinds.iter().enumerate().find(|(number, _)| *number != panel)
    }

    fn mark(&self, panel: usize, offer: &Offer, beside: Option<&Held>) -> Mark {
        let other = self.other_kind(panel).map(|(number, _)| number);
        let shows = |offers: &[&Offer]| {
            let held = other.and_then(|other| offers.get(other));
            offers.get(panel) == Some(&offer) && beside.is_none_or(|beside| held == Some(&&beside.offer))
        };
        let in_row = |row: &Row| shows(&row.picks.iter().map(|pick| &pick.offer).collect::<Vec<_>>());
        let found = self.rows.iter().enumerate().find(|(_, row)| in_row(row));
        let nearly = || self.misses.nearest.iter().any(|n| shows(&n.offers.iter().collect::<Vec<_>>()));
        let guessed = beside.is_some() || !self.held.is_empty();
        let standing = match (found.map(|(_, row)| row.worst()), self.base_floor) {
            (Some(None | Some(Word::Straight)), _) => Standing::Closes,
            (Some(Some(word)), _) => Standing::Sits(word),
            (None, Some(floor)) if panel == 0 && offer.ratio() < floor => Standing::Not,
            // Of one kind without accents every size was answered.
            (None, None) if self.kinds.len() == 1 && self.held.is_empty() => Standing::Not,
            (None, _) if guessed && nearly() => Standing::Not,
            (None, _) => Standing::NotSettled,
        };
        let row = found.map(|(number, _)| number + 1);
        Mark { wire_mm: offer.wire_mm, inner_mm: offer.inner_mm, standing, row }
    }
}
