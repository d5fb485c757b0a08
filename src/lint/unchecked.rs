//! Claims that nothing checks, and why not: a claim is never passed over in silence.

use crate::count::LengthCount;
use crate::library::Identity;
use crate::lint::rule;
use crate::lint::rules::Needs;
use crate::measure::material;
use crate::notation::Claim;
use crate::pattern::{KindSize, Lattice, some_stretch};
use crate::report::{Diagnostic, Note, Severity};
use crate::settle::{Settled, Sizes};
use crate::text::Span;
use crate::weave::Weave;

const SIZE: &str = "say in `make` how many to make";
const SIZES: &str = "say in `rings` the wire and the inner diameter";

/// The words of every claim that no rule checks, and why not; `findings` is what [`check`](crate::lint::check) found.
pub fn unchecked_claims(weave: &Weave, findings: &[Diagnostic]) -> Vec<(Span, String)> {
    let claims = &weave.pattern().claims;
    // Rules that need the pose ran if no other found an error.
    let faulty =
        findings.iter().any(|f| f.severity == Severity::Error && rule(f.rule).is_none_or(|r| r.needs < Needs::Pose));
    let of_all = weave.pattern().claims_of_all.iter().filter_map(|claim| match &claim.value {
        Claim::Rings { .. } | Claim::Weight(_) => Some((claim.span, all_open(weave, &claim.value)?)),
        _ => Some((claim.span, "of all that is made only rings and a weight are claimed; say in which bag".to_owned())),
    });
    let own = claims.iter().filter_map(|claim| Some((claim.span, why_not(weave, &claim.value, faulty)?)));
    // Bags have no bags.
    let in_bags = weave.bags().into_iter().flat_map(|bag| unchecked_claims(&bag, findings));
    own.chain(of_all).chain(in_bags).collect()
}

/// Why a claim of all that is made is not checked.
fn all_open(weave: &Weave, claim: &Claim) -> Option<String> {
    let bags = weave.bags();
    let all = if bags.is_empty() { vec![weave.clone()] } else { bags };
    all.iter().find_map(|bag| why_not(bag, claim, false))
}

fn why_not(weave: &Weave, claim: &Claim, faulty: bool) -> Option<String> {
    let named =
        |names: &[crate::text::Spanned<String>], kind: &str| names.is_empty() || names.iter().any(|n| n.value == kind);
    let make = &weave.pattern().make;
    // A length says how many where the sizes are known.
    let by_length = make.length.is_some() || make.height.is_some() || make.width.is_some();
    let asked = || weave.size_asked().is_none().then(|| if by_length { SIZES } else { SIZE }.to_owned());
    match claim {
        Claim::Lean(..) | Claim::Fits | Claim::Straight | Claim::Weave(_) | Claim::Length(_) | Claim::Pitch(_)
            if faulty =>
        {
            Some("mend the errors first".to_owned())
        }
        Claim::Lean(..) => match weave.settled() {
            Err(why) => Some(format!("{}{}", stated_only(weave), why)),
            Ok(settled) => lean_open(settled).map(str::to_owned),
        },
        Claim::Straight if weave.pattern().lattice != Lattice::Chain => Some("it is said of chains".to_owned()),
        Claim::Fits | Claim::Straight => sizes_open(weave),
        Claim::AspectRatio { kinds, .. } => {
            let mut meant = kinds_used(weave).into_iter().filter(|k| named(kinds, k));
            let known = |kind: &str| size(weave, kind).is_some_and(|s| s.aspect_ratio.is_some());
            meant.any(|k| !known(k)).then(|| SIZES.to_owned())
        }
        Claim::Weight(_) => asked().or_else(|| {
            let lacking = kinds_used(weave).into_iter().any(|kind| !can_be_weighed(weave, kind));
            lacking.then(|| "say in `rings` wire, inner diameter and material of every kind".to_owned())
        }),
        Claim::Length(_) => length_open(weave).or_else(asked),
        Claim::Pitch(_) => length_open(weave),
        Claim::Rings { .. } => asked(),
        Claim::Weave(name) => {
            let (claimed, own) = (Identity::built_in(&name.value)?, Identity::of(weave));
            let open = claimed.same_links_or_mirrored(&own) && !claimed.is_described_by(&own);
            open.then(|| own.pose().err())?.map(|why| format!("the links are those of {}, but {why}", claimed.name))
        }
        Claim::In { .. } => None,
    }
}

fn stated_only(weave: &Weave) -> &'static str {
    if weave.pattern().lean.is_empty() { "" } else { "against what is stated only; " }
}

/// Why a settled weave does not say whether a claim of lean is so.
fn lean_open(settled: &Settled) -> Option<&'static str> {
    if !settled.broken.is_empty() {
        Some("no pose was found that lies as the text says")
    } else if settled.view.tips.is_empty() {
        Some("a lean is read from the eyes of a straight chain")
    } else if settled.either_hand {
        Some("the text leaves the hand open: state `lean left` or `lean right`, or the side on which a ring lies")
    } else {
        None
    }
}

/// Why it is not known whether a weave closes at its sizes.
fn sizes_open(weave: &Weave) -> Option<String> {
    if some_stretch(weave.pattern()) {
        Some("some rings stretch, and only rigid ones are settled".to_owned())
    } else if Sizes::of(weave.pattern()).complete {
        weave.settled().err().map(ToString::to_string)
    } else {
        Some(SIZES.to_owned())
    }
}

/// Why the length of a repeat is not known.
fn length_open(weave: &Weave) -> Option<String> {
    if weave.pattern().lattice != Lattice::Chain {
        return Some("it is worked out for chains".to_owned());
    }
    if LengthCount::of(weave, weave.size()).is_some() {
        return None;
    }
    let closes = weave.settled().ok().and_then(Settled::closes);
    let otherwise = if closes == Some(false) { "it does not close at these sizes" } else { SIZES };
    Some(sizes_open(weave).unwrap_or_else(|| otherwise.to_owned()))
}

fn can_be_weighed(weave: &Weave, kind: &str) -> bool {
    let known = weave.pattern().kind(kind).and_then(|k| k.material.as_ref()).and_then(|m| material(&m.value));
    known.is_some() && size(weave, kind).is_some_and(|s| s.wire_mm.is_some() && s.inner_mm.is_some())
}

/// The kinds that families have.
fn kinds_used(weave: &Weave) -> std::collections::BTreeSet<&str> {
    weave.pattern().families.iter().map(|f| f.kind.as_str()).collect()
}

fn size(weave: &Weave, kind: &str) -> Option<KindSize> {
    weave.pattern().kind(kind).map(KindSize::of)
}

/// The same as notes.
pub fn unchecked_notes(weave: &Weave, findings: &[Diagnostic]) -> Vec<Note> {
    let said = |(span, why)| Note { span, message: format!("not checked: {} ({why})", weave.sources().words(span)) };
    unchecked_claims(weave, findings).into_iter().map(said).collect()
}
