//! What `byrnie lint` found, printed in the format asked for.

use super::lint::counted;
use super::mend::Mended;
use super::{Stop, files};
use crate::cli::Format;
use byrnie::report;
use byrnie::report::{Diagnostic, Note, Sarif};
use byrnie::text::{Sources, Span};
use byrnie::tutorial::Tutorial;
use serde_json::{Value, json};
use std::path::Path;

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
    /// What was found in a tutorial; with `unread` every sentence that could not be read is named.
    pub fn of_tutorial(path: &Path, found: Tutorial, unread: bool) -> Self {
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
                let hint = if unread { "" } else { "; --unread lists them" };
                verdict.push_str(&format!("\n{many}{hint}"));
                note(whole, format!("{many}{hint}"));
            }
        }
        if unread {
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

/// Reports of one call: printed at once for people, at the end for machines.
pub struct Shown {
    format: Format,
    /// Standard output is taken by a text.
    aside: bool,
    json: [Vec<Value>; 2],
    sarif: Sarif,
}

impl Shown {
    /// Reports in this format, to standard error where standard output is taken.
    pub fn new(format: Format, aside: bool) -> Self {
        Self { format, aside, json: [Vec::new(), Vec::new()], sarif: Sarif::default() }
    }

    /// Shows what was found in one file.
    pub fn add(&mut self, found: Found) -> Result<(), Stop> {
        let Found { sources, findings, notes, verdict } = found;
        match self.format {
            Format::Terminal => {
                let colour = if self.aside { files::colour_on_stderr() } else { files::colour_on_stdout() };
                let drawn = report::terminal(&sources, &findings, files::width(), colour);
                self.print(&format!("{drawn}{verdict}\n"))
            }
            Format::Plain => self.print(&format!("{}{verdict}\n", report::plain(&sources, &findings))),
            Format::Json => {
                let mut value = report::json(&sources, &findings, &notes);
                for (all, key) in self.json.iter_mut().zip(["findings", "notes"]) {
                    all.extend(
                        value.get_mut(key).and_then(Value::as_array_mut).map(std::mem::take).unwrap_or_default(),
                    );
                }
                Ok(())
            }
            Format::Sarif => {
                self.sarif.add(&sources, &findings, &notes);
                Ok(())
            }
        }
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
        let [findings, notes] = &self.json;
        match self.format {
            Format::Terminal | Format::Plain => Ok(()),
            Format::Json => files::print(&format!("{:#}\n", json!({ "findings": findings, "notes": notes }))),
            Format::Sarif => files::print(&format!("{:#}\n", self.sarif.log(&byrnie::lint::pages()))),
        }
    }

    fn print(&self, text: &str) -> Result<(), Stop> {
        if self.aside {
            files::complain(text);
            return Ok(());
        }
        files::print(text)
    }
}
