//! A closed ring that nothing picks up.

use crate::lint::Context;
use crate::notation::State;
use crate::report::Diagnostic;

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    for id in context.unlinked().filter(|f| context.is_named(*f)) {
        let family = &context.pattern.families[id];
        if family.state == State::Closed {
            let name = &family.name.value;
            findings.push(
                Diagnostic::error(
                    "never-picked-up",
                    family.name.span,
                    format!("no ring picks up the closed ring {name}"),
                )
                .label("nothing passes through it")
                .help(format!("let an open ring pass {name}, or leave it out")),
            );
        }
    }
}
