//! A lean is said of a chain whose eyes tip both ways.

use crate::lint::Context;
use crate::notation::Claim;
use crate::report::Diagnostic;
use crate::text::Span;

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let Some(settled) = context.settled.filter(|s| s.broken.is_empty() && s.view.lean_changes()) else { return };
    let claims = context.pattern.claims.iter().filter(|c| matches!(c.value, Claim::Lean(..))).map(|c| c.span);
    let said: Vec<Span> = claims.chain(context.pattern.lean.iter().map(|l| l.span)).collect();
    let Some(first) = said.first() else { return };
    let tips: Vec<String> = settled.view.tips.iter().map(|t| tip(*t)).collect();
    let message = format!("a lean is said, but the eyes tip both ways along the piece: {}", tips.join(", "));
    let mut finding = Diagnostic::warning("lean-changes", *first, message).label("true of some eyes only");
    for span in said.iter().skip(1) {
        finding = finding.related(*span, "said here as well");
    }
    let help = if settled.sits.is_empty() {
        "say nothing of the lean, or look at the passes and sides again"
    } else {
        "the accents pull eyes over: try other sizes for them, or say nothing of the lean"
    };
    findings.push(finding.help(help));
}

/// "left 12.0°".
pub fn tip(degrees: f64) -> String {
    format!("{} {:.1}°", if degrees < 0.0 { "left" } else { "right" }, degrees.abs())
}
