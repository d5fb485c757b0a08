//! Stage 6: rules over tree, pattern and ring graph.
//!
//! One rule is two files, `rules/<fault>.rs` and `rules/<fault>.md`, and one line in [`RULES`]. The page
//! says what the rule checks and why it matters; its fences are run as the rule's test.

mod context;
mod rules;
mod sizes;
mod unchecked;

pub use context::Context;
pub use rules::{Needs, RULES, Rule};
pub use unchecked::unchecked_claims;

use crate::report::Diagnostic;
use crate::weave::Weave;

/// The most findings reported for one weave, in the order of the text.
pub const MOST_FINDINGS: usize = 1000;

/// Everything wrong with a weave, in the order of the text: what could not be read, then what the rules
/// find. Rules that need the whole weave stay silent where part of it could not be read, so that one
/// slip gives one finding.
pub fn check(weave: &Weave) -> Vec<Diagnostic> {
    let piece = weave.piece(weave.size());
    let context = Context::new(weave, Some(piece.as_ref()));
    let mut findings = on_the_text(weave, &context);
    if weave.pattern.whole && !findings.iter().any(|f| breaks_graph(f.rule)) {
        for rule in RULES.iter().filter(|r| r.needs == Needs::Graph) {
            (rule.check)(&context, &mut findings);
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
    match (broken.is_empty(), weave.pattern.whole) {
        (true, true) => None,
        (true, false) => Some(findings),
        (false, _) => Some(broken),
    }
}

fn on_the_text(weave: &Weave, context: &Context<'_>) -> Vec<Diagnostic> {
    let mut findings = weave.reading.clone();
    for rule in RULES.iter().filter(|r| r.needs == Needs::Text) {
        (rule.check)(context, &mut findings);
    }
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

/// The rule with this name.
pub fn rule(name: &str) -> Option<&'static Rule> {
    RULES.iter().find(|r| r.name == name)
}
