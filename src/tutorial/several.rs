//! A text about a weave that has bags and sets of rings: what is true of one of them is not blamed.

use crate::lint::{self, ClaimRings, Rule};
use crate::notation::Claim;
use crate::pattern::{KindSize, sizes};
use crate::report::Diagnostic;
use crate::text::{Sources, Spanned};
use crate::weave::Weave;

/// Sizes of all kinds in each set of rings.
pub fn sizes_of_sets(weave: &Weave) -> Vec<KindSize> {
    let sets = weave.pattern().sets.iter().filter_map(|set| weave.in_rings(&set.name.value));
    sets.flat_map(|own| sizes(own.pattern())).collect()
}

/// What is wrong with claims about a weave that are true of no bag, of no set of rings, and not of all that is made either.
/// Their spans point into `sources`.
pub fn true_of_none(weave: &Weave, sources: &Sources, claims: &[Spanned<Claim>]) -> Vec<Diagnostic> {
    let mut left = lint::of_claims(weave, sources, claims);
    let same = |one: &Diagnostic, other: &Diagnostic| one.rule == other.rule && one.span == other.span;
    let sets = weave.pattern().sets.iter().filter_map(|set| weave.in_rings(&set.name.value));
    for own in weave.bags().into_iter().chain(sets) {
        if left.is_empty() {
            return left;
        }
        let wrong = lint::of_claims(&own, sources, claims);
        left.retain(|f| wrong.iter().any(|w| same(w, f)));
    }
    if !weave.pattern().bags.is_empty() {
        // Of all together only rings are counted.
        let wrong = lint::of_claims_of_all(weave, sources, claims);
        left.retain(|f| f.rule != ClaimRings::NAME || wrong.iter().any(|w| same(w, f)));
    }
    left
}
