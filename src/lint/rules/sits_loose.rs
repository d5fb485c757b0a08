//! Accent rings that rock freely.

use crate::lint::Context;
use crate::lint::closing::kind_span;
use crate::report::Diagnostic;
use crate::settle::{Sits, Word};

/// With more room than this, as a part of the wire, the whole is loose. (Common practice, no source.)
const MUCH_ROOM: f64 = 0.1;

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let Some(settled) = context.settled_at_sizes() else { return };
    for sits in settled.sits.iter().filter(|s| s.word == Word::Loose) {
        let message = format!(
            "`{}` sits loose: it rocks by {:.0}° while the piece is drawn out",
            context.family(sits.family),
            sits.rock_deg
        );
        let mut help =
            smaller(context, sits).unwrap_or("try a smaller inner diameter".to_owned()) + ", or thicker wire";
        // What lies in a loose base cannot sit still.
        if let Some(room) = settled.room().filter(|r| *r > MUCH_ROOM) {
            help += &format!(
                "; the whole is loose, all wires could be {:.0} % thicker: smaller rings for the base as well",
                100.0 * room
            );
        }
        findings.push(finding(context, "sits-loose", sits, message).help(help));
    }
}

/// The finding of an accent that sits ill, with its figures.
pub fn finding(context: &Context<'_>, rule: &'static str, sits: &Sits, message: String) -> Diagnostic {
    let ways = if sits.ways == 1 { "1 way".to_owned() } else { format!("{} ways", sits.ways) };
    let label = format!(
        "lodges in {ways}, {:.0}° apart at most; rocks by {:.0}°; the piece loses up to {:.1} % of its length",
        sits.spread_deg, sits.rock_deg, sits.loss_percent
    );
    let found = Diagnostic::warning(rule, context.declared(sits.family), message).label(label);
    found.related(kind_span(context, &context.pattern.families[sits.family].kind), "its size")
}

/// "try a smaller inner diameter, from 7.21 mm on", where a smaller one closes.
pub fn smaller(context: &Context<'_>, sits: &Sits) -> Option<String> {
    let kind = context.pattern.families[sits.family].kind.as_str();
    let size = context.sizes.iter().find(|s| s.name == kind)?;
    let inner = size.inner_mm?;
    let least = context.settled?.smallest_inner(context.pattern, kind)?;
    let least = libm::ceil(least * 100.0 - 1e-6) / 100.0;
    (least < inner).then(|| {
        format!("try a smaller inner diameter for `{kind}`: it closes from {least:.2} mm on, and has {inner:.2} mm")
    })
}
