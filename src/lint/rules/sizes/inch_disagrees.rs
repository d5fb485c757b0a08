use super::written_twice::WrittenTwice;
use crate::lint::{Context, Found, Rule};
use crate::measure::{Twice, millimetres};
use crate::notation::{Size, Unit};
use crate::report::Diagnostic;

/// A size in inches and the millimetres beside it differ.
pub struct InchDisagrees;

impl Rule for InchDisagrees {
    const NAME: &str = "inch-disagrees";
    const PAGE: &str = include_str!("inch_disagrees.md");
    const FOUND: Found = Found::InText(check);
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    for written in WrittenTwice::all(context) {
        let (size, brackets) = (written.size, written.brackets);
        let (Twice::Length, Some(one), Some(other)) = (written.twice, millimetres(size), millimetres(brackets)) else {
            continue;
        };
        let exact = |s: &Size, mm: f64| match s.unit {
            Unit::Inch => format!("{} is {mm:.3} mm", context.words(s.span)),
            _ => context.words(s.span).into_owned(),
        };
        let (inches, mm, beside) = match (size.unit, brackets.unit) {
            (Unit::Mm, Unit::Inch) => (brackets, other, exact(size, one)),
            _ => (size, one, exact(brackets, other)),
        };
        let message = format!("{}; the text also says {beside}", exact(inches, mm));
        findings.push(
            InchDisagrees::at(written.span(), message)
                .label(format!("two different sizes, {:.3} mm apart", (one - other).abs()))
                .help("write the size you measured, alone or with the matching one beside it"),
        );
    }
}
