use crate::lint::{Context, Found, Rule};
use crate::report::Diagnostic;

/// A ring passed through itself.
pub struct ThroughItself;

impl Rule for ThroughItself {
    const NAME: &str = "through-itself";
    const PAGE: &str = include_str!("through_itself.md");
    const FOUND: Found = Found::InGraph(check);
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    for (family, span) in &context.weave.links().selves {
        let name = context.ring(*family);
        findings.push(
            ThroughItself::at(*span, format!("{name} cannot pass through itself"))
                .label("the same ring")
                .help("name the ring of another repeat, such as the previous one, or another ring"),
        );
    }
}
