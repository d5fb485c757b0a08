use crate::lint::{Context, Found, KindLine, Rule};
use crate::measure::{length_mm, millimetres};
use crate::notation::Unit;
use crate::report::Diagnostic;
use crate::text::Span;

/// A ring's hole is not wider than its wire.
pub struct WireAndInnerSwapped;

impl Rule for WireAndInnerSwapped {
    const NAME: &str = "wire-and-inner-swapped";
    const PAGE: &str = include_str!("wire_and_inner_swapped.md");
    const FOUND: Found = Found::InText(check);
}

/// Rings between these aspect ratios are sensible, and so is a swap that makes one (common practice, no
/// source).
const SENSIBLE: std::ops::RangeInclusive<f64> = 1.5..=30.0;

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    for line in KindLine::all(context) {
        let (Some((wire, wire_part)), Some((inner, inner_part))) = (line.wire(), line.inner()) else { continue };
        let Some((wire_mm, inner_mm)) = millimetres(wire).zip(length_mm(inner)) else { continue };
        if inner_mm > wire_mm {
            continue;
        }
        let found = WireAndInnerSwapped::at(
            inner.span,
            format!(
                "the hole of `{}` is {inner_mm:.2} mm; it must be wider than the wire, {wire_mm:.2} mm",
                line.name.value
            ),
        )
        .label("its own wire does not pass through")
        .related(wire.span, "the wire");
        // From the size to the end of the part: the brackets go along.
        let words = |size: Span, part: Span| Span { end: part.end, ..size };
        let (wire_words, inner_words) = (words(wire.span, wire_part), words(inner.span, inner_part));
        let lengths = [wire, inner].iter().all(|s| matches!(s.unit, Unit::Mm | Unit::Cm | Unit::Inch));
        findings.push(if lengths && SENSIBLE.contains(&(wire_mm / inner_mm)) {
            let edits = vec![
                (wire_words, context.sources.words(inner_words).to_owned()),
                (inner_words, context.sources.words(wire_words).to_owned()),
            ];
            found.fix_all("swap wire and inner diameter", edits)
        } else {
            found.help("correct one of the two: wire is the thickness of the wire, inner the diameter of the hole")
        });
    }
}
