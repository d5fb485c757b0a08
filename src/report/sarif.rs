use super::diagnostic::{Diagnostic, Fix, Note};
use crate::text::{Sources, Span};
use percent_encoding::{AsciiSet, NON_ALPHANUMERIC, utf8_percent_encode};
use serde_json::{Map, Value, json};
use std::path::{MAIN_SEPARATOR, Path};

/// The schema that a log names.
const SCHEMA: &str = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json";

/// What stands for itself in a segment of a path (RFC 3986, unreserved). A colon does not: `a:b` would have a scheme.
const SEGMENT: &AsciiSet = &NON_ALPHANUMERIC.remove(b'-').remove(b'.').remove(b'_').remove(b'~');

/// A SARIF 2.1.0 log of one run over any number of files.
///
/// Findings are results; what was not checked or not read is a notification of the run, level `note`; a file that
/// could not be read is one of level `error`, and the run is not successful then. Places are as in every other
/// report: lines and columns from 1, columns in characters (`unicodeCodePoints`), a byte-order mark none of them.
/// Names of files are URIs as they were given; a built-in weave is `byrnie:library/NAME`, standard input
/// `byrnie:standard-input`. A fix says in its properties whether it is `safe`.
#[derive(Clone, Debug, Default)]
pub struct Sarif {
    results: Vec<(&'static str, Map<String, Value>)>,
    notifications: Vec<Value>,
    failed: bool,
}

/// The page of a rule.
#[derive(Clone, Debug)]
pub struct Page {
    /// The name of the rule.
    pub name: &'static str,
    /// What it checks, in one sentence.
    pub summary: String,
    /// The page as Markdown.
    pub text: &'static str,
}

impl Sarif {
    /// Adds what was found in one file and its bases.
    pub fn add(&mut self, sources: &Sources, findings: &[Diagnostic], notes: &[Note]) {
        self.results.extend(findings.iter().map(|f| (f.rule, result(sources, f))));
        let said = |n: &Note| json!({ "level": "note", "message": text(&n.message), "locations": [location(sources, n.span, "")] });
        self.notifications.extend(notes.iter().map(said));
    }

    /// Adds that a file could not be read or written, and why.
    pub fn failed(&mut self, file: &Path, why: &str) {
        let name = if file == Path::new("-") { "standard input".to_owned() } else { file.display().to_string() };
        let place = json!({ "physicalLocation": { "artifactLocation": { "uri": uri(&name) } } });
        self.notifications.push(json!({ "level": "error", "message": text(why), "locations": [place] }));
        self.failed = true;
    }

    /// The whole log, with the pages of the rules that found something, out of `pages`.
    pub fn log(self, pages: &[Page]) -> Value {
        let rules: Vec<_> = pages.iter().filter(|r| self.results.iter().any(|(rule, _)| *rule == r.name)).collect();
        let results = self.results.into_iter().map(|(rule, rest)| {
            let mut whole = Map::new();
            whole.insert("ruleId".to_owned(), json!(rule));
            if let Some(index) = rules.iter().position(|r| r.name == rule) {
                whole.insert("ruleIndex".to_owned(), json!(index));
            }
            whole.extend(rest);
            Value::Object(whole)
        });
        let results: Vec<Value> = results.collect();
        let rules: Vec<Value> = rules
            .iter()
            .map(|rule| {
                let help = json!({ "text": rule.text, "markdown": rule.text });
                json!({ "id": rule.name, "shortDescription": text(&rule.summary), "help": help })
            })
            .collect();
        let version = env!("CARGO_PKG_VERSION");
        let driver = json!({ "name": "byrnie", "version": version, "semanticVersion": version, "rules": rules });
        let mut invocation = Map::new();
        invocation.insert("executionSuccessful".to_owned(), json!(!self.failed));
        if !self.notifications.is_empty() {
            invocation.insert("toolExecutionNotifications".to_owned(), json!(self.notifications));
        }
        let run = json!({
            "tool": { "driver": driver },
            "invocations": [invocation],
            "columnKind": "unicodeCodePoints",
            "results": results,
        });
        json!({ "$schema": SCHEMA, "version": "2.1.0", "runs": [run] })
    }
}

fn result(sources: &Sources, finding: &Diagnostic) -> Map<String, Value> {
    let message = match &finding.help {
        Some(help) => format!("{}\nhelp: {help}", finding.message),
        None => finding.message.clone(),
    };
    let mut whole = Map::new();
    whole.insert("level".to_owned(), json!(finding.severity.word()));
    whole.insert("message".to_owned(), text(&message));
    whole.insert("locations".to_owned(), json!([location(sources, finding.span, &finding.label)]));
    if !finding.related.is_empty() {
        let mut related: Vec<Value> = Vec::new();
        for place in finding.related.iter().map(|(span, says)| location(sources, *span, says)) {
            // In SARIF they are a set.
            if !related.contains(&place) {
                related.push(place);
            }
        }
        whole.insert("relatedLocations".to_owned(), json!(related));
    }
    if let Some(fix) = &finding.fix {
        whole.insert("fixes".to_owned(), json!([fixed(sources, fix)]));
    }
    whole
}

fn text(words: &str) -> Value {
    json!({ "text": words })
}

fn location(sources: &Sources, span: Span, says: &str) -> Value {
    let physical = json!({ "artifactLocation": artifact(sources, span), "region": region(sources, span) });
    if says.is_empty() {
        return json!({ "physicalLocation": physical });
    }
    json!({ "physicalLocation": physical, "message": text(says) })
}

fn artifact(sources: &Sources, span: Span) -> Value {
    json!({ "uri": uri(sources.place(span).0) })
}

fn region(sources: &Sources, span: Span) -> Value {
    let (_, (line, column), (end_line, end_column)) = sources.place(span);
    json!({ "startLine": line, "startColumn": column, "endLine": end_line, "endColumn": end_column })
}

/// A fix: for every file it reaches into, what is deleted and what is put there.
fn fixed(sources: &Sources, fix: &Fix) -> Value {
    let mut files: Vec<u16> = fix.edits.iter().map(|(span, _)| span.source).collect();
    files.sort_unstable();
    files.dedup();
    let replaced = |(span, with): &(Span, String)| {
        let region = region(sources, *span);
        if with.is_empty() {
            return json!({ "deletedRegion": region });
        }
        json!({ "deletedRegion": region, "insertedContent": text(with) })
    };
    let changes = files.into_iter().map(|file| {
        let edits = fix.edits.iter().filter(|(span, _)| span.source == file).map(replaced);
        json!({ "artifactLocation": artifact(sources, Span::new(file, 0, 0)), "replacements": edits.collect::<Vec<_>>() })
    });
    let changes: Vec<Value> = changes.collect();
    json!({ "description": text(&fix.title), "artifactChanges": changes, "properties": { "safe": fix.safe } })
}

/// The URI of a source: relative where its file was named so.
fn uri(name: &str) -> String {
    if name == "standard input" {
        return "byrnie:standard-input".to_owned();
    }
    let encoded = |words: &str| utf8_percent_encode(words, SEGMENT).to_string();
    if let Some(short) = name.strip_prefix("library: ") {
        return format!("byrnie:library/{}", encoded(short));
    }
    let absolute = Path::new(name).is_absolute();
    let mut segments: Vec<String> = name.split(['/', MAIN_SEPARATOR]).map(encoded).collect();
    // What is left out says nothing: `./`, doubled separators, the root.
    segments.retain(|s| !s.is_empty() && s != ".");
    let path = segments.join("/");
    // The colon of a drive stays one.
    let path = if absolute && cfg!(windows) { path.replacen("%3A", ":", 1) } else { path };
    if absolute { format!("file:///{path}") } else { path }
}
