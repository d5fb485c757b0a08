use crate::lint::{Context, Found, Rule};
use crate::pattern::Lattice;
use crate::report::{Diagnostic, Severity};
use crate::settle::NotSettled;

/// No pose was found at all.
pub struct NoPoseFound;

impl Rule for NoPoseFound {
    const NAME: &str = "no-pose-found";
    const PAGE: &str = include_str!("no_pose_found.md");
    const SEVERITY: Severity = Severity::Warning;
    const FOUND: Found = Found::InPose(check);
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let Some(why @ NotSettled::NoPose { accents, .. }) = context.not_settled else { return };
    let accent = context.pattern.accents.first().filter(|_| *accents);
    let (span, message) = (accent.map_or(context.whole(), |a| a.span), why.to_string());
    let straight = context.pattern.lattice == Lattice::Chain && !context.pattern.spiral;
    let spiral = if straight { "; a chain is taken as straight unless the text says `spiral`" } else { "" };
    findings.push(
        NoPoseFound::at(span, message)
            .label("not a proof")
            .help(format!("check the passes: a wrong eye or a wrong direction often leaves round rings no room{spiral}; if the passes are right, make a sample")),
    );
}
