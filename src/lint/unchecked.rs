//! Claims that nothing checks, and why not: a claim is never passed over in silence.

use crate::notation::Claim;
use crate::pattern::Lattice;
use crate::supply::{KindSize, material};
use crate::text::Span;
use crate::weave::Weave;

const SETTLED: &str = "needs the settled piece";
const SIZE: &str = "say in `make` how many to make";

/// The words of every claim that no rule checks, and why not.
pub fn unchecked_claims(weave: &Weave) -> Vec<(Span, &'static str)> {
    let claims = weave.pattern.claims.iter();
    claims.filter_map(|claim| Some((claim.span, why_not(weave, &claim.value)?))).collect()
}

fn why_not(weave: &Weave, claim: &Claim) -> Option<&'static str> {
    let sized = weave.size_asked().is_some();
    let measured = weave.pattern.make.measured.is_some() && weave.pattern.lattice == Lattice::Chain;
    let named =
        |names: &[crate::text::Spanned<String>], kind: &str| names.is_empty() || names.iter().any(|n| n.value == kind);
    match claim {
        Claim::Lean(..) | Claim::Fits | Claim::Straight => Some(SETTLED),
        Claim::AspectRatio { kinds, .. } => {
            let mut meant = kinds_used(weave).into_iter().filter(|k| named(kinds, k));
            let known = |kind: &str| size(weave, kind).is_some_and(|s| s.aspect_ratio.is_some());
            meant.any(|k| !known(k)).then_some("say in `rings` the wire and the inner diameter")
        }
        Claim::Weight(_) if !sized => Some(SIZE),
        Claim::Weight(_) => {
            let lacking = kinds_used(weave).into_iter().any(|kind| !can_be_weighed(weave, kind));
            lacking.then_some("say in `rings` wire, inner diameter and material of every kind")
        }
        Claim::Length(_) | Claim::Pitch(_) if !measured => Some(SETTLED),
        Claim::Length(_) | Claim::Rings { .. } => (!sized).then_some(SIZE),
        Claim::Pitch(_) | Claim::In { .. } => None,
    }
}

fn can_be_weighed(weave: &Weave, kind: &str) -> bool {
    let known = weave.pattern.kind(kind).and_then(|k| k.material.as_ref()).and_then(|m| material(&m.value));
    known.is_some() && size(weave, kind).is_some_and(|s| s.wire_mm.is_some() && s.inner_mm.is_some())
}

/// The kinds that families have.
fn kinds_used(weave: &Weave) -> std::collections::BTreeSet<&str> {
    weave.pattern.families.iter().map(|f| f.kind.as_str()).collect()
}

fn size(weave: &Weave, kind: &str) -> Option<KindSize> {
    weave.pattern.kind(kind).map(KindSize::of)
}
