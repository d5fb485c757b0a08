use crate::lint::{Context, Found, Rule};
use crate::notation::EndVerb;
use crate::report::{Diagnostic, Severity};

/// A line of `ends` that changes nothing.
pub struct IdleEnd;

impl Rule for IdleEnd {
    const NAME: &str = "idle-end";
    const PAGE: &str = include_str!("idle_end.md");
    const SEVERITY: Severity = Severity::Warning;
    const FOUND: Found = Found::InGraph(check);
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let Some(piece) = context.piece else { return };
    for end in piece.idle_ends.iter().filter_map(|n| context.pattern.ends.get(*n)) {
        let size = piece.size.words(context.pattern.lattice);
        let name = context.words(end.span);
        let message = match end.verb {
            EndVerb::Add => format!("a piece of {size} already has {name}"),
            EndVerb::Drop | EndVerb::Close | EndVerb::Open => {
                format!("a piece of {size} has no {name} to {}", end.verb.word())
            }
        };
        findings.push(
            IdleEnd::at(end.span, message)
                .label("changes nothing")
                .help("name a ring that the piece has: the first repeat is 1, the last is `last`; only `add` takes one past the end, such as `add a[last+1]`"),
        );
    }
}
