use crate::lint::{Context, Found, Rule};
use crate::notation::{Claim, KindPart, Unit, What};
use crate::report::Diagnostic;
use crate::text::{Span, Spanned};

/// An aspect ratio has a unit.
pub struct AspectRatioUnit;

impl Rule for AspectRatioUnit {
    const NAME: &str = "aspect-ratio-unit";
    const PAGE: &str = include_str!("aspect_ratio_unit.md");
    const FOUND: Found = Found::InText(check);
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    for statement in &context.statements {
        match &statement.what {
            What::Kind { parts, .. } => {
                for part in parts {
                    if let KindPart::AspectRatio(_, Some(unit)) = &part.value {
                        findings.push(with_unit(context, part.span, unit));
                    }
                }
            }
            What::Claim(Claim::AspectRatio { unit: Some(unit), .. }, _) => {
                findings.push(with_unit(context, statement.span, unit));
            }
            _ => {}
        }
    }
}

fn with_unit(context: &Context<'_>, whole: Span, unit: &Spanned<Unit>) -> Diagnostic {
    let before = Span { end: unit.span.start, ..whole };
    let number_end = whole.start as usize + context.words(before).trim_end().len();
    let blank_and_unit = Span::new(whole.source, number_end, unit.span.end as usize);
    let word = context.words(unit.span);
    AspectRatioUnit::at(unit.span, format!("an aspect ratio has no unit; the text says `{word}`"))
        .label("AR = inner diameter / wire, a plain number")
        .fix(format!("leave out `{word}`"), blank_and_unit, "")
}
