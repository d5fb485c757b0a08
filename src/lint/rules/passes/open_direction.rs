use crate::lint::{Context, Found, Rule};
use crate::report::{Diagnostic, Severity};

/// Passes of one ring whose direction against each other is not said.
pub struct OpenDirection;

impl Rule for OpenDirection {
    const NAME: &str = "open-direction";
    const PAGE: &str = include_str!("open_direction.md");
    const SEVERITY: Severity = Severity::Warning;
    const FOUND: Found = Found::InGraph(check);
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    for (family, first, other) in &context.weave.links().open {
        let message = format!(
            "the text does not say whether {} passes {} and {} in the same direction; both are read as down",
            context.ring(*family),
            context.words(*first),
            context.words(*other)
        );
        findings.push(
            OpenDirection::at(*other, message)
                .label("same direction as the first?")
                .related(*first, "the first pass")
                .help("write `down` or `up` for both, or connect them by an eye that shares a ring with each"),
        );
    }
}
