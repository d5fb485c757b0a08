use crate::notation::{Statement, What};
use crate::pattern::{FARTHEST, Pattern};
use crate::rings::{Cell, Piece, TooMany};
use crate::supply::KindSize;
use crate::text::Span;
use crate::weave::Weave;

/// What a rule may look at.
pub struct Context<'w> {
    /// The weave.
    pub weave: &'w Weave,
    /// What it means.
    pub pattern: &'w Pattern,
    /// The graph of one repeat, where there is one.
    pub cell: Option<&'w Cell>,
    /// The piece, or how many rings it would have.
    pub piece: Result<&'w Piece, &'w TooMany>,
    /// The sizes of every kind that has a line in `rings`, in millimetres.
    pub sizes: Vec<KindSize>,
}

impl<'w> Context<'w> {
    /// The context of a weave.
    pub fn new(weave: &'w Weave, piece: Result<&'w Piece, &'w TooMany>) -> Self {
        let pattern = &weave.pattern;
        Self { weave, pattern, cell: weave.cell.as_ref().ok(), piece, sizes: crate::supply::sizes(pattern) }
    }

    /// Every statement of the file asked for and its bases.
    pub fn statements(&self) -> impl Iterator<Item = &'w Statement> {
        self.weave.files.iter().flat_map(|f| &f.tree.statements)
    }

    /// The words a fault of the whole piece is pinned to: `claim`-free, the weave's name or the first
    /// statement.
    pub fn whole(&self) -> Span {
        let statements = self.weave.files.first().map(|f| f.tree.statements.as_slice()).unwrap_or_default();
        let name = statements.iter().find(|s| matches!(s.what, What::Weave(_)));
        name.or(statements.first()).map_or(Span::new(0, 0, 0), |s| s.span)
    }

    /// The words that declare a family.
    pub fn declared(&self, family: usize) -> Span {
        self.pattern.families.get(family).map_or(self.whole(), |f| f.name.span)
    }

    /// The name of a family.
    pub fn family(&self, family: usize) -> &'w str {
        self.pattern.families.get(family).map_or("?", |f| f.name.value.as_str())
    }

    /// The words of the text at a span.
    pub fn words(&self, span: Span) -> &'w str {
        self.weave.sources.words(span)
    }

    /// How far apart rings named together may be, in repeats.
    pub fn farthest(&self) -> i32 {
        FARTHEST
    }
}
