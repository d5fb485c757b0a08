//! A size in inches and the millimetres beside it differ.

use crate::lint::Context;
use crate::lint::sizes::written_twice;
use crate::measure::{Twice, millimetres};
use crate::notation::{Size, Unit};
use crate::report::Diagnostic;

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    for (size, brackets, twice) in written_twice(context) {
        let (Twice::Length, Some(one), Some(other)) = (twice, millimetres(size), millimetres(brackets)) else {
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
        findings.push(
            Diagnostic::error(
                "inch-disagrees",
                size.span.to(brackets.span),
                format!("{}, and {beside} stands beside it: {:.3} mm apart", exact(inches, mm), (one - other).abs()),
            )
            .label("two different sizes")
            .help("write the one you measured, alone or with the right size beside it"),
        );
    }
}
