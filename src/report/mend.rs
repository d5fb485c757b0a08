use super::diagnostic::{Diagnostic, Fix};
use crate::text::Span;

/// A text with changes made in it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mended {
    /// The text after them; outside of them it is the same to the byte.
    pub text: String,
    /// The findings whose changes were made, in the order of the text.
    pub done: Vec<Diagnostic>,
}

/// `text`, the source numbered 0, with the safe changes made that findings offer, in the order of the text. A change
/// is made whole or not at all: one that reaches into another source, lies outside of the text, or overlaps a change
/// before it is left out.
pub fn mended<'f>(text: &str, findings: impl IntoIterator<Item = &'f Diagnostic>) -> Mended {
    let offered = findings.into_iter().filter_map(|f| Some((f, in_order(text, f.fix.as_ref().filter(|x| x.safe)?)?)));
    let mut offered: Vec<(&Diagnostic, Vec<Edit<'_>>)> = offered.collect();
    offered.sort_by_key(|(finding, edits)| (edits.first().map(|(span, _)| *span), finding.span));
    let mut edits: Vec<Edit<'_>> = Vec::new();
    let mut done = Vec::new();
    for (finding, own) in offered {
        let mut with = edits.clone();
        with.extend(own);
        with.sort_by_key(|(span, _)| *span);
        if apart(&with) {
            edits = with;
            done.push(finding.clone());
        }
    }
    let mut out = String::with_capacity(text.len());
    let mut from = 0;
    for (span, with) in edits {
        out.push_str(text.get(from..span.range().start).unwrap_or_default());
        out.push_str(with);
        from = span.range().end;
    }
    out.push_str(text.get(from..).unwrap_or_default());
    Mended { text: out, done }
}

type Edit<'f> = (Span, &'f str);

/// The edits of a change from first to last; nothing where they cannot be made in this text.
fn in_order<'f>(text: &str, fix: &'f Fix) -> Option<Vec<Edit<'f>>> {
    let mut edits: Vec<Edit<'f>> = fix.edits.iter().map(|(span, with)| (*span, with.as_str())).collect();
    edits.sort_by_key(|(span, _)| *span);
    let inside = edits.iter().all(|(span, _)| span.source == 0 && text.get(span.range()).is_some());
    (!edits.is_empty() && inside && apart(&edits)).then_some(edits)
}

/// Whether no two of these, from first to last, touch the same words or are put in at the same place.
fn apart(edits: &[Edit<'_>]) -> bool {
    let two = |one: &Span, next: &Span| next.start >= one.end && next.start > one.start;
    edits.windows(2).all(|pair| matches!(pair, [(one, _), (next, _)] if two(one, next)))
}
