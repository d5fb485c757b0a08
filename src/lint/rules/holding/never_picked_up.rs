use crate::lint::{Context, Found, Rule};
use crate::notation::State;
use crate::report::Diagnostic;

/// A closed ring that nothing picks up.
pub struct NeverPickedUp;

impl Rule for NeverPickedUp {
    const NAME: &str = "never-picked-up";
    const PAGE: &str = include_str!("never_picked_up.md");
    const FOUND: Found = Found::InGraph(check);
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    for id in context.unlinked().filter(|f| context.is_named(*f)) {
        let family = &context.pattern.families[id];
        if family.state == State::Closed {
            let name = &family.name.value;
            findings.push(
                NeverPickedUp::at(family.name.span, format!("no ring picks up the closed ring {name}"))
                    .label("nothing passes through it")
                    .help(format!("let an open ring pass {name}, or leave {name} out")),
            );
        }
    }
}
