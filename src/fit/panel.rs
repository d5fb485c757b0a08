//! What a map of wire against inner diameter shows: one panel for each kind.

use super::choose::Fit;
use super::offer::Offer;
use crate::settle::Word;

/// How a size stands on a map.
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
    /// How it stands.
    pub standing: Standing,
    /// The first row it is in, from 1.
    pub row: Option<usize>,
}

/// The map of one kind.
#[derive(Clone, Debug, PartialEq)]
pub struct Panel {
    /// The kind.
    pub kind: String,
    /// The other kinds and their sizes, where these are held.
    pub held: Vec<(String, Offer)>,
    /// Whether the region was read off the survey: a guess.
    pub guessed: bool,
    /// Aspect ratios that bound it, and what they mean.
    pub floors: Vec<(f64, &'static str)>,
    /// All sizes there are to choose from.
    pub marks: Vec<Mark>,
}

impl Fit {
    /// The panels of a map, one for each kind. The second kind is shown with the first as it is in the first row, or in
    /// what comes nearest to closing.
    pub fn panels(&self) -> Vec<Panel> {
        let panel = |number: usize| {
            let kind = self.kinds.get(number)?.clone();
            let held = self.held(number);
            let floor = self.floors.first();
            let floors: Vec<(f64, &'static str)> = match (number, self.kinds.len(), self.base_floor) {
                _ if !self.held.is_empty() => Vec::new(),
                (0, _, Some(floor)) => vec![(floor, "base alone: found")],
                // To the decimals that are shown.
                (0, 1, None) if floor.is_some_and(|f| (f.found - f.proved).abs() < 5e-4) => {
                    floor.map(|f| (f.found, "proved and found")).into_iter().collect()
                }
                (0, 1, None) => floor
                    .map(|f| [(f.proved, "proved"), (f.found, "found")])
                    .into_iter()
                    .flatten()
                    .filter(|(ratio, _)| *ratio > 0.0)
                    .collect(),
                _ => Vec::new(),
            };
            let marks =
                self.offers.iter().map(|offer| self.mark(number, offer, held.as_ref().map(|(_, o)| o))).collect();
            let guessed = held.is_some() || !self.held.is_empty();
            let held = held.map_or_else(|| self.held.clone(), |held| vec![held]);
            Some(Panel { kind, held, guessed, floors, marks })
        };
        (0..self.kinds.len()).filter_map(panel).collect()
    }

    /// About how much room there is with a wire and an inner diameter (mm) in a panel, by number; `None` where nothing is
    /// known.
    pub fn room_at(&self, panel: usize, wire_mm: f64, inner_mm: f64) -> Option<f64> {
        if !self.held.is_empty() {
            return self.room_beside(wire_mm, inner_mm);
        }
        let of = |ratio: f64, floor: f64| (ratio + 1.0) / (floor + 1.0) - 1.0;
        let Some((_, held)) = self.held(panel) else {
            let floor = self.base_floor.or_else(|| self.floors.first().map(|f| f.found));
            return floor.map(|floor| of(inner_mm / wire_mm, floor));
        };
        let own = (wire_mm, 0.5 * (inner_mm + wire_mm), inner_mm / wire_mm);
        let other = (held.wire_mm, held.radius(), held.ratio());
        let (first, second) = if panel == 0 { (own, other) } else { (other, own) };
        let floor = self.survey.as_ref()?.floor([second.1 / first.1, second.0 / first.0])?;
        Some(of(first.2, floor))
    }

    /// The other kind and its size, where a panel depends on it.
    fn held(&self, panel: usize) -> Option<(String, Offer)> {
        if self.kinds.len() < 2 || panel == 0 && self.base_floor.is_some() {
            return None;
        }
        let other = 1 - panel.min(1);
        let in_row = self.rows.first().and_then(|r| r.picks.get(other)).map(|p| &p.offer);
        let nearest = || self.misses.nearest.first().and_then(|(offers, _)| offers.get(other));
        Some((self.kinds.get(other)?.clone(), in_row.or_else(nearest)?.clone()))
    }

    fn mark(&self, panel: usize, offer: &Offer, held: Option<&Offer>) -> Mark {
        let other = 1 - panel.min(1);
        let is = |offers: &[&Offer]| {
            offers.get(panel) == Some(&offer) && held.is_none_or(|held| offers.get(other) == Some(&held))
        };
        let row = self.rows.iter().position(|r| is(&r.picks.iter().map(|p| &p.offer).collect::<Vec<_>>()));
        let not = || {
            let alone = self.base_floor.filter(|_| panel == 0).is_some_and(|floor| offer.ratio() < floor);
            let near = self.misses.nearest.iter().any(|(offers, _)| is(&offers.iter().collect::<Vec<_>>()));
            alone
                || self.kinds.len() == 1 && self.base_floor.is_none() && self.held.is_empty()
                || (held.is_some() || !self.held.is_empty()) && near
        };
        let standing = match row.and_then(|n| self.rows.get(n)).map(super::rows::Row::worst) {
            Some(None | Some(Word::Straight)) => Standing::Closes,
            Some(Some(word)) => Standing::Sits(word),
            None if not() => Standing::Not,
            None => Standing::NotSettled,
        };
        Mark { wire_mm: offer.wire_mm, inner_mm: offer.inner_mm, standing, row: row.map(|n| n + 1) }
    }
}
