//! The answer: sizes with which a weave closes, those with which it does not, and why.

use super::gaps::Gap;
use super::offer::{Offer, Offers};
use super::row::Row;
use super::survey::{Beside, Survey};
use crate::Weave;
use crate::pattern::Lattice;
use crate::settle::{Floor, NotSettled, Settled};
use crate::shelf::ShelfRing;
use crate::text::{list, singular_or_plural};
use schemars::JsonSchema;
use serde::Serialize;

/// How many of the sizes that come nearest to closing are named.
const MOST_NEAREST: usize = 3;

/// Which rings make a weave.
#[derive(Clone, Debug)]
pub struct Fit {
    /// The name of the weave.
    pub weave: String,
    /// Whether it is a chain that could curl where it does not close straight; this is not looked at.
    pub may_curl: bool,
    /// The kinds whose sizes are chosen, that of the first family first.
    pub kinds: Vec<String>,
    /// The other kinds, where one kind alone is chosen; empty where all are.
    pub held: Vec<Held>,
    /// Whether sizes are those of a shelf.
    pub from_shelf: bool,
    /// All sizes there are to choose from.
    pub offers: Vec<Offer>,
    /// Lines of the shelf that are left out because their rings stretch.
    pub stretching: Vec<ShelfRing>,
    /// The floors of the chosen kinds, from the settled weave.
    pub floors: Vec<Floor>,
    /// The smallest aspect ratio with which the base closes without its accents; `None` where it has no accents or is of
    /// several kinds.
    pub base_floor: Option<f64>,
    /// Sizes with which the weave closes, in the order a maker would try them.
    pub rows: Vec<Row>,
    /// What is not among them, and why.
    pub misses: Misses,
    /// Sizes of the base for which no accent was found, and the accent to try.
    pub gaps: Vec<Gap>,
    /// What the answer took.
    pub work: Work,
    /// The survey of two kinds, where both are chosen.
    pub(super) survey: Option<Survey>,
    /// The survey of one kind beside the others, where it alone is chosen.
    pub(super) beside: Option<Beside>,
}

/// A kind that is not chosen, with the size the text gives it.
#[derive(Clone, Debug, PartialEq)]
pub struct Held {
    /// The kind.
    pub kind: String,
    /// Its size.
    pub offer: Offer,
}

/// Sizes that are not among the rows, counted by the reason.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Misses {
    /// The wires do not go through a hole: proved.
    pub proved: usize,
    /// The base alone does not close with rings so small: no pose was found.
    pub base: usize,
    /// The weave does not close: no pose was found.
    pub not_found: usize,
    /// They look too tight in the survey; not settled.
    pub tight: usize,
    /// They look as if they close in the survey; not settled.
    pub promising: usize,
    /// Their rings are too unlike to be surveyed; not settled.
    pub beyond: usize,
    /// Those of `not_found` that come nearest to closing, the nearest first.
    pub nearest: Vec<Nearest>,
}

/// Sizes with which the weave nearly closes.
#[derive(Clone, Debug, PartialEq)]
pub struct Nearest {
    /// One size for each kind.
    pub offers: Vec<Offer>,
    /// How much thicker all wires could be, as a part of them: below 0. `None` where no pose was found with any wire.
    pub room: Option<f64>,
}

/// What an answer took.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Work {
    /// Shapes settled.
    pub settled: usize,
    /// Points surveyed.
    pub surveyed: usize,
    /// Lengths pulled.
    pub pulled: usize,
}

/// Why there is no answer.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NotFitted {
    /// The weave does not settle.
    #[error(transparent)]
    NotSettled(NotSettled),
    /// All kinds of ring were to be chosen, and there are more than two.
    #[error(
        "it has {} kinds of ring ({}); sizes are chosen for at most two at once, so choose one and keep the others as the text has them: `--kind {}`",
        .0.len(), .0.join(", "), .0.last().map_or("main", String::as_str)
    )]
    TooManyKinds(Vec<String>),
    /// The weave has no kind of this name.
    #[error("no ring is of the kind `{kind}`; the kinds are {}", .kinds.join(", "))]
    NoSuchKind {
        /// The name that was asked for.
        kind: String,
        /// The kinds there are.
        kinds: Vec<String>,
    },
    /// One kind was to be chosen, and the text gives no size in mm to these others, or their rings stretch.
    #[error(
        "the other rings stay as the text has them, and it gives no size in mm for rigid rings of {} {}; add it under `rings`",
        singular_or_plural(.0.len(), "the kind", "the kinds"), list(.0, "and")
    )]
    OthersOpen(Vec<String>),
    /// There are no rings to choose from.
    #[error("there are no rings on the shelf that could be read and do not stretch")]
    NoRings,
}

impl Fit {
    /// The question before anything is tried: these kinds of a settled weave are to be chosen.
    pub(super) fn new(weave: &Weave, settled: &Settled, kinds: Vec<String>, offers: Offers) -> Self {
        Self {
            weave: weave.name().to_owned(),
            may_curl: weave.pattern().lattice == Lattice::Chain && !weave.pattern().spiral,
            from_shelf: offers.from_shelf,
            floors: settled.floors.iter().filter(|floor| kinds.contains(&floor.kind)).cloned().collect(),
            offers: offers.sizes,
            stretching: offers.stretching,
            kinds,
            held: Vec::new(),
            base_floor: None,
            rows: Vec::new(),
            misses: Misses::default(),
            gaps: Vec::new(),
            work: Work { settled: 1, ..Work::default() },
            survey: None,
            beside: None,
        }
    }

    /// The finished answer: its rows in order, and only the nearest of its misses.
    pub(super) fn in_order(mut self) -> Self {
        self.rows.sort_by(Row::before);
        let room = |nearest: &Nearest| nearest.room.unwrap_or(f64::NEG_INFINITY);
        self.misses.nearest.sort_by(|a, b| room(b).total_cmp(&room(a)));
        self.misses.nearest.truncate(MOST_NEAREST);
        self
    }
}
