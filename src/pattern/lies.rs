//! How rings lie to each other: what the signs of links cannot tell.

use crate::notation::{Hand, Side};

/// How rings lie, whatever names a ring: a place in the text, a ring of the piece, words.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Lies<R> {
    /// The first lies behind the second, in a row.
    Behind(R, R),
    /// The first is over the second.
    Over(R, R),
    /// The first lies between the other two.
    Between(R, R, R),
    /// The pair is folded back.
    Folded(R, R),
    /// The ring lies on this edge.
    On(R, Side),
    /// Each repeat of a spiral is turned this way against the one before: to the right as a common screw turns.
    Turning(Hand),
}

impl<R> Lies<R> {
    /// The rings it names, in order.
    pub fn rings(&self) -> Vec<&R> {
        match self {
            Self::Behind(one, other) | Self::Over(one, other) | Self::Folded(one, other) => vec![one, other],
            Self::Between(ring, one, other) => vec![ring, one, other],
            Self::On(ring, _) => vec![ring],
            Self::Turning(_) => Vec::new(),
        }
    }

    /// The same of other rings.
    pub fn map<S>(&self, mut change: impl FnMut(&R) -> S) -> Lies<S> {
        match self {
            Self::Behind(one, other) => Lies::Behind(change(one), change(other)),
            Self::Over(one, other) => Lies::Over(change(one), change(other)),
            Self::Between(ring, one, other) => Lies::Between(change(ring), change(one), change(other)),
            Self::Folded(one, other) => Lies::Folded(change(one), change(other)),
            Self::On(ring, side) => Lies::On(change(ring), *side),
            Self::Turning(hand) => Lies::Turning(*hand),
        }
    }

    /// The same of other rings, where every ring has another.
    ///
    /// # Errors
    /// The first error of `change`.
    pub fn try_map<S, E>(&self, mut change: impl FnMut(&R) -> Result<S, E>) -> Result<Lies<S>, E> {
        Ok(match self {
            Self::Behind(one, other) => Lies::Behind(change(one)?, change(other)?),
            Self::Over(one, other) => Lies::Over(change(one)?, change(other)?),
            Self::Between(ring, one, other) => Lies::Between(change(ring)?, change(one)?, change(other)?),
            Self::Folded(one, other) => Lies::Folded(change(one)?, change(other)?),
            Self::On(ring, side) => Lies::On(change(ring)?, *side),
            Self::Turning(hand) => Lies::Turning(*hand),
        })
    }
}
