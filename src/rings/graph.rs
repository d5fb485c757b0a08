//! A pattern with the links and the graph of one repeat that follow from it.

use super::{Cell, Fingerprint, Links, Piece, TooMany, TooWide, fingerprint};
use crate::pattern::{Pattern, Repeats};

/// A pattern, its links and the graph of one repeat. The three always belong together.
#[derive(Clone, Debug)]
pub struct Graph {
    pattern: Pattern,
    links: Links,
    cell: Result<Cell, TooWide>,
}

impl Graph {
    /// Solves the passes of a pattern.
    pub fn of(pattern: Pattern) -> Self {
        let links = Links::of(&pattern);
        let cell = Cell::of(&pattern, &links);
        Self { pattern, links, cell }
    }

    /// The pattern.
    pub fn pattern(&self) -> &Pattern {
        &self.pattern
    }

    /// Its links.
    pub fn links(&self) -> &Links {
        &self.links
    }

    /// The graph of one repeat.
    ///
    /// # Errors
    /// [`TooWide`], where one repeat has too many rings to be laid out.
    pub fn cell(&self) -> Result<&Cell, &TooWide> {
        self.cell.as_ref()
    }

    /// The short name of the canonical form; `None` where the repeat is too large or too alike to compare.
    pub fn fingerprint(&self) -> Option<Fingerprint> {
        self.cell.as_ref().ok().and_then(|cell| fingerprint(&self.pattern, cell))
    }

    /// The piece of this size.
    ///
    /// # Errors
    /// [`TooMany`] beyond the most rings a piece may have.
    pub fn piece(&self, size: Repeats) -> Result<Piece, TooMany> {
        Piece::expand(&self.pattern, &self.links, size)
    }

    /// The same rings and links, with other words about sizes, claims or what is made.
    #[must_use]
    pub(crate) fn with(&self, change: impl FnOnce(&mut Pattern)) -> Self {
        let mut pattern = self.pattern.clone();
        change(&mut pattern);
        Self { pattern, links: self.links.clone(), cell: self.cell.clone() }
    }
}
