use super::rings_too_small::too_small;
use super::standing::Closes;
use crate::lint::{Context, Found, Rule};
use crate::notation::Claim;
use crate::report::{Diagnostic, Severity};

/// The text claims that the rings close, and no pose was found in which they do.
pub struct ClaimFits;

impl Rule for ClaimFits {
    const NAME: &str = "claim-fits";
    const PAGE: &str = include_str!("claim_fits.md");
    const SEVERITY: Severity = Severity::Warning;
    const FOUND: Found = Found::InPose(check);
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let Some((settled, Closes::No)) = Closes::of(context) else { return };
    for claim in context.claims.iter().filter(|c| matches!(c.value, Claim::Fits)) {
        let message = "the text says the rings fit; they do not close at these sizes";
        findings.push(too_small::<ClaimFits>(context, settled, claim.span, message));
    }
}
