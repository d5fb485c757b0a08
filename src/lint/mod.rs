//! Rules over tree, pattern, ring graph and pose.
//!
//! One rule is two files, `rules/<fault>.rs` and `rules/<fault>.md`, and one line in [`RULES`]. The page
//! says what the rule checks and why it matters; its fences are run as the rule's test.

mod closing;
mod context;
mod rules;
mod shelf;
mod sizes;
mod unchecked;

pub use context::Context;
pub use rules::{Needs, RULES, Rule, WRONG_SIZE};
pub use shelf::check_shelf;
pub use unchecked::{unchecked_claims, unchecked_notes};

use crate::pattern::{Bag, RingSet};
use crate::report::{Diagnostic, Page, Severity};
use crate::weave::Weave;

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

/// What is found of the bags of a kit or class, and of sets of rings that are in none, and not of the piece. What several
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

/// What is found of the one piece that the lines without a name have.
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
    for rule in RULES.iter().filter(|r| r.needs == needs) {
        (rule.check)(context, findings);
    }
}

/// What these rules find, whatever others would; the weave is settled where one of them needs it.
pub(crate) fn check_by(weave: &Weave, names: &[&str]) -> Vec<Diagnostic> {
    let piece = weave.piece(weave.size());
    let mut context = Context::new(weave, Some(piece.as_ref()));
    let rules: Vec<&Rule> = RULES.iter().filter(|r| names.contains(&r.name)).collect();
    if rules.iter().any(|r| r.needs == Needs::Pose) {
        context.settle();
    }
    let mut findings = Vec::new();
    for rule in rules {
        (rule.check)(&context, &mut findings);
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
fn breaks_graph(rule: &str) -> bool {
    RULES.iter().any(|r| r.name == rule && r.breaks_graph)
}

/// The pages of all rules, for reports that show them.
pub fn pages() -> Vec<Page> {
    RULES.iter().map(|r| Page { name: r.name, summary: r.first_sentence(), text: r.page }).collect()
}

/// The rule with this name.
pub fn rule(name: &str) -> Option<&'static Rule> {
    RULES.iter().find(|r| r.name == name)
}
