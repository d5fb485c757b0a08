//! A chain is claimed to lie straight that does not close when it does.

use super::rings_too_small::too_small;
use crate::lint::Context;
use crate::lint::closing::{Closes, closes, standings};
use crate::notation::Claim;
use crate::pattern::Lattice;
use crate::report::Diagnostic;

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    if context.pattern.lattice != Lattice::Chain {
        return;
    }
    let Some((settled, Closes::Curled | Closes::No)) = closes(context) else { return };
    let otherwise = match settled.curls() {
        Some(how) => format!("closes only when it {how}"),
        None => "does not close straight at these sizes, nor otherwise that was found".to_owned(),
    };
    for claim in context.pattern.claims.iter().filter(|c| matches!(c.value, Claim::Straight)) {
        let message = format!("claimed to be straight, but {otherwise}: {}", standings(settled));
        findings.push(too_small(context, settled, "claim-straight", claim.span, message));
    }
}
