use super::context::Context;
use crate::notation::{KindPart, Size, What};
use crate::text::{Span, Spanned};

/// A line of `rings`.
pub struct KindLine<'w> {
    /// The kind of ring it is for.
    pub name: &'w Spanned<String>,
    /// Its sizes, material and colour.
    pub parts: &'w [Spanned<KindPart>],
}

impl<'w> KindLine<'w> {
    /// Every line of every `rings`, in the order of the text.
    pub fn all(context: &Context<'w>) -> impl Iterator<Item = Self> {
        context.statements.iter().filter_map(|s| match &s.what {
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
