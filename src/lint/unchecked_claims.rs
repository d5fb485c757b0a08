//! Claims that nothing checks, and why not: no claim is passed over in silence.

use crate::count::LengthCount;
use crate::library::Identity;
use crate::lint::rule;
use crate::lint::rule::Found;
use crate::measure::material;
use crate::notation::Claim;
use crate::pattern::{KindSize, Lattice, some_stretch};
use crate::report::{Diagnostic, Note, Severity};
use crate::settle::{Settled, Sizes};
use crate::text::Span;
use crate::weave::Weave;

const SIZE: &str = "write in `make` how many to make";
const SIZES: &str = "write in `rings` the wire and the inner diameter";

/// The words of every claim that no rule checks, and why not; `findings` is what [`check`](crate::lint::check) found.
pub fn unchecked_claims(weave: &Weave, findings: &[Diagnostic]) -> Vec<(Span, String)> {
    let claims = &weave.pattern().claims;
    // Rules that need the pose ran if no other found an error.
    let in_pose = |name: &str| rule(name).is_some_and(|r| matches!(r.found, Found::InPose(_)));
    let faulty = findings.iter().any(|f| f.severity == Severity::Error && !in_pose(f.rule));
    let of_all = weave.pattern().claims_of_all.iter().filter_map(|claim| match &claim.value {
        Claim::Rings { .. } | Claim::Weight(_) => Some((claim.span, all_open(weave, &claim.value)?)),
        _ => Some((claim.span, "only rings and a weight can be claimed in all; name a bag".to_owned())),
    });
    let own = claims.iter().filter_map(|claim| Some((claim.span, why_not(weave, &claim.value, faulty)?)));
    // Bags have no bags.
    let in_bags = weave.bags().into_iter().flat_map(|bag| unchecked_claims(&bag, findings));
    own.chain(of_all).chain(in_bags).collect()
}

/// Why a claim about all that is made is not checked.
fn all_open(weave: &Weave, claim: &Claim) -> Option<String> {
    let bags = weave.bags();
    let all = if bags.is_empty() { vec![weave.clone()] } else { bags };
    all.iter().find_map(|bag| why_not(bag, claim, false))
}

fn why_not(weave: &Weave, claim: &Claim, faulty: bool) -> Option<String> {
    let named =
        |names: &[crate::text::Spanned<String>], kind: &str| names.is_empty() || names.iter().any(|n| n.value == kind);
    let make = &weave.pattern().make;
    // A length gives the number where the sizes are known.
    let by_length = make.length.is_some() || make.height.is_some() || make.width.is_some();
    let asked = || weave.size_asked().is_none().then(|| if by_length { SIZES } else { SIZE }.to_owned());
    match claim {
        Claim::Lean(..) | Claim::Fits | Claim::Straight | Claim::Weave(_) | Claim::Length(_) | Claim::Pitch(_)
            if faulty =>
        {
            Some("correct the errors first".to_owned())
        }
        Claim::Lean(..) => match weave.settled() {
            Err(why) => Some(format!("{}{}", stated_only(weave), why)),
            Ok(settled) => lean_open(settled).map(str::to_owned),
        },
        Claim::Straight if weave.pattern().lattice != Lattice::Chain => Some("only a chain can be straight".to_owned()),
        Claim::Fits | Claim::Straight => sizes_open(weave),
        Claim::AspectRatio { kinds, .. } => {
            let mut meant = kinds_used(weave).into_iter().filter(|k| named(kinds, k));
            let known = |kind: &str| size(weave, kind).is_some_and(|s| s.aspect_ratio.is_some());
            meant.any(|k| !known(k)).then(|| SIZES.to_owned())
        }
        Claim::Weight(_) => asked().or_else(|| {
            let lacking = kinds_used(weave).into_iter().any(|kind| !can_be_weighed(weave, kind));
            lacking.then(|| "write in `rings` the wire, inner diameter and material of every kind".to_owned())
        }),
        Claim::Length(_) => length_open(weave).or_else(asked),
        Claim::Pitch(_) => length_open(weave),
        Claim::Rings { .. } => asked(),
        Claim::Weave(name) => {
            let (claimed, own) = (Identity::built_in(&name.value)?, Identity::of(weave));
            let open = claimed.links_of(&own) && !claimed.is(&own);
            open.then(|| own.pose().err())?.map(|why| format!("it has the links of {}, but {why}", claimed.name))
        }
        Claim::In { .. } => None,
    }
}

fn stated_only(weave: &Weave) -> &'static str {
    if weave.pattern().lean.is_empty() { "" } else { "it is only compared with the stated lean; " }
}

/// Why a settled weave does not decide a claim about its lean.
fn lean_open(settled: &Settled) -> Option<&'static str> {
    if !settled.broken.is_empty() {
        Some("no pose was found that agrees with the text")
    } else if settled.view.tips.is_empty() {
        Some("only the eyes of a straight chain have a lean")
    } else if settled.either_hand {
        Some("the text allows both hands; write `lean left` or `lean right`, or the side on which a ring lies")
    } else {
        None
    }
}

/// Why it is not known whether a weave closes at its sizes.
fn sizes_open(weave: &Weave) -> Option<String> {
    if some_stretch(weave.pattern()) {
        Some("some rings stretch; only rigid rings are settled".to_owned())
    } else if Sizes::of(weave.pattern()).complete {
        weave.settled().err().map(ToString::to_string)
    } else {
        Some(SIZES.to_owned())
    }
}

/// Why the length of a repeat is not known.
fn length_open(weave: &Weave) -> Option<String> {
    if weave.pattern().lattice != Lattice::Chain {
        return Some("only the pitch and length of chains are computed".to_owned());
    }
    if LengthCount::of(weave, weave.size()).is_some() {
        return None;
    }
    let closes = weave.settled().ok().and_then(Settled::closes);
    let otherwise = if closes == Some(false) { "the rings do not close at these sizes" } else { SIZES };
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
