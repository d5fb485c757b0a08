//! No pose was found at all.

use crate::lint::Context;
use crate::pattern::Lattice;
use crate::report::Diagnostic;
use crate::settle::NotSettled;

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let Some(NotSettled::NoPose { starts, accents }) = context.not_settled else { return };
    let (span, message) = if *accents {
        let span = context.pattern.accents.first().map_or(context.whole(), |a| a.span);
        (span, format!("the base settles, but no place for the accents was found in {starts} tries"))
    } else {
        (context.whole(), format!("no pose of these rings was found in {starts} starts for each way of turning them over"))
    };
    let straight = context.pattern.lattice == Lattice::Chain && !context.pattern.spiral;
    let spiral = if straight { "; a chain lies straight unless it says `spiral`" } else { "" };
    findings.push(
        Diagnostic::warning("no-pose-found", span, message)
            .label("that proves nothing")
            .help(format!("look at the passes again: a wrong eye or a wrong direction often leaves round rings no place{spiral}; if they are right, lay a sample")),
    );
}
