//! Two rings called an eye that have none where they come to lie.

use crate::lint::Context;
use crate::report::Diagnostic;

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    // Where what is said of lying does not hold, that is the cause.
    let Some(settled) = context.settled.filter(|s| s.broken.is_empty()) else { return };
    for span in &settled.view.no_eyes {
        let message = format!(
            "in the settled pose the two rings of `{}` have no eye: they do not overlap with their fronts the same way",
            context.words(*span)
        );
        findings.push(
            Diagnostic::warning("not-an-eye", *span, message)
                .label("called an eye")
                .help("for two single rings write `down` and `up`; if they lie in a row, say so with `lay`"),
        );
    }
}
