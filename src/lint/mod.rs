//! Stage 5: rules over tree, pattern and ring graph.
//!
//! One rule is two files, `rules/<fault>.rs` and `rules/<fault>.md`, and one line in [`RULES`]. The page
//! says what the rule checks and why it matters; its fences are run as the rule's test.

mod context;
mod rules;

pub use context::Context;
pub use rules::{Needs, RULES, Rule};

use crate::report::{Diagnostic, Severity};
use crate::weave::Weave;

/// Everything wrong with a weave, in the order of the text: what could not be read, then what the rules
/// find. Rules that need the whole weave stay silent where part of it could not be read, so that one
/// slip gives one finding.
pub fn check(weave: &Weave) -> Vec<Diagnostic> {
    let mut findings = weave.reading.clone();
    let piece = weave.piece(weave.size());
    let context = Context::new(weave, piece.as_ref());
    let names = RULES.iter().filter(|r| r.needs == Needs::Text);
    names.for_each(|rule| (rule.check)(&context, &mut findings));
    let whole = weave.pattern.whole && !findings.iter().any(|f| f.severity == Severity::Error && breaks_graph(f.rule));
    if whole {
        let graph = RULES.iter().filter(|r| r.needs == Needs::Graph);
        graph.for_each(|rule| (rule.check)(&context, &mut findings));
    }
    findings.sort_by_key(|f| (f.span.source, f.span.start, f.span.end, f.rule, f.message.clone()));
    findings.dedup();
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
