//! No pose was found at all.

use crate::lint::Context;
use crate::pattern::Lattice;
use crate::report::Diagnostic;
use crate::settle::NotSettled;

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let Some(why @ NotSettled::NoPose { accents, .. }) = context.not_settled else { return };
    let accent = context.pattern.accents.first().filter(|_| *accents);
    let (span, message) = (accent.map_or(context.whole(), |a| a.span), why.to_string());
    let straight = context.pattern.lattice == Lattice::Chain && !context.pattern.spiral;
    let spiral = if straight { "; a chain lies straight unless it says `spiral`" } else { "" };
    findings.push(
        Diagnostic::warning("no-pose-found", span, message)
            .label("that proves nothing")
            .help(format!("look at the passes again: a wrong eye or a wrong direction often leaves round rings no place{spiral}; if they are right, lay a sample")),
    );
}
