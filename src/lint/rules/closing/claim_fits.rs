//! The rings are claimed to close, and no pose was found in which they do.

use super::rings_too_small::too_small;
use crate::lint::Context;
use crate::lint::closing::{Closes, closes, standings};
use crate::notation::Claim;
use crate::report::Diagnostic;

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let Some((settled, Closes::No)) = closes(context) else { return };
    for claim in context.pattern.claims.iter().filter(|c| matches!(c.value, Claim::Fits)) {
        let message = format!("claimed to fit, but does not close at these sizes: {}", standings(settled));
        findings.push(too_small(context, settled, "claim-fits", claim.span, message));
    }
}
