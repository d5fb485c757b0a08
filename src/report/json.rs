use super::Diagnostic;
use crate::text::Sources;
use serde_json::{Value, json};

/// Findings as one JSON object with `findings`, each with `rule`, `severity`, `message`, `file`,
/// `line`, `column`, `end_line`, `end_column` (from 1), `related`, `help` and, where there is one,
/// `fix` with its `title` and `edits`.
pub fn json(sources: &Sources, findings: &[Diagnostic]) -> Value {
    let findings: Vec<Value> = findings.iter().map(|f| finding(sources, f)).collect();
    json!({ "findings": findings })
}

fn finding(sources: &Sources, finding: &Diagnostic) -> Value {
    let mut value = place(sources, finding.span);
    let related: Vec<Value> = finding
        .related
        .iter()
        .map(|(span, says)| {
            let mut value = place(sources, *span);
            value["message"] = json!(says);
            value
        })
        .collect();
    let mut whole = json!({
        "rule": finding.rule,
        "severity": finding.severity.word(),
        "message": finding.message,
    });
    if let (Some(whole), Some(place)) = (whole.as_object_mut(), value.as_object_mut()) {
        whole.append(place);
    }
    whole["related"] = json!(related);
    whole["help"] = json!(finding.help);
    if let Some(fix) = &finding.fix {
        let edits: Vec<Value> = fix
            .edits
            .iter()
            .map(|(span, with)| {
                let mut value = place(sources, *span);
                value["replacement"] = json!(with);
                value
            })
            .collect();
        whole["fix"] = json!({ "title": fix.title, "edits": edits });
    }
    whole
}

fn place(sources: &Sources, span: crate::text::Span) -> Value {
    let (file, (line, column), (end_line, end_column)) = sources.place(span);
    json!({ "file": file, "line": line, "column": column, "end_line": end_line, "end_column": end_column })
}
