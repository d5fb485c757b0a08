//! A text about a weave that has bags and sets of rings: what holds of one of them is not blamed.

use crate::lint;
use crate::pattern::{KindSize, sizes};
use crate::report::Diagnostic;
use crate::weave::Weave;

/// Sizes of all kinds in each set of rings.
pub fn sizes_of_sets(weave: &Weave) -> Vec<KindSize> {
    let sets = weave.pattern().sets.iter().filter_map(|set| weave.in_rings(&set.name.value));
    sets.flat_map(|own| sizes(own.pattern())).collect()
}

/// Those of these findings on the claims of `weave` that hold of no bag, of no set of rings and not of all that is made
/// either.
pub fn of_none(weave: &Weave, found: Vec<Diagnostic>, rules: &[&str]) -> Vec<Diagnostic> {
    if found.is_empty() || weave.pattern().bags.is_empty() && weave.pattern().sets.is_empty() {
        return found;
    }
    let claims = &weave.pattern().claims;
    let sets = weave.pattern().sets.iter().filter_map(|set| weave.in_rings(&set.name.value));
    let all = weave.bags().into_iter().chain(sets).map(|own| own.with_claims(claims.clone()));
    let mut all: Vec<Weave> = all.collect();
    if !weave.pattern().bags.is_empty() {
        all.push(weave.with_claims_of_all(claims.clone()));
    }
    let mut left = found;
    for own in &all {
        if left.is_empty() {
            break;
        }
        let wrong = lint::check_by(own, rules);
        // All together rings are counted and weighed, and nothing else.
        let together = !own.pattern().bags.is_empty();
        let looked_at = |f: &Diagnostic| !together || f.rule == "claim-rings";
        left.retain(|f| !looked_at(f) || wrong.iter().any(|w| w.rule == f.rule && w.span == f.span));
    }
    left
}
