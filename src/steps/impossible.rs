//! Why instructions cannot be followed, and the words for it.

use super::events::{Name, Need};
use crate::text::count;
use thiserror::Error;

/// Why something cannot be done as it is told, or is not as it is told.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum Impossible {
    /// An eye has two rings; the text names this many.
    #[error("an eye has two rings; the text names {}", ring_count(*.0))]
    EyeRings(usize),
    /// A ring lies between two others; the text names this many.
    #[error("a ring lies between two others; the text names {}", ring_count(*.0))]
    BetweenRings(usize),
    /// Two rings are folded back together; the text names this many.
    #[error("two rings are folded back together; the text names {}", ring_count(*.0))]
    FoldedRings(usize),
    /// "It", before any ring was spoken of.
    #[error("the text has not named a ring yet")]
    NoRingYet,
    /// A ring comes in a second time.
    #[error("{0} is already in the work")]
    AlreadyIn(Name),
    /// A ring that is spoken of is not there.
    #[error("{0} is not in the work")]
    NotIn(Name),
    /// One sentence names a ring twice.
    #[error("the text names {0} twice")]
    NamedTwice(Name),
    /// A ring goes somewhere, and none is open.
    #[error("no ring is open here")]
    NoneOpen,
    /// A ring is opened and the text never closes it.
    #[error("{0} is opened here and never closed")]
    NeverClosed(Name),
    /// A ring is closed that nothing opened.
    #[error("{0} is closed here, but was never opened")]
    NeverOpened(Name),
    /// A ring is closed while another is open.
    #[error("{closed} is closed here, but {open} is the open ring")]
    OtherIsOpen {
        /// The ring that is closed.
        closed: Name,
        /// The ring that is open.
        open: Name,
    },
    /// A closed ring comes in and the new ring does not pass it.
    #[error("{0} is picked up, but the ring does not go through it")]
    PickedUpOnly(Name),
    /// A ring is passed twice.
    #[error("the ring goes through {0} twice")]
    PassedTwice(Name),
    /// Another number of rings is in the work.
    #[error("the text says {}; the work has {there}", ring_count(*.said))]
    RingsInWork {
        /// The number in the text.
        said: usize,
        /// The number there.
        there: usize,
    },
    /// A ring that should dangle is held by this many.
    #[error("{ring} is held by {} here", ring_count(*.links))]
    Held {
        /// The ring.
        ring: Name,
        /// How many rings hold it.
        links: usize,
    },
    /// More rings than are followed.
    #[error("the text makes more than {0} rings, the most that can be checked")]
    TooManyRings(usize),
    /// The item to repeat does not come before the sentence.
    #[error("there is no step {0} before this one")]
    NoStep(usize),
    /// The items to repeat weave no ring in.
    #[error("the repeated steps weave no ring in")]
    NothingToRepeat,
    /// A repeat ends with a ring of another letter.
    #[error("the repeated steps end with {end}, so they never reach {until}")]
    NeverReaches {
        /// The last ring of the round.
        end: Name,
        /// The ring to be reached.
        until: Name,
    },
    /// A repeat is done no time at all.
    #[error("the steps are repeated no time at all")]
    NoRounds,
    /// A repeat cannot reach its ring in this many rounds.
    #[error("{} cannot lead from {end} to {until}", count(*.times, "more round"))]
    WrongRounds {
        /// The last ring of the round.
        end: Name,
        /// The ring to be reached.
        until: Name,
        /// How many rounds.
        times: usize,
    },
    /// The list has another number of rings than the steps use.
    #[error("the list says {} {} rings `{}`; the steps use {used}", .need.count, .need.state.word(), .need.letter)]
    Needed {
        /// What the list says.
        need: Need,
        /// How many are used.
        used: usize,
    },
    /// What is wrong in a round of a repeat.
    #[error(transparent)]
    InRound(Box<Impossible>),
    /// Several things at once, two or more.
    #[error("{}", .0.iter().map(ToString::to_string).collect::<Vec<_>>().join("; "))]
    Several(Vec<Impossible>),
}

impl Impossible {
    /// Whether it depends on what was done before: had that been right, this might be.
    pub fn follows(&self) -> bool {
        match self {
            Self::AlreadyIn(_)
            | Self::NotIn(_)
            | Self::RingsInWork { .. }
            | Self::Held { .. }
            | Self::Needed { .. }
            | Self::InRound(_) => true,
            Self::Several(all) => all.iter().all(Self::follows),
            _ => false,
        }
    }
}

/// "1 ring", "3 rings".
fn ring_count(rings: usize) -> String {
    count(rings, "ring")
}
