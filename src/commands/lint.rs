//! `byrnie lint`

use super::shown::{Found, Shown};
use super::tutorial::{is_tutorial, tutorial};
use super::{Outcome, Stop, files, mend};
use crate::cli::Format;
use byrnie::lint;
use byrnie::report::{Diagnostic, LINT_SCHEMA, Note, Severity};
use byrnie::shelf::Shelf;
use byrnie::text::{Source, Span};
use std::path::{Path, PathBuf};

/// How files are checked.
pub struct Options {
    /// How findings are shown.
    pub format: Format,
    /// Whether sentences that could not be read are listed.
    pub unread: bool,
    /// Whether what can be mended safely is.
    pub fix: bool,
    /// The rings there are.
    pub shelf: Option<PathBuf>,
}

pub fn run(paths: &[PathBuf], options: &Options) -> Outcome {
    let standard_input = options.fix && paths.iter().any(|p| p == Path::new("-"));
    if standard_input && matches!(options.format, Format::Json | Format::Sarif) {
        return Err(Stop::usage(
            "with --fix the text from standard input is mended to standard output, where the report would go as well; name a file, or leave out --format",
        ));
    }
    let shelf = options.shelf.as_deref().map(super::shelf::shelf).transpose()?;
    let mut shown = Shown::new(options.format, standard_input);
    let mut code = u8::from(shelf.as_ref().is_some_and(|s| !s.faults.is_empty()));
    let mut fail = |shown: &mut Shown, path: &Path, stop: &Stop| {
        files::complain(&stop.message);
        shown.failed(path, &stop.message);
        code = code.max(stop.code);
    };
    // All are mended before any is checked: one may be the base of another.
    let mut to_check: Vec<(&Path, Option<Source>)> = Vec::new();
    for path in paths {
        if !options.fix {
            to_check.push((path, None));
            continue;
        }
        let mended = match super::patiently(format!("mending {}", path.display()), || mend::file(path)) {
            Ok(mended) => mended,
            Err(stop) => {
                fail(&mut shown, path, &stop);
                continue;
            }
        };
        match mend::keep(path, &mended) {
            Ok(()) => shown.mended(&mended)?,
            Err(stop) => fail(&mut shown, path, &stop),
        }
        // What came from standard input cannot be read again.
        to_check.push((path, (path == Path::new("-")).then_some(mended.source)));
    }
    let mut any = false;
    for (path, source) in to_check {
        match found(path, source, options.unread, shelf.as_ref()) {
            Ok(found) => {
                any |= !found.findings.is_empty();
                shown.add(found)?;
            }
            Err(stop) => fail(&mut shown, path, &stop),
        }
    }
    shown.end()?;
    Ok(code.max(u8::from(any)))
}

pub fn schema() -> Outcome {
    files::print(LINT_SCHEMA)?;
    Ok(0)
}

/// What is found in a file, or in its text as it was read already.
fn found(path: &Path, source: Option<Source>, unread: bool, shelf: Option<&Shelf>) -> Result<Found, Stop> {
    if is_tutorial(path) {
        let found = super::patiently(format!("checking {}", path.display()), || tutorial(path))?;
        return Ok(Found::of_tutorial(path, found, unread));
    }
    let source = source.map_or_else(|| files::source(path), Ok)?;
    let weave = files::compile(path, source);
    let findings = super::patiently(format!("checking {}", weave.name()), || {
        let on_shelf = shelf.map_or(Vec::new(), |shelf| lint::check_shelf(&weave, shelf));
        lint::check(&weave).into_iter().chain(on_shelf).collect::<Vec<_>>()
    });
    let verdict = verdict(&weave, &findings);
    let notes = notes(&weave, &findings);
    Ok(Found { sources: weave.sources().clone(), findings, notes, verdict })
}

/// How many errors and warnings, in words.
pub fn counted(findings: &[Diagnostic]) -> String {
    let count = |severity, one: &str| match findings.iter().filter(|f| f.severity == severity).count() {
        0 => None,
        1 => Some(format!("1 {one}")),
        n => Some(format!("{n} {one}s")),
    };
    let found: Vec<String> =
        [count(Severity::Error, "error"), count(Severity::Warning, "warning")].into_iter().flatten().collect();
    if found.is_empty() { "nothing to mend".to_owned() } else { found.join(", ") }
}

/// What was found, in one line; claims that could not be checked are named.
pub fn verdict(weave: &byrnie::Weave, findings: &[Diagnostic]) -> String {
    let mut verdict = format!("{}: {}", weave.name(), counted(findings));
    if findings.len() >= lint::MOST_FINDINGS {
        verdict.push_str("; there may be more, mend these first");
    }
    for note in lint::unchecked_notes(weave, findings) {
        verdict.push_str(&format!("\n{}", note.message));
    }
    verdict
}

/// The same for machines, and whether there may be more findings.
fn notes(weave: &byrnie::Weave, findings: &[Diagnostic]) -> Vec<Note> {
    let more = (findings.len() >= lint::MOST_FINDINGS)
        .then(|| Note { span: Span::new(0, 0, 0), message: "there may be more findings; mend these first".to_owned() });
    more.into_iter().chain(lint::unchecked_notes(weave, findings)).collect()
}
