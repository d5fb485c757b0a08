use super::diagnostic::{Diagnostic, Note};
use crate::text::{Sources, Span};
use serde_json::{Map, Value, json};

/// JSON Schema of what `byrnie lint --format json` prints.
pub const LINT_SCHEMA: &str = include_str!("../../grammar/lint.schema.json");

/// Findings as one JSON object with `findings`, each with `rule`, `severity`, `message`, `file`,
/// `line`, `column`, `end_line`, `end_column` (from 1), `related`, `help` and, where there is one,
/// `fix` with its `title`, `safe` and `edits`; and `notes`, each with its place and `message`.
pub fn json(sources: &Sources, findings: &[Diagnostic], notes: &[Note]) -> Value {
    let findings: Vec<Value> = findings.iter().map(|f| finding(sources, f)).collect();
    let notes: Vec<_> = notes.iter().map(|n| with(sources, n.span, "message", &n.message)).collect();
    json!({ "findings": findings, "notes": notes })
}

fn finding(sources: &Sources, finding: &Diagnostic) -> Value {
    let mut whole = Map::new();
    whole.insert("rule".to_owned(), json!(finding.rule));
    whole.insert("severity".to_owned(), json!(finding.severity.word()));
    whole.insert("message".to_owned(), json!(finding.message));
    whole.append(&mut place(sources, finding.span));
    let related: Vec<_> = finding.related.iter().map(|(span, says)| with(sources, *span, "message", says)).collect();
    whole.insert("related".to_owned(), json!(related));
    whole.insert("help".to_owned(), json!(finding.help));
    if let Some(fix) = &finding.fix {
        let edits: Vec<_> = fix.edits.iter().map(|(span, text)| with(sources, *span, "replacement", text)).collect();
        whole.insert("fix".to_owned(), json!({ "title": fix.title, "safe": fix.safe, "edits": edits }));
    }
    Value::Object(whole)
}

/// A place and one thing more.
fn with(sources: &Sources, span: Span, key: &str, value: &str) -> Map<String, Value> {
    let mut place = place(sources, span);
    place.insert(key.to_owned(), json!(value));
    place
}

fn place(sources: &Sources, span: Span) -> Map<String, Value> {
    let (file, (line, column), (end_line, end_column)) = sources.place(span);
    let mut place = Map::new();
    place.insert("file".to_owned(), json!(file));
    for (key, value) in [("line", line), ("column", column), ("end_line", end_line), ("end_column", end_column)] {
        place.insert(key.to_owned(), json!(value));
    }
    place
}
