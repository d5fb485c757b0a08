use super::remedies::remedies;
use super::standing::{Closes, collisions, standing};
use crate::lint::{Context, Found, Rule};
use crate::notation::Claim;
use crate::report::{Diagnostic, Severity};
use crate::settle::Settled;
use crate::text::Span;

/// No pose was found in which rings of these sizes close.
pub struct RingsTooSmall;

impl Rule for RingsTooSmall {
    const NAME: &str = "rings-too-small";
    const PAGE: &str = include_str!("rings_too_small.md");
    const SEVERITY: Severity = Severity::Warning;
    const FOUND: Found = Found::InPose(check);
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    // A claim that is false for this reason has the finding.
    let straight = context.claims.iter().any(|c| matches!(c.value, Claim::Straight));
    let fits = context.claims.iter().any(|c| matches!(c.value, Claim::Fits));
    let Some((settled, closes)) = Closes::of(context) else { return };
    let (Some(first), how) = (settled.floors.first(), settled.curls()) else { return };
    let message = match (closes, how) {
        (Closes::Curled, Some(how)) if !straight => format!("the chain closes only when it {how}"),
        (Closes::No, _) if !fits && !straight => standing(settled, first),
        _ => return,
    };
    findings.push(too_small::<RingsTooSmall>(context, settled, context.kind_span(&first.kind), message));
}

/// The finding of one of the rules on rings that are too small: what each kind needs, which rings would overlap, and which sizes would close.
pub fn too_small<R: Rule>(
    context: &Context<'_>,
    settled: &Settled,
    span: Span,
    message: impl Into<String>,
) -> Diagnostic {
    let message = message.into();
    let collisions = collisions(context, settled).into_iter().map(|(family, words)| (context.declared(family), words));
    let standings = settled.floors.iter().map(|f| (context.kind_span(&f.kind), standing(settled, f)));
    let standings: Vec<_> = standings.filter(|(_, words)| *words != message).collect();
    let mut found = R::at(span, message).label("between the two it is not known");
    for (place, words) in standings.into_iter().chain(collisions) {
        found = found.related(place, words);
    }
    found.help(remedies(context, settled))
}
