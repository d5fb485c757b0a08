//! Findings for other programs.

use super::diagnostic::{Diagnostic, Fix, Note, Severity};
use crate::text::{Sources, Span};
use schemars::JsonSchema;
use serde::Serialize;

/// What `byrnie lint --format json` prints.
#[derive(Default, Serialize, JsonSchema)]
#[schemars(title = "Findings")]
pub struct LintJson {
    /// What is wrong, file by file as they were named, in each in the order of the text.
    findings: Vec<Finding>,
    /// What was not checked or not read, and why; no faults.
    notes: Vec<Message>,
}

#[derive(Serialize, JsonSchema)]
struct Finding {
    /// As `byrnie explain` takes it.
    rule: &'static str,
    severity: Severity,
    message: String,
    #[serde(flatten)]
    place: Place,
    /// Other words that play a part.
    related: Vec<Message>,
    /// A way out.
    help: Option<String>,
    /// A way out that can be applied as it stands.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schemars(with = "FixJson")]
    fix: Option<FixJson>,
}

/// Lines and columns are counted from 1; columns count characters, a byte-order mark none.
#[derive(Serialize, JsonSchema)]
struct Place {
    /// The file as it was named, `standard input`, or `library: NAME` for a built-in weave.
    file: String,
    #[schemars(range(min = 1))]
    line: usize,
    #[schemars(range(min = 1))]
    column: usize,
    #[schemars(range(min = 1))]
    end_line: usize,
    /// The first column that is not meant.
    #[schemars(range(min = 1))]
    end_column: usize,
}

#[derive(Serialize, JsonSchema)]
struct Message {
    #[serde(flatten)]
    place: Place,
    message: String,
}

#[derive(Serialize, JsonSchema)]
#[schemars(rename = "Fix")]
struct FixJson {
    title: String,
    /// Whether `byrnie lint --fix` applies it: after it the text says what the writer plainly meant, and nothing else is
    /// changed.
    safe: bool,
    /// Places that do not overlap, and what to put there.
    #[schemars(length(min = 1))]
    edits: Vec<Edit>,
}

#[derive(Serialize, JsonSchema)]
struct Edit {
    #[serde(flatten)]
    place: Place,
    replacement: String,
}

impl LintJson {
    /// Adds what was found in one file and its bases.
    pub fn add(&mut self, sources: &Sources, findings: &[Diagnostic], notes: &[Note]) {
        self.findings.extend(findings.iter().map(|f| Finding::of(sources, f)));
        self.notes.extend(notes.iter().map(|n| Message::of(sources, n.span, &n.message)));
    }
}

impl Finding {
    fn of(sources: &Sources, finding: &Diagnostic) -> Self {
        Self {
            rule: finding.rule,
            severity: finding.severity,
            message: finding.message.clone(),
            place: Place::of(sources, finding.span),
            related: finding.related.iter().map(|(span, says)| Message::of(sources, *span, says)).collect(),
            help: finding.help.clone(),
            fix: finding.fix.as_ref().map(|fix| FixJson::of(sources, fix)),
        }
    }
}

impl Place {
    fn of(sources: &Sources, span: Span) -> Self {
        let (file, (line, column), (end_line, end_column)) = sources.place(span);
        Self { file: file.to_owned(), line, column, end_line, end_column }
    }
}

impl Message {
    fn of(sources: &Sources, span: Span, message: &str) -> Self {
        Self { place: Place::of(sources, span), message: message.to_owned() }
    }
}

impl FixJson {
    fn of(sources: &Sources, fix: &Fix) -> Self {
        let edit = |(span, with): &(Span, String)| Edit { place: Place::of(sources, *span), replacement: with.clone() };
        Self { title: fix.title.clone(), safe: fix.safe, edits: fix.edits.iter().map(edit).collect() }
    }
}
