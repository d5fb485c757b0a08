//! What instructions tell, one ring after another, and where they tell it.

use std::ops::Range;

/// A ring by its letter, and its number or row and place; no numbers in a unit.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Name(pub String, pub Vec<i32>);

impl std::fmt::Display for Name {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let numbers: Vec<String> = self.1.iter().map(i32::to_string).collect();
        if numbers.is_empty() { write!(f, "ring {}", self.0) } else { write!(f, "{}{}", self.0, numbers.join(".")) }
    }
}

impl Name {
    /// The same ring so many places on.
    pub(super) fn on(&self, by: &[i32], times: i32) -> Self {
        let moved = self.1.iter().zip(by.iter().chain(std::iter::repeat(&0)));
        Self(self.0.clone(), moved.map(|(n, by)| n.saturating_add(by.saturating_mul(times))).collect())
    }
}

/// Something that cannot be done as it is said, or that is not as it is said to be.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    /// The number of the item.
    pub item: usize,
    /// The sentence, in bytes of the text.
    pub span: Range<usize>,
    /// What is wrong.
    pub message: String,
    /// Whether it hangs on what was done before: were that another, it might be right.
    pub follows: bool,
}

/// Something that is told, and the sentence that tells it, in bytes of the text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Told<T> {
    /// What is told.
    pub what: T,
    /// The sentence.
    pub span: Range<usize>,
}

/// A ring woven in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Woven {
    /// The ring, and the sentence that opens it, or closes it where none opens it.
    pub ring: Told<Name>,
    /// The number of the item that tells it, of the one that told it first, and, where those are two, the sentence that
    /// tells it again.
    pub item: usize,
    /// See `item`.
    pub first: usize,
    /// See `item`.
    pub again: Option<Range<usize>>,
    /// The closed rings it picks up.
    pub picks: Vec<Told<Name>>,
    /// What it passes, and whether down; `None` where no way is said.
    pub passes: Vec<Told<(Name, Option<bool>)>>,
    /// Where no way is said: pairs it goes through in one direction, and pairs it goes in by the one of and out by the other.
    pub pairs: Vec<Told<(Name, Name, bool)>>,
    /// How rings lie.
    pub lays: Vec<Told<Lies>>,
    /// Whether something that could not be read stands between its opening and its closing.
    pub unread: bool,
}

/// What is said of the work as it stands after so many rings are woven in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Claimed {
    /// What is said, and where.
    pub claim: Told<Claim>,
    /// The number of the item.
    pub item: usize,
    /// How many rings are woven in by then.
    pub woven: usize,
}

/// What can be said of the work.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Claim {
    /// So many rings are closed beforehand.
    Closed(usize, String),
    /// These rings are on the tie with which the work begins.
    Threaded(Vec<Name>),
    /// So many rings are in the work.
    Rings(usize),
    /// A ring is held by one other.
    Dangles(Name),
    /// The eyes lean to the left; else to the right.
    LeansLeft(bool),
    /// Steps were to be repeated, and could not be: up to this ring.
    Repeated(Option<Name>),
}

/// How rings lie, as it is told.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Lies {
    /// The first behind the second.
    Behind(Name, Name),
    /// The first over the second.
    Over(Name, Name),
    /// On the far side; else on the near one.
    Side(Name, bool),
    /// The first between the others.
    Between(Name, Vec<Name>),
    /// Folded back.
    Folded(Vec<Name>),
}

impl Lies {
    pub(super) fn on(&self, by: &[i32], times: i32) -> Self {
        let on = |name: &Name| name.on(by, times);
        match self {
            Self::Behind(a, b) => Self::Behind(on(a), on(b)),
            Self::Over(a, b) => Self::Over(on(a), on(b)),
            Self::Side(a, far) => Self::Side(on(a), *far),
            Self::Between(a, all) => Self::Between(on(a), all.iter().map(on).collect()),
            Self::Folded(all) => Self::Folded(all.iter().map(on).collect()),
        }
    }
}

impl<T> Told<T> {
    fn map<U>(&self, change: impl FnOnce(&T) -> U) -> Told<U> {
        Told { what: change(&self.what), span: self.span.clone() }
    }
}

impl Woven {
    pub(super) fn new(ring: Name, at: &Here) -> Self {
        Self {
            ring: at.told(ring),
            item: at.item,
            first: at.item,
            again: None,
            picks: Vec::new(),
            passes: Vec::new(),
            pairs: Vec::new(),
            lays: Vec::new(),
            unread: false,
        }
    }

    /// The same so many places on, told again here.
    pub(super) fn on(&self, by: &[i32], times: i32, at: &Here) -> Self {
        let on = |name: &Name| name.on(by, times);
        Self {
            ring: self.ring.map(on),
            item: at.item,
            first: self.first,
            again: Some(at.span.clone()),
            picks: self.picks.iter().map(|p| p.map(on)).collect(),
            passes: self.passes.iter().map(|p| p.map(|(name, down)| (on(name), *down))).collect(),
            pairs: self.pairs.iter().map(|p| p.map(|(a, b, one_way)| (on(a), on(b), *one_way))).collect(),
            lays: self.lays.iter().map(|l| l.map(|l| l.on(by, times))).collect(),
            unread: self.unread,
        }
    }
}

/// The sentence that is being carried out.
pub(super) struct Here {
    pub item: usize,
    pub span: Range<usize>,
}

impl Here {
    pub fn told<T>(&self, what: T) -> Told<T> {
        Told { what, span: self.span.clone() }
    }
}
