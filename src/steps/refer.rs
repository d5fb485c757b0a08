//! Which ring instructions speak of.

use super::follow::{Work, Wrong};
use super::sentence::{Lay, RingWords, WhichEye};
use super::told::{Lies, Name, Woven};

impl Work {
    /// Which ring is spoken of. An empty message: that is not clear.
    pub(super) fn name(&mut self, ring: &RingWords) -> Result<Name, Wrong> {
        let unclear = || Wrong::from("");
        let name = match ring {
            RingWords::Named(letter, numbers) => Name(letter.clone(), numbers.clone()),
            RingWords::It => {
                let last = self.hand.as_ref().or(self.woven.last()).map(|w| w.ring.what.clone());
                last.filter(|name| !name.0.is_empty()).ok_or("no ring was spoken of yet")?
            }
            RingWords::Next(closed) => {
                // What is opened next is an open ring; what is picked up and passed a closed one.
                let closed = closed.unwrap_or(self.hand.is_some());
                let letter =
                    if closed { &self.closed_letter } else { &self.open_letter }.clone().ok_or_else(unclear)?;
                let number = self.numbers.get(&letter).copied().unwrap_or(0).saturating_add(1);
                Name(letter, vec![number])
            }
            RingWords::Last(closed) => {
                let letter = match closed {
                    Some(true) => self.closed_letter.clone().ok_or_else(unclear)?,
                    _ => self.open_letter.clone().ok_or_else(unclear)?,
                };
                // Of open rings the last that is closed by now, and not the one in hand.
                let own = i32::from(*closed != Some(true) && self.hand.is_some());
                let number = self.numbers.get(&letter).copied().unwrap_or(0).saturating_sub(own);
                if number < 1 {
                    return Err(unclear());
                }
                Name(letter, vec![number])
            }
            RingWords::Loose => {
                let mut loose = self.rings.iter().filter(|(_, links)| **links == 1).map(|(name, _)| name.clone());
                // At the beginning of a chain a ring hangs by one as well: the last is meant.
                loose.next_back().ok_or_else(unclear)?
            }
            RingWords::OfBoth(of) => {
                let letter = self.closed_letter.clone().ok_or_else(unclear)?;
                let last = self.numbers.get(&letter).copied().filter(|n| *n > 1).ok_or_else(unclear)?;
                Name(letter, vec![last - 1 + of])
            }
            RingWords::OfEye(which, of) => {
                let letter = self.closed_letter.clone().ok_or_else(unclear)?;
                let first = match which {
                    WhichEye::First => 1,
                    WhichEye::Next => self.eye_in_hand.map_or(self.eye.saturating_add(1), |eye| eye),
                    WhichEye::Last => self.eye_in_hand.map_or(self.eye, |eye| eye.saturating_sub(1)),
                };
                if *of == 1 && *which != WhichEye::Last {
                    self.eye_in_hand = Some(first);
                }
                Name(letter, vec![first.saturating_add(*of)])
            }
        };
        self.note(&name);
        Ok(name)
    }

    /// Keeps count of the rings of each letter.
    pub(super) fn note(&mut self, name: &Name) {
        if let [number] = name.1.as_slice() {
            let most = self.numbers.entry(name.0.clone()).or_insert(*number);
            *most = (*most).max(*number);
        }
    }

    pub(super) fn names(&mut self, rings: &[RingWords]) -> Result<Vec<Name>, Wrong> {
        rings.iter().map(|r| self.name(r)).collect()
    }

    pub(super) fn lies(&mut self, lay: &Lay) -> Result<Lies, Wrong> {
        Ok(match lay {
            Lay::Behind(a, b) => Lies::Behind(self.name(a)?, self.name(b)?),
            Lay::Over(a, b) => Lies::Over(self.name(a)?, self.name(b)?),
            Lay::Side(a, far) => Lies::Side(self.name(a)?, *far),
            Lay::Between(a, all) => Lies::Between(self.name(a)?, self.names(all)?),
            Lay::Folded(all) => Lies::Folded(self.names(all)?),
        })
    }

    /// The eye a ring goes through: of the greatest two neighbours of the closed rings it passes one way.
    pub(super) fn eye_of(&self, woven: &Woven) -> Option<i32> {
        let letter = self.closed_letter.as_ref()?;
        let way = |n: i32| {
            let name = Name(letter.clone(), vec![n]);
            woven.passes.iter().find(|p| p.what.0 == name).map(|p| p.what.1)
        };
        let numbers = woven.passes.iter().filter(|p| p.what.0.0 == *letter).filter_map(|p| p.what.0.1.first().copied());
        numbers.filter(|n| way(*n).is_some() && way(*n) == way(n + 1)).max()
    }
}
