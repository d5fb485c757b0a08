use super::context::Context;
use crate::report::{Diagnostic, Severity};
use crate::text::Span;

/// How much of a weave a check needs to be sound.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Needs {
    /// Any text, even with lines lost.
    Text,
    /// The whole weave: every line read and every name known.
    Graph,
    /// A weave without errors, settled: of a faulty one the pose says nothing.
    Pose,
}

/// Looks at a weave and adds its findings.
pub type Check = fn(&Context<'_>, &mut Vec<Diagnostic>);

/// What finds the faults of a rule.
#[derive(Clone, Copy)]
pub enum Found {
    /// A check of any text, see [`Needs::Text`].
    InText(Check),
    /// A check of the ring graph, see [`Needs::Graph`].
    InGraph(Check),
    /// A check of the settled weave, see [`Needs::Pose`].
    InPose(Check),
    /// The reader of the notation: see [`crate::notation::read`].
    WhileReading,
    /// The comparison of written instructions with their weave: see [`crate::steps::check`].
    InSteps,
    /// The comparison of a tutorial's words with its weave: see [`crate::tutorial`].
    InProse,
    /// The comparison with the rings on a shelf: see [`super::check_shelf`].
    OnShelf,
}

impl Found {
    /// Its check, where it has one with these needs.
    pub fn check(self, needs: Needs) -> Option<Check> {
        match (self, needs) {
            (Self::InText(check), Needs::Text)
            | (Self::InGraph(check), Needs::Graph)
            | (Self::InPose(check), Needs::Pose) => Some(check),
            _ => None,
        }
    }
}

/// One rule: a type of its own, in a file with its page beside it.
pub trait Rule {
    /// Reads after "allow".
    const NAME: &'static str;
    /// What it checks, why, and how to fix it, as Markdown.
    const PAGE: &'static str;
    /// How grave most of its findings are.
    const SEVERITY: Severity = Severity::Error;
    /// What finds its faults.
    const FOUND: Found;
    /// Whether a finding means that the ring graph is not what the maker meant, so that rules on the graph would only
    /// repeat it.
    const BREAKS_GRAPH: bool = false;

    /// A finding of this rule.
    fn at(span: Span, message: impl Into<String>) -> Diagnostic {
        Diagnostic::new(Self::NAME, Self::SEVERITY, span, message)
    }

    /// A finding of this rule that is a warning, whatever most of its findings are.
    fn warning(span: Span, message: impl Into<String>) -> Diagnostic {
        Diagnostic::warning(Self::NAME, span, message)
    }
}

/// A rule as the table lists it.
pub struct Entry {
    /// Its name; reads after "allow".
    pub name: &'static str,
    /// Its page, as Markdown.
    pub page: &'static str,
    pub(super) found: Found,
    pub(super) breaks_graph: bool,
}

impl Entry {
    /// The entry of a rule.
    pub(super) const fn of<R: Rule>() -> Self {
        Self { name: R::NAME, page: R::PAGE, found: R::FOUND, breaks_graph: R::BREAKS_GRAPH }
    }

    /// The first sentence of the page: what the rule checks.
    pub fn first_sentence(&self) -> String {
        let body = self.page.split("## What it checks\n").nth(1).unwrap_or("");
        let words: Vec<&str> = body.split_whitespace().collect();
        let text = words.join(" ");
        match text.find(". ") {
            Some(end) => text.get(..=end).unwrap_or(&text).to_owned(),
            None => text,
        }
    }
}
