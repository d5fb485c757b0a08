//! A claim of lean against the lean that is stated, and against the pose.

use super::lean_changes::tip;
use crate::lint::Context;
use crate::notation::{Claim, Hand};
use crate::report::Diagnostic;
use crate::settle::Settled;
use crate::text::Span;

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    for claim in &context.pattern.claims {
        let Claim::Lean(hand, upright) = claim.value else { continue };
        let lying = if upright { hand.other() } else { hand };
        let claimed = format!("claimed to lean {}{}", hand.word(), if upright { " held upright" } else { "" });
        if let Some(stated) = context.pattern.lean.first() {
            // How the rings come to lie against what is stated has its own rule.
            if lying != stated.value {
                let message = format!("{claimed}, but the weave is stated to lean {}", both(stated.value));
                findings.push(finding(Diagnostic::error, claim.span, message).related(stated.span, "stated here"));
            }
            continue;
        }
        let Some(settled) = context.settled.filter(|s| checks_lean(s)) else { continue };
        let found = match settled.lean {
            Some(found) if found == lying => continue,
            Some(found) => format!("settled it leans {}", both(found)),
            None => {
                let tips: Vec<String> = settled.view.tips.iter().map(|t| tip(*t)).collect();
                format!("settled its eyes stand upright: {}", tips.join(", "))
            }
        };
        findings.push(finding(Diagnostic::warning, claim.span, format!("{claimed}, but {found}")));
    }
}

/// Whether a settled weave has one lean, or none, that a claim can be held against.
pub fn checks_lean(settled: &Settled) -> bool {
    settled.broken.is_empty() && !settled.either_hand && !settled.view.tips.is_empty() && !settled.view.lean_changes()
}

/// The lean in both readings.
fn both(hand: Hand) -> String {
    format!("{} lying, {} held upright", hand.word(), hand.other().word())
}

fn finding(new: fn(&'static str, Span, String) -> Diagnostic, span: Span, message: String) -> Diagnostic {
    new("claim-lean", span, message)
        .label("the other way")
        .help("lying means: chain across, first ring at the left, front up; left is `\\`, right is `/`")
}
