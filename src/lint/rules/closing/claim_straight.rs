use super::rings_too_small::too_small;
use super::standing::Closes;
use crate::lint::{Context, Found, Rule};
use crate::notation::Claim;
use crate::pattern::Lattice;
use crate::report::{Diagnostic, Severity};

/// The text claims that a chain lies straight, and it does not close when it does.
pub struct ClaimStraight;

impl Rule for ClaimStraight {
    const NAME: &str = "claim-straight";
    const PAGE: &str = include_str!("claim_straight.md");
    const SEVERITY: Severity = Severity::Warning;
    const FOUND: Found = Found::InPose(check);
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    if context.pattern.lattice != Lattice::Chain {
        return;
    }
    let Some((settled, Closes::Curled | Closes::No)) = Closes::of(context) else { return };
    let otherwise = match settled.curls() {
        Some(how) => format!("it closes only when it {how}"),
        None => "no pose was found that closes at these sizes, straight or not".to_owned(),
    };
    for claim in context.claims.iter().filter(|c| matches!(c.value, Claim::Straight)) {
        let message = format!("the text says the chain is straight; {otherwise}");
        findings.push(too_small::<ClaimStraight>(context, settled, claim.span, message));
    }
}
