//! Checking a tutorial: a text in Markdown with a weave and numbered steps.

use super::{Stop, files};
use byrnie::lint::Needs;
use byrnie::report::{Diagnostic, Note};
use byrnie::steps::{Checked, WeaveIn, check, only, weave_in};
use byrnie::text::{Source, Sources};
use byrnie::{Library, Weave, lint};
use std::path::Path;

/// What was found in a tutorial.
pub struct Tutorial {
    /// The text, and the files of its weave.
    pub sources: Sources,
    /// What is wrong, in all of them.
    pub findings: Vec<Diagnostic>,
    /// What could be read of the steps.
    pub checked: Checked,
    /// Claims of its weave that are not checked.
    pub unchecked: Vec<Note>,
    /// Whether the ring graph of its weave cannot be relied on; its steps are not checked then.
    pub broken: bool,
}

/// Whether a file is a tutorial, by its name.
pub fn is_tutorial(file: &Path) -> bool {
    file.extension().is_some_and(|e| e.eq_ignore_ascii_case("md") || e.eq_ignore_ascii_case("markdown"))
}

/// Checks a tutorial, and the weave in it or beside it.
///
/// # Errors
/// Exit code 2, where a file cannot be read or the text does not say which weave it is about.
pub fn tutorial(file: &Path) -> Result<Tutorial, Stop> {
    tutorial_up_to(file, files::text(file)?, Needs::Pose)
}

/// The same of a text as if it stood in `file`, by those rules only that need no more than this.
///
/// # Errors
/// As [`tutorial`].
pub fn tutorial_up_to(file: &Path, text: Source, most: Needs) -> Result<Tutorial, Stop> {
    let name = text.name().to_owned();
    let weave = match weave_in(text.text()) {
        Some(WeaveIn::Fence(lines)) => files::compile(file, Source::new(name.clone(), only(text.text(), &lines))),
        Some(WeaveIn::File(beside)) => {
            if beside.contains(['/', '\\', '\0']) {
                return Err(Stop::usage(format!(
                    "{name}: {beside} is not in the same folder; put the weave beside the text"
                )));
            }
            files::weave(&file.with_file_name(beside))?
        }
        Some(WeaveIn::BuiltIn(short)) => {
            let text = Library::weaves().into_iter().find(|(name, _)| *name == short).map_or("", |(_, text)| text);
            Weave::compile(Source::new(format!("library: {short}"), text), &Library)
        }
        None => {
            return Err(Stop::usage(format!(
                "{name}: it does not say which weave it is about; put the weave in a fence marked `weave`, name a `.weave` file beside it, or take the name of a built-in weave as its heading"
            )));
        }
    };
    let own = lint::check_up_to(&weave, most);
    let broken = lint::graph_broken(&weave).is_some();
    let settled = || if most >= Needs::Pose { weave.settled().ok() } else { None };
    let checked =
        if broken || most < Needs::Graph { Checked::default() } else { check(&weave, settled(), text.text()) };
    // The text stands first; words of a weave in a fence have their places in it.
    let in_the_text = weave.sources.get(0).is_some_and(|s| s.name() == name);
    let mut sources = Sources::default();
    sources.add(text);
    let files = (u16::from(in_the_text)..).map_while(|n| weave.sources.get(n).cloned());
    for source in files {
        sources.add(source);
    }
    let shift = u16::from(!in_the_text);
    let claims = if most >= Needs::Pose { super::lint::unchecked(&weave, &own) } else { Vec::new() };
    let unchecked = claims.into_iter().map(|n| n.shifted(shift)).collect();
    let mut findings: Vec<Diagnostic> = own.into_iter().map(|f| f.shifted(shift)).collect();
    findings.extend(checked.findings.iter().cloned());
    findings.sort_by_key(|f| (f.span.source, f.span.start, f.span.end, f.rule));
    Ok(Tutorial { sources, findings, checked, unchecked, broken })
}
