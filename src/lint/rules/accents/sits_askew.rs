//! Accent rings that lodge at different tilts, or hold the piece back.

use super::sits_loose::{finding, smaller};
use crate::lint::Context;
use crate::report::Diagnostic;
use crate::settle::Word;

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let Some(settled) = context.settled_at_sizes() else { return };
    for sits in settled.sits.iter().filter(|s| s.word == Word::Askew) {
        let name = context.family(sits.family);
        let message = if sits.ways > 1 {
            format!("`{name}` sits askew: it lodges in {} ways, up to {:.0}° apart", sits.ways, sits.spread_deg)
        } else {
            format!("`{name}` sits askew: the piece is {:.1} % shorter for it", sits.loss_percent)
        };
        let mut help = "a larger inner diameter gives it room to come straight".to_owned();
        if let Some(smaller) = smaller(context, sits) {
            help += &format!("; a smaller one may lodge in one way only: {smaller}");
        }
        findings.push(finding(context, "sits-askew", sits, message).help(help));
    }
}
