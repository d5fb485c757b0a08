//! Sizes that are written with the same size again in brackets.

use crate::lint::{Context, KindLine};
use crate::measure::{Twice, length_mm, twice};
use crate::notation::{KindPart, Size};
use crate::text::Span;

/// A size of `rings` that is written twice.
pub struct WrittenTwice<'w> {
    /// The size.
    pub size: &'w Size,
    /// The same again, in brackets.
    pub brackets: &'w Size,
    /// What comes of comparing the two.
    pub twice: Twice,
}

impl<'w> WrittenTwice<'w> {
    /// Every such size, in the order of the text.
    pub fn all(context: &Context<'w>) -> impl Iterator<Item = Self> {
        let parts = KindLine::all(context).flat_map(|line| line.parts);
        let pairs = parts.filter_map(|part| match &part.value {
            KindPart::Wire(size, Some(brackets)) => Some((size, brackets)),
            // A gauge for an inner diameter is no size and has its own finding.
            KindPart::Inner(size, Some(brackets)) => {
                (length_mm(size).is_some() && length_mm(brackets).is_some()).then_some((size, brackets))
            }
            _ => None,
        });
        pairs.map(|(size, brackets)| Self { size, brackets, twice: twice(size, brackets) })
    }

    /// The words of both.
    pub fn span(&self) -> Span {
        self.size.span.to(self.brackets.span)
    }
}

/// The words of a unit at the end of a size.
pub fn unit_words(context: &Context<'_>, size: Span) -> Span {
    let words = context.words(size);
    let number = words.trim_end_matches(char::is_alphabetic).len();
    Span::new(size.source, size.start as usize + number, size.end as usize)
}
