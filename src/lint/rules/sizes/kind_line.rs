//! What the rules on sizes share.

use super::context::Context;
use crate::measure::{Twice, length_mm, twice};
use crate::notation::{KindPart, Size, Statement, What};
use crate::text::{Span, Spanned};

/// A line of `rings`.
pub struct KindLine<'w> {
    pub name: &'w Spanned<String>,
    pub parts: &'w [Spanned<KindPart>],
}

impl<'w> KindLine<'w> {
    /// Every line of every `rings`, in the order they stand.
    pub fn all(context: &Context<'w>) -> impl Iterator<Item = Self> + use<'w> {
        context.weave.files().iter().flat_map(|f| &f.tree.statements).filter_map(|s| match &s.what {
            What::Kind { name, parts } => Some(Self { name, parts }),
            _ => None,
        })
    }

    /// The wire as written last, with the words of the whole part.
    pub fn wire(&self) -> Option<(&'w Size, Span)> {
        self.parts.iter().rev().find_map(|p| match &p.value {
            KindPart::Wire(size, _) => Some((size, p.span)),
            _ => None,
        })
    }

    /// The inner diameter as written last, with the words of the whole part.
    pub fn inner(&self) -> Option<(&'w Size, Span)> {
        self.parts.iter().rev().find_map(|p| match &p.value {
            KindPart::Inner(size, _) => Some((size, p.span)),
            _ => None,
        })
    }
}

/// Every size of `rings` that is written twice, and what comes of comparing.
pub fn written_twice<'w>(context: &Context<'w>) -> impl Iterator<Item = (&'w Size, &'w Size, Twice)> + use<'w> {
    KindLine::all(context).flat_map(|line| line.parts).filter_map(|part| match &part.value {
        KindPart::Wire(size, Some(brackets)) => Some((size, brackets, twice(size, brackets))),
        // A gauge for an inner diameter is no size and has its own finding.
        KindPart::Inner(size, Some(brackets)) if length_mm(size).is_some() && length_mm(brackets).is_some() => {
            Some((size, brackets, twice(size, brackets)))
        }
        _ => None,
    })
}

/// The lines `gauges` that give bare gauges their system: one of each file that has one.
pub fn gauges_lines(context: &Context<'_>) -> Vec<Span> {
    let line = |s: &&Statement| matches!(s.what, What::Gauges(_));
    context.weave.files().iter().filter_map(|f| f.tree.statements.iter().find(line).map(|s| s.span)).collect()
}

/// The words of a unit at the end of a size.
pub fn unit_words(context: &Context<'_>, size: Span) -> Span {
    let words = context.words(size);
    let number = words.trim_end_matches(char::is_alphabetic).len();
    Span::new(size.source, size.start as usize + number, size.end as usize)
}
