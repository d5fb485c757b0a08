use crate::lint::{Context, Found, Rule};
use crate::pattern::{Lattice, Lies};
use crate::report::Diagnostic;

/// `far side` or `near side` said in a sheet.
pub struct SideOfASheet;

impl Rule for SideOfASheet {
    const NAME: &str = "side-of-a-sheet";
    const PAGE: &str = include_str!("side_of_a_sheet.md");
    const FOUND: Found = Found::InGraph(check);
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    if context.pattern.lattice != Lattice::Sheet {
        return;
    }
    for lying in context.pattern.lying.iter().filter(|l| matches!(l.lies, Lies::On(..))) {
        findings.push(
            SideOfASheet::at(lying.span, "a sheet has no far or near side: those are the edges of a strip")
                .help("use `over`, `under` or `lay … behind` for the rings of a sheet"),
        );
    }
}
