//! A ring's hole is not larger than its wire.

use crate::lint::Context;
use crate::lint::sizes::KindLine;
use crate::measure::{length_mm, millimetres};
use crate::notation::Unit;
use crate::report::Diagnostic;
use crate::text::Span;

/// Rings between these aspect ratios are sensible, and so is a swap that makes one (common practice, no
/// source).
const SENSIBLE: std::ops::RangeInclusive<f64> = 1.5..=30.0;

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    for line in KindLine::all(context) {
        let (Some((wire, wire_part)), Some((inner, inner_part))) = (line.wire(), line.inner()) else { continue };
        let Some((wire_mm, inner_mm)) = millimetres(wire).zip(length_mm(inner)) else { continue };
        if inner_mm > wire_mm {
            continue;
        }
        let found = Diagnostic::error(
            "wire-and-inner-swapped",
            inner.span,
            format!(
                "the hole of `{}`, {inner_mm:.2} mm, is not larger than its wire, {wire_mm:.2} mm",
                line.name.value
            ),
        )
        .label("no wire of its own passes through")
        .related(wire.span, "the wire");
        // From the size to the end of the part: the brackets go along.
        let words = |size: Span, part: Span| Span { end: part.end, ..size };
        let (wire_words, inner_words) = (words(wire.span, wire_part), words(inner.span, inner_part));
        let lengths = [wire, inner].iter().all(|s| matches!(s.unit, Unit::Mm | Unit::Inch));
        findings.push(if lengths && SENSIBLE.contains(&(wire_mm / inner_mm)) {
            let edits = vec![
                (wire_words, context.weave.sources().words(inner_words).to_owned()),
                (inner_words, context.weave.sources().words(wire_words).to_owned()),
            ];
            found.fix_all("swap wire and inner diameter", edits)
        } else {
            found.help("wire is the thickness of the wire, inner the diameter of the hole")
        });
    }
}
