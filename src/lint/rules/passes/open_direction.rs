//! Passes of one ring whose direction against each other is not said.

use crate::lint::Context;
use crate::report::Diagnostic;

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    for (family, first, other) in &context.weave.links().open {
        let message = format!(
            "{} passes {} and {}, but not whether the same way or the other way round; read as down through both",
            context.ring(*family),
            context.words(*first),
            context.words(*other)
        );
        findings.push(
            Diagnostic::warning("open-direction", *other, message)
                .label("which way, against the first?")
                .related(*first, "down through this one first")
                .help("say `down` or `up` for both, or tie them by an eye that shares a ring with each"),
        );
    }
}
