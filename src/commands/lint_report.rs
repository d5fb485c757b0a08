//! What `byrnie lint` found, printed in the format asked for.

use super::mend::Mended;
use super::{Stop, files};
use crate::cli::Format;
use byrnie::report::{Diagnostic, LintJson, Note, Sarif, Severity};
use byrnie::text::{Sources, Span};
use byrnie::tutorial::Tutorial;
use byrnie::{Weave, lint, report};
use std::path::Path;

/// What is shown of the sentences of a tutorial that could not be read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unread {
    /// Every one.
    Listed,
    /// How many there are.
    Counted,
}

/// Where a report for people is printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Printed {
    /// Where nothing else is.
    ToStandardOutput,
    /// Beside a text that takes standard output.
    ToStandardError,
}

/// What was found in one file.
pub struct Found {
    /// Its texts.
    pub sources: Sources,
    /// What is wrong in them.
    pub findings: Vec<Diagnostic>,
    /// What was not checked or not read, for machines.
    pub notes: Vec<Note>,
    /// All of it in a line or a few, for people.
    pub verdict: String,
}

impl Found {
    /// What was found in a weave.
    pub fn of_weave(weave: &Weave, findings: Vec<Diagnostic>) -> Self {
        let (notes, verdict) = (notes(weave, &findings), verdict(weave, &findings));
        Self { sources: weave.sources().clone(), findings, notes, verdict }
    }

    /// What was found in a tutorial.
    pub fn of_tutorial(path: &Path, found: Tutorial, unread: Unread) -> Self {
        let Tutorial { sources, findings, checked, unchecked: mut notes, .. } = found;
        let claims: String = notes.iter().map(|n| format!("\n{}", n.message)).collect();
        let mut verdict = format!("{}: {}", path.display(), counted(&findings));
        let mut note = |span: Span, message: String| notes.push(Note { span, message });
        let whole = Span::new(0, 0, 0);
        match (checked.unread.len(), checked.sentences) {
            (_, 0) => {
                let nothing = "there are no numbered steps in it that could be checked";
                verdict.push_str(&format!("; {nothing}"));
                note(whole, nothing.to_owned());
            }
            (0, _) => {}
            (n, of) => {
                let many = format!("{n} of {of} sentences in its steps could not be read");
                let hint = if unread == Unread::Listed { "" } else { "; --unread lists them" };
                verdict.push_str(&format!("\n{many}{hint}"));
                note(whole, format!("{many}{hint}"));
            }
        }
        if unread == Unread::Listed {
            for span in &checked.unread {
                let (file, (line, column), _) = sources.place(*span);
                let words = sources.words(*span);
                verdict.push_str(&format!("\n{file}:{line}:{column}: not read: {words}"));
                note(*span, format!("not read: {words}"));
            }
        }
        verdict.push_str(&claims);
        Self { sources, findings, notes, verdict }
    }
}

/// The report of one call: printed file by file for people, at the end for machines.
pub struct Report {
    format: Format,
    printed: Printed,
    json: LintJson,
    sarif: Sarif,
}

impl Report {
    /// A report in this format.
    pub fn new(format: Format, printed: Printed) -> Self {
        Self { format, printed, json: LintJson::default(), sarif: Sarif::default() }
    }

    /// Shows what was found in one file.
    pub fn add(&mut self, found: &Found) -> Result<(), Stop> {
        let Found { sources, findings, notes, verdict } = found;
        match self.format {
            Format::Terminal => {
                let colour = match self.printed {
                    Printed::ToStandardOutput => files::colour_on_stdout(),
                    Printed::ToStandardError => files::colour_on_stderr(),
                };
                let drawn = report::terminal(sources, findings, files::width(), colour);
                self.print(&format!("{drawn}{verdict}\n"))?;
            }
            Format::Plain => self.print(&format!("{}{verdict}\n", report::plain(sources, findings)))?,
            Format::Json => self.json.add(sources, findings, notes),
            Format::Sarif => self.sarif.add(sources, findings, notes),
        }
        Ok(())
    }

    /// Shows what was mended in one file; apart from a report for machines.
    pub fn mended(&mut self, mended: &Mended) -> Result<(), Stop> {
        if mended.done.is_empty() {
            return Ok(());
        }
        let line = format!("{}: {} mended: {}\n", mended.source.name(), mended.done.len(), mended.done.join("; "));
        match self.format {
            Format::Terminal | Format::Plain => self.print(&line),
            Format::Json | Format::Sarif => {
                files::complain(&line);
                Ok(())
            }
        }
    }

    /// Notes that a file could not be read or written.
    pub fn failed(&mut self, path: &Path, why: &str) {
        self.sarif.failed(path, why);
    }

    /// Prints what is printed at the end.
    pub fn end(self) -> Result<(), Stop> {
        match self.format {
            Format::Terminal | Format::Plain => Ok(()),
            Format::Json => files::print(&files::json(&self.json)?),
            Format::Sarif => files::print(&files::json(&self.sarif.log(&lint::pages()))?),
        }
    }

    fn print(&self, text: &str) -> Result<(), Stop> {
        match self.printed {
            Printed::ToStandardOutput => files::print(text),
            Printed::ToStandardError => {
                files::complain(text);
                Ok(())
            }
        }
    }
}

/// How many errors and warnings, in words.
fn counted(findings: &[Diagnostic]) -> String {
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
pub fn verdict(weave: &Weave, findings: &[Diagnostic]) -> String {
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
fn notes(weave: &Weave, findings: &[Diagnostic]) -> Vec<Note> {
    let more = (findings.len() >= lint::MOST_FINDINGS)
        .then(|| Note { span: Span::new(0, 0, 0), message: "there may be more findings; mend these first".to_owned() });
    more.into_iter().chain(lint::unchecked_notes(weave, findings)).collect()
}
