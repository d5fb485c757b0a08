//! A ring passed through itself.

use crate::lint::Context;
use crate::report::Diagnostic;

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    for (family, span) in &context.weave.links().selves {
        let name = context.ring(*family);
        findings.push(
            Diagnostic::error("through-itself", *span, format!("{name} cannot pass through itself"))
                .label("the same ring")
                .help("name the ring of another repeat, such as the one before, or another family"),
        );
    }
}
