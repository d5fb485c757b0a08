use crate::lint::{Context, Found, KindLine, Rule};
use crate::measure::{decimals, half_step, length_mm, millimetres};
use crate::notation::KindPart;
use crate::report::Diagnostic;

/// Wire, inner diameter and aspect ratio are all written, and do not agree.
pub struct AspectRatioDisagrees;

impl Rule for AspectRatioDisagrees {
    const NAME: &str = "aspect-ratio-disagrees";
    const PAGE: &str = include_str!("aspect_ratio_disagrees.md");
    const FOUND: Found = Found::InText(check);
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    for line in KindLine::all(context) {
        let ratio = line.parts.iter().rev().find_map(|p| match &p.value {
            KindPart::AspectRatio(number, _) if number.value > 0.0 => Some((number, p.span)),
            _ => None,
        });
        let (Some((wire, wire_words)), Some((inner, inner_words)), Some((number, span))) =
            (line.wire(), line.inner(), ratio)
        else {
            continue;
        };
        let Some((wire_mm, inner_mm)) = millimetres(wire).zip(length_mm(inner)) else { continue };
        let real = inner_mm / wire_mm;
        // A hole not larger than its wire has its own finding.
        if real <= 1.0 || (real - number.value).abs() <= half_step(number) + 1e-9 {
            continue;
        }
        let places = decimals(number).unwrap_or(2).max(2) as usize;
        findings.push(
            AspectRatioDisagrees::at(
                span,
                format!(
                    "the text says AR {}; inner diameter {inner_mm:.2} mm over wire {wire_mm:.2} mm is {real:.places$}",
                    number.text
                ),
            )
            .label(format!("by the sizes: {real:.places$}"))
            .related(wire_words, format!("{wire_mm:.3} mm"))
            .related(inner_words, format!("{inner_mm:.3} mm"))
            .help("leave AR out, since it follows from wire and inner diameter, or correct the wrong size"),
        );
    }
}
