use super::sitting::{finding, smaller};
use crate::lint::{Context, Found, Rule};
use crate::report::{Diagnostic, Severity};
use crate::settle::Word;

/// Accent rings that lodge at different tilts, or shorten the piece.
pub struct SitsAskew;

impl Rule for SitsAskew {
    const NAME: &str = "sits-askew";
    const PAGE: &str = include_str!("sits_askew.md");
    const SEVERITY: Severity = Severity::Warning;
    const FOUND: Found = Found::InPose(check);
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let Some(settled) = context.settled_at_sizes() else { return };
    for sits in settled.sits.iter().filter(|s| s.word == Word::Askew) {
        let name = context.family(sits.family);
        let message = if sits.ways > 1 {
            format!("`{name}` sits askew: it lodges in {} ways, up to {:.0}° apart", sits.ways, sits.spread_deg)
        } else {
            format!("`{name}` sits askew: it shortens the piece by {:.1} %", sits.loss_percent)
        };
        let mut help = "try a larger inner diameter: it gives the ring room to turn straight".to_owned();
        if let Some(smaller) = smaller(context, sits) {
            help += &format!("; or {smaller}");
        }
        findings.push(finding::<SitsAskew>(context, sits, message).help(help));
    }
}
