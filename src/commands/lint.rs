//! `byrnie lint`

use super::{Outcome, files};
use crate::cli::Format;
use byrnie::report::Severity;
use byrnie::{lint, report};
use serde_json::{Value, json};
use std::path::PathBuf;

pub fn run(paths: &[PathBuf], format: Format) -> Outcome {
    let mut code = 0;
    let mut all: Vec<Value> = Vec::new();
    for path in paths {
        let weave = match files::weave(path) {
            Ok(weave) => weave,
            Err(stop) => {
                files::complain(&stop.message);
                code = code.max(stop.code);
                continue;
            }
        };
        let findings = super::patiently(format!("checking {}", weave.name()), || lint::check(&weave));
        if !findings.is_empty() {
            code = code.max(1);
        }
        match format {
            Format::Terminal => {
                let drawn = report::terminal(&weave.sources, &findings, files::width(), files::colour_on_stdout());
                files::print(&format!("{drawn}{}\n", verdict(&weave, &findings)))?;
            }
            Format::Plain => {
                files::print(&format!("{}{}\n", report::plain(&weave.sources, &findings), verdict(&weave, &findings)))?;
            }
            Format::Json => {
                let mut value = report::json(&weave.sources, &findings);
                all.extend(
                    value.get_mut("findings").and_then(Value::as_array_mut).map(std::mem::take).unwrap_or_default(),
                );
            }
        }
    }
    if format == Format::Json {
        files::print(&format!("{:#}\n", json!({ "findings": all })))?;
    }
    Ok(code)
}

/// What was found, in one line; claims that could not be checked are named.
pub fn verdict(weave: &byrnie::Weave, findings: &[report::Diagnostic]) -> String {
    let count = |severity, one: &str| match findings.iter().filter(|f| f.severity == severity).count() {
        0 => None,
        1 => Some(format!("1 {one}")),
        n => Some(format!("{n} {one}s")),
    };
    let found: Vec<String> =
        [count(Severity::Error, "error"), count(Severity::Warning, "warning")].into_iter().flatten().collect();
    let mut verdict = if found.is_empty() {
        format!("{}: nothing to mend", weave.name())
    } else {
        format!("{}: {}", weave.name(), found.join(", "))
    };
    if findings.len() >= lint::MOST_FINDINGS {
        verdict.push_str("; there may be more, mend these first");
    }
    for (claim, why) in lint::unchecked_claims(weave, findings) {
        verdict.push_str(&format!("\nnot checked: {} ({why})", weave.sources.words(claim)));
    }
    verdict
}
