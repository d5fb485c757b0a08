use crate::lint::{Context, Found, Rule};
use crate::report::{Diagnostic, Severity};

/// A pair of rings linked by two statements.
pub struct LinkedTwice;

impl Rule for LinkedTwice {
    const NAME: &str = "linked-twice";
    const PAGE: &str = include_str!("linked_twice.md");
    const SEVERITY: Severity = Severity::Warning;
    const FOUND: Found = Found::InGraph(check);
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    for double in &context.weave.links().doubles {
        let other = context.pattern.ring_name(&double.target);
        let message = format!(
            "the text links {} with {other} twice; two round rings link only once",
            context.ring(double.family)
        );
        findings.push(
            LinkedTwice::at(double.second, message)
                .label("linked again here")
                .related(double.first, "linked here")
                .help("linking is mutual: leave out one of the two"),
        );
    }
}
