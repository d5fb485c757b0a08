//! A pair of rings linked by two statements.

use crate::lint::Context;
use crate::report::Diagnostic;

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    for double in &context.weave.links().doubles {
        let other = context.pattern.ring_name(&double.target);
        let message = format!(
            "{} is linked with {other} twice over; two round rings link once at most",
            context.ring(double.family)
        );
        findings.push(
            Diagnostic::warning("linked-twice", double.second, message)
                .label("said again here")
                .related(double.first, "said here")
                .help("linking is mutual: leave one of the two out"),
        );
    }
}
