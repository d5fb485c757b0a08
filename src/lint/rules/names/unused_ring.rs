//! A family that is declared and named nowhere.

use crate::lint::Context;
use crate::report::Diagnostic;

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    for (number, family) in context.pattern.families.iter().enumerate() {
        if !context.is_named(number) {
            let name = &family.name.value;
            findings.push(
                Diagnostic::warning("unused-ring", family.name.span, format!("{name} is declared and never used"))
                    .label("named nowhere else")
                    .help("weave it in, or leave it out"),
            );
        }
    }
}
