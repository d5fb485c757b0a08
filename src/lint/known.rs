use crate::report::Diagnostic;
use crate::text::{Spanned, nearest};

/// The most names listed in one help.
const MOST_LISTED: usize = 12;

/// The names a text could have meant where it has one that is not known.
pub struct Known<'n> {
    names: Vec<&'n str>,
    quote: char,
}

impl<'n> Known<'n> {
    /// Names that are written as they are, and shown as `name`.
    pub fn words(names: impl IntoIterator<Item = &'n str>) -> Self {
        Self { names: names.into_iter().collect(), quote: '`' }
    }

    /// Names that are written and shown in quotation marks: "name".
    pub fn quoted(names: impl IntoIterator<Item = &'n str>) -> Self {
        Self { names: names.into_iter().collect(), quote: '"' }
    }

    /// Adds a way out to the finding on an unknown name: the known name nearest to it as a change of text, or else this
    /// help.
    pub fn suggest(&self, finding: Diagnostic, word: &Spanned<String>, help: impl FnOnce() -> String) -> Diagnostic {
        let Some(near) = nearest(&word.value, self.names.iter().copied()) else { return finding.help(help()) };
        let shown = self.shown(near);
        let with = if self.quote == '"' { shown.clone() } else { near.to_owned() };
        finding.fix(format!("write {shown}"), word.span, with)
    }

    /// Some of the names, one after another.
    pub fn list(&self) -> String {
        self.names.iter().take(MOST_LISTED).map(|name| self.shown(name)).collect::<Vec<_>>().join(", ")
    }

    fn shown(&self, name: &str) -> String {
        format!("{0}{name}{0}", self.quote)
    }
}
