//! Checking a tutorial: a text in Markdown with a weave and numbered steps.

use super::{Stop, files};
use byrnie::lint::Needs;
use byrnie::text::Source;
use byrnie::tutorial::{Tutorial, WeaveIn, only, weave_in};
use byrnie::{Library, Weave};
use std::path::Path;

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
                return Err(Stop::WeaveElsewhere { name, beside });
            }
            files::weave(&file.with_file_name(beside))?
        }
        Some(WeaveIn::BuiltIn(short)) => {
            let text = Library::weaves().into_iter().find(|(name, _)| *name == short).map_or("", |(_, text)| text);
            Weave::compile(Source::new(format!("library: {short}"), text), &Library)
        }
        None => return Err(Stop::NoWeaveNamed { name }),
    };
    Ok(Tutorial::up_to(text, &weave, most))
}
