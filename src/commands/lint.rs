//! `byrnie lint`

use super::lint_report::{Found, Printed, Report, Unread};
use super::tutorial::{is_tutorial, tutorial};
use super::{Outcome, Stop, busy, files, mend, shelf};
use crate::cli::{Format, LintArgs};
use byrnie::lint;
use byrnie::shelf::Shelf;
use byrnie::text::Source;
use std::path::Path;

pub fn run(args: &LintArgs) -> Outcome {
    let standard_input = args.fix && args.files.iter().any(|p| files::is_standard(p));
    if standard_input && matches!(args.format, Format::Json | Format::Sarif) {
        return Err(Stop::ReportInTheWay);
    }
    let shelf = args.shelf.as_deref().map(shelf::shelf).transpose()?;
    let printed = if standard_input { Printed::ToStandardError } else { Printed::ToStandardOutput };
    let mut report = Report::new(args.format, printed);
    let mut code = u8::from(shelf.as_ref().is_some_and(|s| !s.faults.is_empty()));
    let mut fail = |report: &mut Report, path: &Path, stop: &Stop| {
        let why = stop.to_string();
        files::complain(&why);
        report.failed(path, &why);
        code = code.max(stop.code());
    };
    // All are mended before any is checked: one may be the base of another.
    let mut to_check: Vec<(&Path, Option<Source>)> = Vec::new();
    for path in &args.files {
        if !args.fix {
            to_check.push((path, None));
            continue;
        }
        let mended = match busy("mending", path.display(), || mend::file(path)) {
            Ok(mended) => mended,
            Err(stop) => {
                fail(&mut report, path, &stop);
                continue;
            }
        };
        match mend::keep(path, &mended) {
            Ok(()) => report.mended(&mended)?,
            Err(stop) => fail(&mut report, path, &stop),
        }
        // What came from standard input cannot be read again.
        to_check.push((path, files::is_standard(path).then_some(mended.source)));
    }
    let unread = if args.unread { Unread::Listed } else { Unread::Counted };
    let mut any = false;
    for (path, source) in to_check {
        match found(path, source, unread, shelf.as_ref()) {
            Ok(found) => {
                any |= !found.findings.is_empty();
                report.add(&found)?;
            }
            Err(stop) => fail(&mut report, path, &stop),
        }
    }
    report.end()?;
    Ok(code.max(u8::from(any)))
}

/// What is found in a file, or in its text as it was read already.
fn found(path: &Path, source: Option<Source>, unread: Unread, shelf: Option<&Shelf>) -> Result<Found, Stop> {
    if is_tutorial(path) {
        let found = busy("checking", path.display(), || tutorial(path))?;
        return Ok(Found::of_tutorial(path, found, unread));
    }
    let source = source.map_or_else(|| files::source(path), Ok)?;
    let weave = files::compile(path, source);
    let findings = busy("checking", weave.name(), || {
        let on_shelf = shelf.map_or(Vec::new(), |shelf| lint::check_shelf(&weave, shelf));
        lint::check(&weave).into_iter().chain(on_shelf).collect::<Vec<_>>()
    });
    Ok(Found::of_weave(&weave, findings))
}
