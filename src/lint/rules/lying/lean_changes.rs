use crate::lint::{Context, Found, Rule};
use crate::notation::Claim;
use crate::report::{Diagnostic, Severity};
use crate::settle::Settled;
use crate::text::Span;

/// A lean is given for a chain whose eyes tip both ways.
pub struct LeanChanges;

impl Rule for LeanChanges {
    const NAME: &str = "lean-changes";
    const PAGE: &str = include_str!("lean_changes.md");
    const SEVERITY: Severity = Severity::Warning;
    const FOUND: Found = Found::InPose(check);
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let Some(settled) = context.settled.filter(|s| s.broken.is_empty() && s.view.lean_changes()) else { return };
    let claims = context.claims.iter().filter(|c| matches!(c.value, Claim::Lean(..))).map(|c| c.span);
    let said: Vec<Span> = claims.chain(context.pattern.lean.iter().map(|l| l.span)).collect();
    let Some(first) = said.first() else { return };
    let message = format!("the text gives one lean; the eyes tip both ways along the piece ({})", tips(settled));
    let mut finding = LeanChanges::at(*first, message).label("true for some eyes only");
    for span in said.iter().skip(1) {
        finding = finding.related(*span, "and here");
    }
    let help = if settled.sits.is_empty() {
        "leave the lean out, or check the passes and the sides"
    } else {
        "the accents tip the eyes: try other sizes for them, or leave the lean out"
    };
    findings.push(finding.help(help));
}

/// How each eye tips: "left 12.0°, right 11.8°".
pub fn tips(settled: &Settled) -> String {
    let tip = |t: &f64| format!("{} {:.1}°", if *t < 0.0 { "left" } else { "right" }, t.abs());
    settled.view.tips.iter().map(tip).collect::<Vec<_>>().join(", ")
}
