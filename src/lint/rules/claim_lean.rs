//! A claim of lean against the lean that is stated.

use crate::lint::Context;
use crate::notation::Claim;
use crate::report::Diagnostic;

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let Some(stated) = context.pattern.lean.first() else { return };
    for claim in &context.pattern.claims {
        let Claim::Lean(hand, upright) = claim.value else { continue };
        let lying = if upright { hand.other() } else { hand };
        if lying != stated.value {
            let message = format!(
                "claimed to lean {}{}, but the weave is stated to lean {} lying, {} held upright",
                hand.word(),
                if upright { " held upright" } else { "" },
                stated.value.word(),
                stated.value.other().word()
            );
            findings.push(
                Diagnostic::error("claim-lean", claim.span, message)
                    .label("the other way")
                    .related(stated.span, "stated here")
                    .help("lying means: chain across, first ring at the left, front up; left is `\\`, right is `/`"),
            );
        }
    }
}
