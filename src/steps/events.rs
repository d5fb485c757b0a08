//! What instructions tell of the work, one ring after another, and which sentence tells it.

use super::impossible::Impossible;
use crate::notation::{Hand, State};
use crate::pattern::{FamilyId, Lattice, Lies, Pattern, Shift};
use std::ops::Range;

/// A ring by its letter, and its number or row and place; no numbers in a unit.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Name {
    /// Its letter.
    pub letter: String,
    /// Its number in a chain, its row and its place in a sheet, nothing in a unit.
    pub numbers: Vec<i32>,
}

impl std::fmt::Display for Name {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let numbers: Vec<String> = self.numbers.iter().map(i32::to_string).collect();
        if numbers.is_empty() {
            write!(f, "ring {}", self.letter)
        } else {
            write!(f, "{}{}", self.letter, numbers.join("."))
        }
    }
}

impl Name {
    /// The name of a ring of a weave.
    pub fn of(pattern: &Pattern, family: FamilyId, at: Shift) -> Self {
        let letter = pattern.family_name(family).to_owned();
        let numbers = match pattern.lattice {
            Lattice::Unit => Vec::new(),
            Lattice::Chain => vec![at.row],
            Lattice::Sheet => at.to_array().to_vec(),
        };
        Self { letter, numbers }
    }

    /// A ring of a chain.
    pub(super) fn in_chain(letter: String, number: i32) -> Self {
        Self { letter, numbers: vec![number] }
    }

    /// The ring this many places on, this many times.
    pub(super) fn on(&self, by: &[i32], times: i32) -> Self {
        let moved = self.numbers.iter().zip(by.iter().chain(std::iter::repeat(&0)));
        let numbers = moved.map(|(n, by)| n.saturating_add(by.saturating_mul(times))).collect();
        Self { letter: self.letter.clone(), numbers }
    }
}

/// A mistake that is found while instructions are followed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    /// The number of the item.
    pub item: usize,
    /// The sentence, in bytes of the text.
    pub span: Range<usize>,
    /// What is wrong.
    pub why: Impossible,
}

/// Something a sentence says, with the place of the sentence, in bytes of the text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct InText<T> {
    /// What it says.
    pub what: T,
    /// The sentence.
    pub span: Range<usize>,
}

/// Which way a ring is passed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Direction {
    /// From its back to its front, towards the maker.
    Up,
    /// From its front to its back, away from the maker.
    Down,
}

impl Direction {
    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Down => "down",
            Self::Up => "up",
        }
    }

    /// The other one.
    #[must_use]
    pub fn other(self) -> Self {
        match self {
            Self::Down => Self::Up,
            Self::Up => Self::Down,
        }
    }

    /// The sign of the link it makes: +1 down, −1 up.
    pub fn sign(self) -> i8 {
        match self {
            Self::Down => 1,
            Self::Up => -1,
        }
    }

    /// The way that makes a link of this sign.
    pub fn of_sign(sign: i8) -> Self {
        if sign > 0 { Self::Down } else { Self::Up }
    }
}

/// A ring that is passed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Passed {
    /// The ring.
    pub ring: Name,
    /// Which way; `None` where the text does not say.
    pub direction: Option<Direction>,
}

/// How a ring goes by two others.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ByPair {
    /// Through both in one direction.
    Through,
    /// In by one and out by the other.
    Around,
}

impl ByPair {
    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Through => "through",
            Self::Around => "around",
        }
    }

    /// The other one.
    #[must_use]
    pub fn other(self) -> Self {
        match self {
            Self::Through => Self::Around,
            Self::Around => Self::Through,
        }
    }

    /// What two links of these signs make.
    pub fn of_signs(one: i8, other: i8) -> Self {
        if one == other { Self::Through } else { Self::Around }
    }
}

/// Two rings that are passed one after the other, where the text says neither down nor up.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PassedPair {
    /// The first.
    pub one: Name,
    /// The second.
    pub other: Name,
    /// How the ring goes by them.
    pub goes: ByPair,
}

/// What is done with a ring between its opening and its closing.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Moves {
    /// The closed rings it picks up.
    pub picks: Vec<InText<Name>>,
    /// The rings it passes.
    pub passes: Vec<InText<Passed>>,
    /// Pairs it passes, where the text says neither down nor up.
    pub pairs: Vec<InText<PassedPair>>,
    /// How rings lie.
    pub lies: Vec<InText<Lies<Name>>>,
    /// Whether a sentence among them could not be read.
    pub unread: bool,
}

/// A ring woven in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Woven {
    /// The ring, and the sentence that opens it, or closes it where none opens it.
    pub ring: InText<Name>,
    /// The number of the item with that sentence.
    pub item: usize,
    /// The sentence that has the item done again, for a ring of a later round.
    pub repeated: Option<Here>,
    /// What is done with it.
    pub moves: Moves,
}

/// A statement on the work at some point.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Claimed {
    /// The statement.
    pub claim: InText<Claim>,
    /// The number of the item.
    pub item: usize,
    /// How many rings are woven in by then.
    pub woven: usize,
}

/// What can be said of the work.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Claim {
    /// The number of rings of a letter that are closed beforehand.
    Closed(usize, String),
    /// These rings are on the tie with which the work begins.
    Threaded(Vec<Name>),
    /// The number of rings in the work.
    Rings(usize),
    /// A ring is held by one other.
    Dangles(Name),
    /// The eyes lean this way.
    Leans(Hand),
    /// Steps were to be repeated up to this ring, and could not be.
    Repeated(Option<Name>),
}

/// Rings that are needed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Need {
    /// How many.
    pub count: usize,
    /// Their letter.
    pub letter: String,
    /// Closed beforehand, or open.
    pub state: State,
}

/// A sentence, and the item it belongs to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Here {
    /// The number of the item.
    pub item: usize,
    /// The place of the sentence, in bytes of the text.
    pub span: Range<usize>,
}

impl Here {
    pub(super) fn says<T>(&self, what: T) -> InText<T> {
        InText { what, span: self.span.clone() }
    }
}

impl<T> InText<T> {
    fn map<U>(&self, change: impl FnOnce(&T) -> U) -> InText<U> {
        InText { what: change(&self.what), span: self.span.clone() }
    }
}

impl Moves {
    /// The way a ring is passed, as far as it is told; `None` where the ring is not passed.
    pub fn passed(&self, ring: &Name) -> Option<&InText<Passed>> {
        self.passes.iter().find(|p| p.what.ring == *ring)
    }

    fn on(&self, by: &[i32], times: i32) -> Self {
        let on = |name: &Name| name.on(by, times);
        let passed = |p: &Passed| Passed { ring: on(&p.ring), ..p.clone() };
        let pair = |p: &PassedPair| PassedPair { one: on(&p.one), other: on(&p.other), goes: p.goes };
        Self {
            picks: self.picks.iter().map(|p| p.map(on)).collect(),
            passes: self.passes.iter().map(|p| p.map(passed)).collect(),
            pairs: self.pairs.iter().map(|p| p.map(pair)).collect(),
            lies: self.lies.iter().map(|l| l.map(|l| l.map(on))).collect(),
            unread: self.unread,
        }
    }
}

impl Woven {
    /// The same ring of a later round, which this sentence has done again.
    pub(super) fn on(&self, by: &[i32], times: i32, here: &Here) -> Self {
        Self {
            ring: self.ring.map(|name| name.on(by, times)),
            item: self.item,
            repeated: Some(here.clone()),
            moves: self.moves.on(by, times),
        }
    }

    /// The sentence that has it woven in: that of the repeat, in a later round.
    pub fn place(&self) -> &Range<usize> {
        self.repeated.as_ref().map_or(&self.ring.span, |here| &here.span)
    }

    /// The number of the item that has it woven in.
    pub fn item_told(&self) -> usize {
        self.repeated.as_ref().map_or(self.item, |here| here.item)
    }
}
