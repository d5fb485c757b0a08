//! `byrnie lint`

use super::tutorial::{is_tutorial, tutorial};
use super::{Outcome, files};
use crate::cli::Format;
use byrnie::report::Severity;
use byrnie::tutorial::Tutorial;
use byrnie::{lint, report};
use serde_json::{Value, json};
use std::path::{Path, PathBuf};

pub fn run(paths: &[PathBuf], format: Format, unread: bool) -> Outcome {
    let mut code = 0;
    let mut all: Vec<Value> = Vec::new();
    for path in paths {
        if is_tutorial(path) {
            let found = super::patiently(format!("checking {}", path.display()), || tutorial(path));
            match found {
                Ok(found) => {
                    code = code.max(u8::from(!found.findings.is_empty()));
                    all.extend(shown(path, &found, format, unread)?);
                }
                Err(stop) => {
                    files::complain(&stop.message);
                    code = code.max(stop.code);
                }
            }
            continue;
        }
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

/// Shows what was found in a tutorial; gives it back for JSON.
fn shown(path: &Path, found: &Tutorial, format: Format, unread: bool) -> Result<Vec<Value>, super::Stop> {
    let Tutorial { sources, findings, checked } = found;
    let mut verdict =
        format!("{}: {}", path.display(), counted(findings).unwrap_or_else(|| "nothing to mend".to_owned()));
    match (checked.unread.len(), checked.sentences) {
        (_, 0) => verdict.push_str("; there are no numbered steps in it that could be checked"),
        (0, _) => {}
        (n, of) => {
            let hint = if unread { "" } else { "; --unread lists them" };
            verdict.push_str(&format!("\n{n} of {of} sentences in its steps could not be read{hint}"));
        }
    }
    if unread {
        for span in &checked.unread {
            let (file, (line, column), _) = sources.place(*span);
            verdict.push_str(&format!("\n{file}:{line}:{column}: not read: {}", sources.words(*span)));
        }
    }
    match format {
        Format::Terminal => {
            let drawn = report::terminal(sources, findings, files::width(), files::colour_on_stdout());
            files::print(&format!("{drawn}{verdict}\n"))?;
        }
        Format::Plain => files::print(&format!("{}{verdict}\n", report::plain(sources, findings)))?,
        Format::Json => {
            let mut value = report::json(sources, findings);
            let taken = value.get_mut("findings").and_then(Value::as_array_mut).map(std::mem::take);
            return Ok(taken.unwrap_or_default());
        }
    }
    Ok(Vec::new())
}

/// How many errors and warnings, if any.
fn counted(findings: &[report::Diagnostic]) -> Option<String> {
    let count = |severity, one: &str| match findings.iter().filter(|f| f.severity == severity).count() {
        0 => None,
        1 => Some(format!("1 {one}")),
        n => Some(format!("{n} {one}s")),
    };
    let found: Vec<String> =
        [count(Severity::Error, "error"), count(Severity::Warning, "warning")].into_iter().flatten().collect();
    (!found.is_empty()).then(|| found.join(", "))
}

/// What was found, in one line; claims that could not be checked are named.
pub fn verdict(weave: &byrnie::Weave, findings: &[report::Diagnostic]) -> String {
    let found = counted(findings).unwrap_or_else(|| "nothing to mend".to_owned());
    let mut verdict = format!("{}: {found}", weave.name());
    if findings.len() >= lint::MOST_FINDINGS {
        verdict.push_str("; there may be more, mend these first");
    }
    for (claim, why) in lint::unchecked_claims(weave, findings) {
        verdict.push_str(&format!("\nnot checked: {} ({why})", weave.sources.words(claim)));
    }
    verdict
}
