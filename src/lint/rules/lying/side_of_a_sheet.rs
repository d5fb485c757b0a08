//! `far side` or `near side` said in a sheet.

use crate::lint::Context;
use crate::pattern::{Lattice, Lies};
use crate::report::Diagnostic;

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    if context.pattern.lattice != Lattice::Sheet {
        return;
    }
    for lying in context.pattern.lying.iter().filter(|l| matches!(l.lies, Lies::On(..))) {
        findings.push(
            Diagnostic::error(
                "side-of-a-sheet",
                lying.span,
                "a sheet has no far side and no near side: those are the edges of a strip",
            )
            .help("say how rings of the sheet lie with `over`, `under` or `lay … behind`"),
        );
    }
}
