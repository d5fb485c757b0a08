use crate::text::Span;
use schemars::JsonSchema;
use serde::Serialize;

/// How grave a finding is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Severity {
    /// Cannot be made as written, or says something proved false.
    Error,
    /// Can be made, but a maker would stumble.
    Warning,
}

impl Severity {
    /// The word shown to people and machines.
    pub fn word(self) -> &'static str {
        match self {
            Self::Error => "error",
            Self::Warning => "warning",
        }
    }
}

/// A change of text that mends a finding.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fix {
    /// What the change does, as an order: "write `through`".
    pub title: String,
    /// Spans to replace and what to put there; they do not overlap.
    pub edits: Vec<(Span, String)>,
    /// Whether it may be made with nobody looking: after it the text says what the writer plainly meant, and nothing
    /// else is changed. What the writer has to choose (which of two rings, which of two sizes, the words of a step or
    /// those of its weave) is not safe, however likely.
    pub safe: bool,
}

/// Something that was not checked or not read, and why; no fault.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Note {
    /// The words it is about.
    pub span: Span,
    /// What was not checked.
    pub message: String,
}

/// One fault, whatever stage found it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Diagnostic {
    /// The rule's name, as `byrnie explain` takes it.
    pub rule: &'static str,
    /// How grave it is.
    pub severity: Severity,
    /// What is wrong: what was found and what was needed, in a maker's words.
    pub message: String,
    /// The words that cause it.
    pub span: Span,
    /// A few words shown under them.
    pub label: String,
    /// Other words that play a part, with what they say.
    pub related: Vec<(Span, String)>,
    /// A way out.
    pub help: Option<String>,
    /// A way out that can be applied as it stands.
    pub fix: Option<Fix>,
}

impl Diagnostic {
    /// An error of `rule` at `span`.
    pub fn error(rule: &'static str, span: Span, message: impl Into<String>) -> Self {
        Self::new(rule, Severity::Error, span, message)
    }

    /// A warning of `rule` at `span`.
    pub fn warning(rule: &'static str, span: Span, message: impl Into<String>) -> Self {
        Self::new(rule, Severity::Warning, span, message)
    }

    /// A finding of `rule` at `span`, of this severity.
    pub fn new(rule: &'static str, severity: Severity, span: Span, message: impl Into<String>) -> Self {
        Self {
            rule,
            severity,
            message: message.into(),
            span,
            label: String::new(),
            related: Vec::new(),
            help: None,
            fix: None,
        }
    }

    /// Puts a few words under the place.
    #[must_use]
    pub fn label(mut self, label: impl Into<String>) -> Self {
        self.label = label.into();
        self
    }

    /// Points at another place as well.
    #[must_use]
    pub fn related(mut self, span: Span, says: impl Into<String>) -> Self {
        self.related.push((span, says.into()));
        self
    }

    /// The same where the sources have other numbers.
    #[must_use]
    pub fn renumbered(mut self, number: impl Fn(u16) -> u16) -> Self {
        let shift = |span: &mut Span| span.source = number(span.source);
        shift(&mut self.span);
        for (span, _) in &mut self.related {
            shift(span);
        }
        for (span, _) in self.fix.iter_mut().flat_map(|f| &mut f.edits) {
            shift(span);
        }
        self
    }

    /// Says a way out.
    #[must_use]
    pub fn help(mut self, help: impl Into<String>) -> Self {
        self.help = Some(help.into());
        self
    }

    /// Offers a change of text: `span` becomes `with`.
    #[must_use]
    pub fn fix(self, title: impl Into<String>, span: Span, with: impl Into<String>) -> Self {
        self.fix_all(title, vec![(span, with.into())])
    }

    /// Offers a change of text in several places.
    #[must_use]
    pub fn fix_all(mut self, title: impl Into<String>, edits: Vec<(Span, String)>) -> Self {
        self.fix = Some(Fix { title: title.into(), edits, safe: false });
        self
    }

    /// Says whether the change offered is [safe](Fix::safe).
    #[must_use]
    pub fn safe(mut self, safe: bool) -> Self {
        if let Some(fix) = &mut self.fix {
            fix.safe = safe;
        }
        self
    }
}

impl Note {
    /// The same where all sources have numbers so much higher.
    #[must_use]
    pub fn shifted(mut self, by: u16) -> Self {
        self.span.source = self.span.source.saturating_add(by);
        self
    }
}

impl Fix {
    /// `text` (the source numbered `source`) with the edits made in it.
    pub fn apply(&self, source: u16, text: &str) -> String {
        let mut edits: Vec<_> = self.edits.iter().filter(|(s, _)| s.source == source).collect();
        edits.sort_by_key(|(span, _)| std::cmp::Reverse(span.start));
        let mut out = text.to_owned();
        for (span, with) in edits {
            if out.get(span.range()).is_some() {
                out.replace_range(span.range(), with);
            }
        }
        out
    }
}
