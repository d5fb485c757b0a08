/// A stretch of one source text, in bytes: `start` included, `end` not.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Span {
    /// Which source of [`Sources`](super::source::Sources) the bytes belong to.
    pub source: u16,
    /// First byte.
    pub start: u32,
    /// One past the last byte.
    pub end: u32,
}

impl Span {
    /// The span of `start..end` bytes in source number `source`.
    pub fn new(source: u16, start: usize, end: usize) -> Self {
        let clamp = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
        Self { source, start: clamp(start), end: clamp(end) }
    }

    /// The smallest span that holds both; `self` where their sources differ.
    #[must_use]
    pub fn to(self, other: Span) -> Span {
        if self.source != other.source {
            return self;
        }
        Span { source: self.source, start: self.start.min(other.start), end: self.end.max(other.end) }
    }

    /// The span as a byte range.
    pub fn range(self) -> std::ops::Range<usize> {
        self.start as usize..self.end as usize
    }
}

/// A value together with the words it was read from.
#[derive(Clone, Debug, PartialEq)]
pub struct Spanned<T> {
    /// What was read.
    pub value: T,
    /// Where it is.
    pub span: Span,
}

impl<T> Spanned<T> {
    /// Ties `value` to `span`.
    pub fn new(value: T, span: Span) -> Self {
        Self { value, span }
    }
}
