//! Which ring instructions speak of.

use super::events::{Moves, Name};
use super::follow::{Stopped, Work};
use super::impossible::Impossible;
use super::sentence::{OfTwo, RingWords, WhichEye};
use crate::notation::State;

impl Work {
    /// The ring that is spoken of.
    pub(super) fn name(&mut self, ring: &RingWords) -> Result<Name, Stopped> {
        let name = match ring {
            RingWords::Named(letter, numbers) => Name { letter: letter.clone(), numbers: numbers.clone() },
            RingWords::It => match &self.hand {
                Some(hand) => hand.ring.clone().ok_or(Impossible::NoRingYet)?,
                None => self.woven.last().map(|w| w.ring.what.clone()).ok_or(Impossible::NoRingYet)?,
            },
            RingWords::Next(state) => {
                // What is opened next is an open ring; what is picked up and passed a closed one.
                let state = state.unwrap_or(if self.hand.is_some() { State::Closed } else { State::Open });
                let letter = self.letter(state)?;
                let number = self.greatest(&letter).saturating_add(1);
                Name::in_chain(letter, number)
            }
            RingWords::Last(state) => self.last(state.unwrap_or(State::Open))?,
            RingWords::Loose => {
                let mut loose = self.rings.iter().filter(|(_, links)| **links == 1).map(|(name, _)| name.clone());
                // At the beginning of a chain a ring hangs by one as well: the last is meant.
                loose.next_back().ok_or(Stopped::Unclear)?
            }
            RingWords::OfBoth(of) => {
                let letter = self.letter(State::Closed)?;
                let first = Some(self.greatest(&letter) - 1).filter(|n| *n > 0).ok_or(Stopped::Unclear)?;
                Name::in_chain(letter, first + of.places_on())
            }
            RingWords::OfEye(eye, of) => {
                let letter = self.letter(State::Closed)?;
                let first = self.first_of_eye(*eye, *of);
                Name::in_chain(letter, first.saturating_add(of.places_on()))
            }
        };
        self.note(&name);
        Ok(name)
    }

    /// The letter of the closed or the open rings, where there is one alone.
    fn letter(&self, state: State) -> Result<String, Stopped> {
        match state {
            State::Closed => &self.letters.closed,
            State::Open => &self.letters.open,
        }
        .clone()
        .ok_or(Stopped::Unclear)
    }

    /// The greatest number of a letter so far; 0 where there is none.
    fn greatest(&self, letter: &str) -> i32 {
        self.numbers.get(letter).copied().unwrap_or(0)
    }

    /// The last ring that came in. Of open rings the last that is closed by now, and not the one in hand.
    fn last(&self, state: State) -> Result<Name, Stopped> {
        let letter = self.letter(state)?;
        let in_hand = i32::from(state == State::Open && self.hand.is_some());
        let number = self.greatest(&letter).saturating_sub(in_hand);
        if number < 1 { Err(Stopped::Unclear) } else { Ok(Name::in_chain(letter, number)) }
    }

    /// The number of the first ring of an eye. With the second ring of an eye that is gone through, it is the eye in hand.
    fn first_of_eye(&mut self, eye: WhichEye, of: OfTwo) -> i32 {
        let first = match eye {
            WhichEye::First => 1,
            WhichEye::Next => self.eye_in_hand.unwrap_or(self.eye.saturating_add(1)),
            WhichEye::Last => self.eye_in_hand.map_or(self.eye, |eye| eye.saturating_sub(1)),
        };
        if of == OfTwo::Second && eye != WhichEye::Last {
            self.eye_in_hand = Some(first);
        }
        first
    }

    /// Keeps count of the rings of each letter.
    pub(super) fn note(&mut self, name: &Name) {
        if let [number] = name.numbers.as_slice() {
            let most = self.numbers.entry(name.letter.clone()).or_insert(*number);
            *most = (*most).max(*number);
        }
    }

    pub(super) fn names(&mut self, rings: &[RingWords]) -> Result<Vec<Name>, Stopped> {
        rings.iter().map(|r| self.name(r)).collect()
    }

    /// The eye a ring goes through: of the greatest two neighbours of the closed rings it passes one way.
    pub(super) fn eye_of(&self, moves: &Moves) -> Option<i32> {
        let letter = self.letters.closed.as_ref()?;
        let direction = |number: i32| {
            let passed = moves.passed(&Name::in_chain(letter.clone(), number));
            passed.map(|p| p.what.direction)
        };
        let closed = moves.passes.iter().map(|p| &p.what.ring).filter(|ring| ring.letter == *letter);
        let numbers = closed.filter_map(|ring| ring.numbers.first().copied());
        numbers.filter(|n| direction(*n).is_some() && direction(*n) == direction(n + 1)).max()
    }
}
