//! A family that is declared and named nowhere.

use crate::lint::Context;
use crate::report::Diagnostic;

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    for (id, family) in context.pattern.families.numbered() {
        if !context.is_named(id) {
            let name = &family.name.value;
            findings.push(
                Diagnostic::warning("unused-ring", family.name.span, format!("{name} is declared and never used"))
                    .label("named nowhere else")
                    .help("weave it in, or leave it out"),
            );
        }
    }
}
