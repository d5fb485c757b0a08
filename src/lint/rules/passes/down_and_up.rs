//! One ring passed in both directions.

use crate::lint::Context;
use crate::report::Diagnostic;

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    for conflict in &context.weave.links().conflicts {
        let other = context.pattern.ring_name(&conflict.target);
        let message = format!(
            "{} would pass {other} in both directions: `{}` and `{}` contradict each other",
            context.ring(conflict.family),
            context.words(conflict.first),
            context.words(conflict.second)
        );
        findings.push(
            Diagnostic::error("down-and-up", conflict.second, message)
                .label("against what is said before")
                .related(conflict.first, "said here")
                .help("`through` an eye means both of its rings the same way, `around` it in by one and out by the other; change one of the two"),
        );
    }
}
