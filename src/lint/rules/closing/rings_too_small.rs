//! No pose was found in which the rings, as small as they are, close.

use crate::lint::Context;
use crate::lint::closing::{Closes, closes, collisions, kind_span, standings, ways_out};
use crate::notation::Claim;
use crate::report::Diagnostic;
use crate::settle::Settled;
use crate::text::Span;

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    // A claim that is false for this reason speaks for it.
    let claims = || context.pattern.claims.iter().map(|c| &c.value);
    let straight = claims().any(|c| matches!(c, Claim::Straight));
    let fits = claims().any(|c| matches!(c, Claim::Fits));
    let Some((settled, closes)) = closes(context) else { return };
    let span = settled.floors.first().map_or(context.whole(), |f| kind_span(context, &f.kind));
    match closes {
        Closes::Straight(_) => {}
        Closes::Curled if straight => {}
        Closes::Curled => {
            let how = settled.curls().unwrap_or_default();
            let message = format!("closes only when it {how}: straight, {}", standings(settled));
            findings.push(too_small(context, settled, "rings-too-small", span, message));
        }
        Closes::No if fits || straight => {}
        Closes::No => {
            let message = format!("does not close at these sizes: {}", standings(settled));
            findings.push(too_small(context, settled, "rings-too-small", span, message));
        }
    }
}

/// The finding, by whichever rule: what is proved, what runs into what, and which sizes would do.
pub fn too_small(
    context: &Context<'_>,
    settled: &Settled,
    rule: &'static str,
    span: Span,
    message: String,
) -> Diagnostic {
    let mut found =
        Diagnostic::warning(rule, span, message).label("between what is found and what is proved nobody knows");
    for floor in settled.floors.iter().filter(|f| kind_span(context, &f.kind) != span) {
        found = found.related(kind_span(context, &floor.kind), "sizes that do not close");
    }
    for (family, words) in collisions(context, settled) {
        found = found.related(context.declared(family), words);
    }
    found.help(ways_out(context, settled))
}
