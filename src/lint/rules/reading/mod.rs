//! Lines that cannot be read, or that say something again.

pub mod said_twice;

use crate::lint::{Found, Rule};
use crate::notation;

/// A word is nearly a word of the notation.
pub struct MisspelledWord;

impl Rule for MisspelledWord {
    const NAME: &str = notation::MISSPELLED;
    const PAGE: &str = include_str!("misspelled_word.md");
    const FOUND: Found = Found::WhileReading;
}

/// A line is not a statement of the notation.
pub struct UnreadableLine;

impl Rule for UnreadableLine {
    const NAME: &str = notation::UNREADABLE;
    const PAGE: &str = include_str!("unreadable_line.md");
    const FOUND: Found = Found::WhileReading;
    const BREAKS_GRAPH: bool = true;
}
