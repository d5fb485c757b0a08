use super::diagnostic::{Diagnostic, Severity};
use crate::text::{Source, Sources, Span};
use miette::{GraphicalReportHandler, GraphicalTheme, LabeledSpan, NamedSource, SourceCode};
use std::fmt;

/// The most findings that are drawn; nobody scrolls through more.
const MOST_DRAWN: usize = 100;

/// Findings drawn for a terminal, `width` columns wide, with colour or without.
pub fn terminal(sources: &Sources, findings: &[Diagnostic], width: usize, colour: bool) -> String {
    let theme = if colour { GraphicalTheme::unicode() } else { GraphicalTheme::unicode_nocolor() };
    let handler = GraphicalReportHandler::new_themed(theme)
        .with_width(width)
        .with_links(false)
        .with_word_splitter(textwrap::WordSplitter::NoHyphenation);
    let mut out = String::new();
    for finding in findings.iter().take(MOST_DRAWN) {
        if handler.render_report(&mut out, &Shown::new(sources, finding)).is_err() {
            // Drawing failed; the plain line says the same.
            out.push_str(&super::plain::plain(sources, std::slice::from_ref(finding)));
        }
        out.push('\n');
    }
    if let Some(more) = findings.len().checked_sub(MOST_DRAWN).filter(|n| *n > 0) {
        out.push_str(&format!("and {more} more; `--format plain` shows them all\n"));
    }
    out
}

/// A finding as miette sees it: one source at a time, findings in other files as related ones.
#[derive(Debug)]
struct Shown {
    code: String,
    severity: miette::Severity,
    message: String,
    help: Option<String>,
    source: NamedSource<String>,
    labels: Vec<LabeledSpan>,
    elsewhere: Vec<Shown>,
}

impl Shown {
    fn new(sources: &Sources, finding: &Diagnostic) -> Self {
        let label = |span: Span, says: &str| {
            LabeledSpan::new(
                (!says.is_empty()).then(|| says.to_owned()),
                span.start as usize,
                span.range().len().max(1),
            )
        };
        let mut labels = vec![label(finding.span, &finding.label)];
        let mut elsewhere = Vec::new();
        for (span, says) in &finding.related {
            if span.source == finding.span.source {
                labels.push(label(*span, says));
            } else {
                elsewhere.push(Self {
                    code: String::new(),
                    severity: miette::Severity::Advice,
                    message: says.clone(),
                    help: None,
                    source: source(sources, span.source),
                    labels: vec![label(*span, "")],
                    elsewhere: Vec::new(),
                });
            }
        }
        let fix = finding.fix.as_ref().map(|f| f.title.clone());
        let help = match (&finding.help, fix) {
            (Some(help), Some(fix)) => Some(format!("{help}\n{fix}")),
            (Some(help), None) => Some(help.clone()),
            (None, fix) => fix,
        };
        Self {
            code: finding.rule.to_owned(),
            severity: match finding.severity {
                Severity::Error => miette::Severity::Error,
                Severity::Warning => miette::Severity::Warning,
            },
            message: finding.message.clone(),
            help,
            source: source(sources, finding.span.source),
            labels,
            elsewhere,
        }
    }
}

fn source(sources: &Sources, number: u16) -> NamedSource<String> {
    let (name, text) = sources.get(number).map_or(("?", ""), |s: &Source| (s.name(), s.text()));
    NamedSource::new(name, text.to_owned())
}

impl fmt::Display for Shown {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.message)
    }
}

impl std::error::Error for Shown {}

impl miette::Diagnostic for Shown {
    fn code<'a>(&'a self) -> Option<Box<dyn fmt::Display + 'a>> {
        (!self.code.is_empty()).then(|| Box::new(&self.code) as Box<dyn fmt::Display>)
    }

    fn severity(&self) -> Option<miette::Severity> {
        Some(self.severity)
    }

    fn help<'a>(&'a self) -> Option<Box<dyn fmt::Display + 'a>> {
        self.help.as_ref().map(|h| Box::new(h) as Box<dyn fmt::Display>)
    }

    fn source_code(&self) -> Option<&dyn SourceCode> {
        Some(&self.source)
    }

    fn labels(&self) -> Option<Box<dyn Iterator<Item = LabeledSpan> + '_>> {
        Some(Box::new(self.labels.iter().cloned()))
    }

    fn related<'a>(&'a self) -> Option<Box<dyn Iterator<Item = &'a dyn miette::Diagnostic> + 'a>> {
        let shown = self.elsewhere.iter().map(|d| d as &dyn miette::Diagnostic);
        (!self.elsewhere.is_empty()).then(|| Box::new(shown) as Box<dyn Iterator<Item = _>>)
    }
}
