//! Rules over tree, pattern, ring graph and pose.
//!
//! One rule is two files, `rules/<family>/<fault>.rs` and `rules/<family>/<fault>.md`, and one line in [`RULES`]. The
//! page says what the rule checks and why it matters; its fences are run as the rule's test.

mod context;
mod kind_line;
mod known;
mod rule;
mod rules;
mod unchecked_claims;

pub use rule::{Entry, Needs};
pub use rules::RULES;
pub use rules::making::short_on_the_shelf::check_shelf;
pub use unchecked_claims::{unchecked_claims, unchecked_notes};

pub(crate) use rule::Rule;
pub(crate) use rules::claims::{
    claim_aspect_ratio::ClaimAspectRatio, claim_length::ClaimLength, claim_rings::ClaimRings,
};
pub(crate) use rules::closing::rings_too_small::RingsTooSmall;
pub(crate) use rules::sizes::{
    WrongSize, aspect_ratio_disagrees::AspectRatioDisagrees, aspect_ratio_unit::AspectRatioUnit,
    gauge_disagrees::GaugeDisagrees, inch_disagrees::InchDisagrees, wire_and_inner_swapped::WireAndInnerSwapped,
};
pub(crate) use rules::steps::StepMiscounted;

use crate::notation::{Claim, Statement};
use crate::pattern::{Bag, RingSet};
use crate::report::{Diagnostic, Page, Severity};
use crate::text::{Sources, Spanned};
use crate::weave::Weave;
use context::Context;
use kind_line::KindLine;
use known::Known;
use rule::Found;
use rules::{accents, claims, closing, sizes};

/// The most findings reported for one weave, in the order of the text.
pub const MOST_FINDINGS: usize = 1000;

/// Everything wrong with a weave, in the order of the text: what could not be read, then what the rules
/// find. Rules that need the whole weave stay silent where part of it could not be read, and rules that need
/// to know where its rings lie stay silent while there are errors, so that one slip gives one finding.
pub fn check(weave: &Weave) -> Vec<Diagnostic> {
    check_up_to(weave, Needs::Pose)
}

/// The same by those rules only that need no more than this; up to [`Needs::Graph`] the weave is not settled but
/// where its length alone says how large the piece is.
pub fn check_up_to(weave: &Weave, most: Needs) -> Vec<Diagnostic> {
    let mut findings = check_piece(weave, most);
    let sound = weave.pattern().whole && !findings.iter().any(|f| breaks_graph(f.rule));
    if sound {
        in_bags(weave, most, &mut findings);
    }
    in_order(findings)
}

/// What is found in the bags of a kit or class, and in sets of rings that no bag uses, and not in the piece. What several
/// have is found once.
fn in_bags(weave: &Weave, most: Needs, findings: &mut Vec<Diagnostic>) {
    let bags = weave.bags();
    let named = weave.pattern().bags.iter().zip(bags).map(|(bag, own)| (bag.name.value.as_str(), own));
    let in_none = |set: &&RingSet| {
        let uses = |b: &Bag| b.rings.as_ref().is_some_and(|r| r.value == set.name.value);
        !weave.pattern().bags.iter().any(uses)
    };
    let sets = weave.pattern().sets.iter().filter(in_none);
    let sets = sets.filter_map(|set| Some((set.name.value.as_str(), weave.in_rings(&set.name.value)?)));
    for (name, own) in named.chain(sets) {
        for found in check_piece(&own, most) {
            if !findings.iter().any(|f| f.rule == found.rule && f.span == found.span) {
                findings.push(Diagnostic { message: format!("in \"{name}\": {}", found.message), ..found });
            }
        }
    }
}

/// What is found in the one piece that the lines without a name describe.
fn check_piece(weave: &Weave, most: Needs) -> Vec<Diagnostic> {
    let piece = weave.piece(weave.size());
    let mut context = Context::new(weave, Some(piece.as_ref()));
    let mut findings = on_the_text(weave, &context);
    let sound = weave.pattern().whole && !findings.iter().any(|f| breaks_graph(f.rule));
    if sound && most >= Needs::Graph {
        run(Needs::Graph, &context, &mut findings);
    }
    if sound && most >= Needs::Pose && !has_errors(&findings) {
        context.settle();
        run(Needs::Pose, &context, &mut findings);
    }
    findings
}

fn has_errors(findings: &[Diagnostic]) -> bool {
    findings.iter().any(|f| f.severity == Severity::Error)
}

fn run(needs: Needs, context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    for check in RULES.iter().filter_map(|r| r.found.check(needs)) {
        check(context, findings);
    }
}

/// What is wrong with sizes that another text states of a weave. `lines` are those sizes as lines of `rings`; their spans
/// point into `sources`.
pub(crate) fn of_sizes(weave: &Weave, sources: &Sources, lines: &[Statement]) -> Vec<Diagnostic> {
    run_all(&sizes::AS_WRITTEN, &Context { statements: lines.iter().collect(), sources, ..Context::new(weave, None) })
}

/// What is wrong with claims that another text makes about one piece of a weave; their spans point into `sources`.
pub(crate) fn of_claims(weave: &Weave, sources: &Sources, claims: &[Spanned<Claim>]) -> Vec<Diagnostic> {
    let piece = weave.piece(weave.size());
    let mut context = Context { claims, claims_of_all: &[], sources, ..Context::new(weave, Some(piece.as_ref())) };
    context.settle();
    run_all(&claims::IN_PROSE, &context)
}

/// What is wrong with numbers of rings that another text claims about all that is made; their spans point into `sources`.
pub(crate) fn of_claims_of_all(weave: &Weave, sources: &Sources, claims: &[Spanned<Claim>]) -> Vec<Diagnostic> {
    let context = Context { claims: &[], claims_of_all: claims, sources, ..Context::new(weave, None) };
    run_all(&[ClaimRings::FOUND], &context)
}

/// Whether the rings of a weave close, with some room, and its accents sit well, whatever the text claims.
pub(crate) fn of_fit(weave: &Weave) -> Vec<Diagnostic> {
    let piece = weave.piece(weave.size());
    let mut context = Context { claims: &[], claims_of_all: &[], ..Context::new(weave, Some(piece.as_ref())) };
    context.settle();
    let fit = [
        closing::close_to_floor::CloseToFloor::FOUND,
        RingsTooSmall::FOUND,
        accents::sits_askew::SitsAskew::FOUND,
        accents::sits_loose::SitsLoose::FOUND,
    ];
    run_all(&fit, &context)
}

fn run_all(rules: &[Found], context: &Context<'_>) -> Vec<Diagnostic> {
    let mut findings = Vec::new();
    for needs in [Needs::Text, Needs::Graph, Needs::Pose] {
        for check in rules.iter().filter_map(|found| found.check(needs)) {
            check(context, &mut findings);
        }
    }
    in_order(findings)
}

/// What keeps the ring graph from being what the maker meant, if anything does. Whether the piece is too
/// large is found when it is made.
pub fn graph_broken(weave: &Weave) -> Option<Vec<Diagnostic>> {
    let context = Context::new(weave, None);
    let findings = in_order(on_the_text(weave, &context));
    let broken: Vec<Diagnostic> = findings.iter().filter(|f| breaks_graph(f.rule)).cloned().collect();
    match (broken.is_empty(), weave.pattern().whole) {
        (true, true) => None,
        (true, false) => Some(findings),
        (false, _) => Some(broken),
    }
}

fn on_the_text(weave: &Weave, context: &Context<'_>) -> Vec<Diagnostic> {
    let mut findings = weave.reading().to_vec();
    run(Needs::Text, context, &mut findings);
    findings
}

fn in_order(mut findings: Vec<Diagnostic>) -> Vec<Diagnostic> {
    findings.sort_by_key(|f| (f.span.source, f.span.start, f.span.end, f.rule, f.message.clone()));
    findings.dedup();
    findings.truncate(MOST_FINDINGS);
    findings
}

/// Whether a finding of this rule means that the ring graph is not what the maker meant.
fn breaks_graph(name: &str) -> bool {
    rule(name).is_some_and(|r| r.breaks_graph)
}

/// The pages of all rules, for reports that show them.
pub fn pages() -> Vec<Page> {
    RULES.iter().map(|r| Page { name: r.name, summary: r.first_sentence(), text: r.page }).collect()
}

/// The rule with this name.
pub fn rule(name: &str) -> Option<&'static Entry> {
    RULES.iter().find(|r| r.name == name)
}
