//! A line of `ends` that changes nothing.

use crate::lint::Context;
use crate::notation::EndVerb;
use crate::report::Diagnostic;

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let Some(piece) = context.piece else { return };
    for end in piece.idle_ends.iter().filter_map(|n| context.pattern.ends.get(*n)) {
        let size = piece.size.words(context.pattern.lattice);
        let name = context.words(end.span);
        let message = match end.verb {
            EndVerb::Add => format!("{name} is there already in a piece of {size}"),
            EndVerb::Drop | EndVerb::Close | EndVerb::Open => {
                format!("there is no {name} in a piece of {size} to {}", end.verb.word())
            }
        };
        findings.push(
            Diagnostic::warning("idle-end", end.span, message)
                .label("changes nothing")
                .help("the first repeat is 1 and the last is `last`; `add` takes one beyond, such as `add a[last+1]`"),
        );
    }
}
