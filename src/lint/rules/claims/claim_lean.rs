use crate::lint::rules::lying::lean_changes::tips;
use crate::lint::{Context, Found, Rule};
use crate::notation::{Claim, Hand};
use crate::report::Diagnostic;
use crate::settle::Settled;

/// A claimed lean is not the one that is stated, or not that of the pose.
pub struct ClaimLean;

impl Rule for ClaimLean {
    const NAME: &str = "claim-lean";
    const PAGE: &str = include_str!("claim_lean.md");
    const FOUND: Found = Found::InPose(check);
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    for claim in context.claims {
        let Claim::Lean(hand, upright) = claim.value else { continue };
        let lying = if upright { hand.other() } else { hand };
        let claimed = format!("the text says it leans {}{}", hand.word(), if upright { " held upright" } else { "" });
        if let Some(stated) = context.pattern.lean.first() {
            // Whether the rings come to lie as stated has its own rule.
            if lying != stated.value {
                let message = format!("{claimed}; the weave is stated to lean {}", both(stated.value));
                findings.push(explained(ClaimLean::at(claim.span, message)).related(stated.span, "stated here"));
            }
            continue;
        }
        let Some(settled) = context.settled.filter(|s| has_one_lean(s)) else { continue };
        let found = match settled.lean {
            Some(found) if found == lying => continue,
            Some(found) => format!("settled, it leans {}", both(found)),
            None => format!("settled, its eyes are upright ({})", tips(settled)),
        };
        findings.push(explained(ClaimLean::warning(claim.span, format!("{claimed}; {found}"))));
    }
}

/// Whether a settled weave has one lean, or none, to compare a claim with.
fn has_one_lean(settled: &Settled) -> bool {
    settled.broken.is_empty() && !settled.either_hand && !settled.view.tips.is_empty() && !settled.view.lean_changes()
}

/// The lean in both readings.
fn both(hand: Hand) -> String {
    format!("{} lying flat, {} held upright", hand.word(), hand.other().word())
}

fn explained(found: Diagnostic) -> Diagnostic {
    found
        .label("another lean")
        .help("lying flat means: chain across, first ring at the left, front up; left is `\\`, right is `/`")
}
