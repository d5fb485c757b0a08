use crate::lint::{Context, Found, Rule};
use crate::report::{Diagnostic, Severity};

/// A family that is declared and named nowhere.
pub struct UnusedRing;

impl Rule for UnusedRing {
    const NAME: &str = "unused-ring";
    const PAGE: &str = include_str!("unused_ring.md");
    const SEVERITY: Severity = Severity::Warning;
    const FOUND: Found = Found::InGraph(check);
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    for (id, family) in context.pattern.families.numbered() {
        if !context.is_named(id) {
            let name = &family.name.value;
            findings.push(
                UnusedRing::at(family.name.span, format!("{name} is declared but never used"))
                    .label("named nowhere else")
                    .help("weave it in, or leave it out"),
            );
        }
    }
}
