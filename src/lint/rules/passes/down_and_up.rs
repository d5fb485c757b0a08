use crate::lint::{Context, Found, Rule};
use crate::report::Diagnostic;

/// One ring passed in both directions.
pub struct DownAndUp;

impl Rule for DownAndUp {
    const NAME: &str = "down-and-up";
    const PAGE: &str = include_str!("down_and_up.md");
    const FOUND: Found = Found::InGraph(check);
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    for conflict in &context.weave.links().conflicts {
        let other = context.pattern.ring_name(&conflict.target);
        let message = format!(
            "{} would pass {other} in both directions: `{}` and `{}` contradict each other",
            context.ring(conflict.family),
            context.words(conflict.first),
            context.words(conflict.second)
        );
        findings.push(
            DownAndUp::at(conflict.second, message)
                .label("contradicts the line above")
                .related(conflict.first, "this line")
                .help("change one of the two; `through` an eye passes both of its rings the same way, `around` it goes in by one and out by the other"),
        );
    }
}
