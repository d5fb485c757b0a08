//! What a text says in plain words, compared with its weave: the same rules look at it as at a weave file.

use super::claims::{Read, RingNumbers, claims};
use super::compare::Comparison;
use super::mention::mentions;
use super::passage::{Sort, passages};
use super::several::true_of_none;
use super::sizes::{Line, sizes};
use super::weave_in::{WeaveIn, weave_in};
use crate::lint;
use crate::lint::{AspectRatioDisagrees, AspectRatioUnit, ClaimAspectRatio, Needs, Rule};
use crate::notation::{Claim, Statement, What};
use crate::pattern::{Make, Repeats};
use crate::report::Diagnostic;
use crate::steps::Reading;
use crate::text::{Source, Span, Spanned};
use crate::weave::Weave;
use std::ops::Range;

/// What is wrong in the words of a text about a weave. `made`: the size of the piece its steps make, where it has steps.
/// Below [`Needs::Pose`] sizes are looked at alone, as they are written: nothing is settled. Spans in the text have the number
/// given back; all others are those of the weave's own sources.
pub fn prose(
    weave: &Weave,
    text: &Source,
    reading: &Reading,
    made: Option<Repeats>,
    most: Needs,
) -> (u16, Vec<Diagnostic>) {
    // A built-in weave without sizes is no piece: how much is made of it is the text's affair.
    let own = matches!(weave_in(text.text()), Some(WeaveIn::Fence(_) | WeaveIn::File(_)));
    let mut asked = weave.pattern().make.clone();
    if !own && weave.pattern().kinds.is_empty() {
        asked = Make::default();
    }
    asked.take_size(weave.pattern().lattice, made);
    let weave = weave.with_make(asked);
    // The text comes after the weave's own files, as one more.
    let mut sources = weave.sources().clone();
    let number = sources.add(text.clone());
    let mut comparison = Comparison::new(&weave);
    let Said { lines, statements, claims: mut told, mut findings } =
        said(&weave, text, reading, (number, most), &mut comparison);
    findings.truncate(lint::MOST_FINDINGS);
    let own = comparison.done();
    told.extend(own.claims);
    findings.extend(lint::of_sizes(&weave, &sources, &statements));
    if !told.is_empty() {
        let way_out = || Some("correct the words, or the weave they are about".to_owned());
        let found = true_of_none(&weave, &sources, &told).into_iter();
        findings.extend(found.map(|finding| Diagnostic { help: way_out(), ..finding }));
    }
    (number, without_consequences(findings, own.findings, &lines))
}

/// What the passages of a text say.
#[derive(Default)]
struct Said {
    /// The places of sizes that belong together.
    lines: Vec<Span>,
    /// The sizes, as lines of `rings` would have them.
    statements: Vec<Statement>,
    claims: Vec<Spanned<Claim>>,
    /// What is wrong with how sizes are written.
    findings: Vec<Diagnostic>,
}

/// Takes a text apart, passage by passage. Its spans have this source number.
fn said(
    weave: &Weave,
    text: &Source,
    reading: &Reading,
    (number, most): (u16, Needs),
    comparison: &mut Comparison<'_>,
) -> Said {
    let mut all = Said::default();
    let sentences = reading.items.iter().flat_map(|i| &i.sentences).filter(|s| s.says.is_some());
    let steps: Vec<Range<usize>> = sentences.map(|s| s.span.clone()).collect();
    let needs: Vec<Range<usize>> = reading.needs.iter().map(|n| n.span.clone()).collect();
    for passage in &passages(text.text()) {
        let mentioned = mentions(&passage.words);
        let at = |words: Range<usize>| {
            let place = passage.place(words);
            Span::new(number, place.start, place.end)
        };
        let read = Read { passage, mentions: &mentioned, at: &at };
        let whole = passage.place(0..passage.words.len());
        if passage.sort != Sort::Heading {
            let (lines, wrong) = sizes(passage, &mentioned, &at);
            all.findings.extend(wrong);
            all.sizes(&lines);
            if most >= Needs::Pose {
                comparison.sizes(&read, &lines);
            }
        }
        // What the steps say was checked with them.
        if most < Needs::Pose || among(&steps, &whole) {
            continue;
        }
        if all.claims.len() < lint::MOST_FINDINGS {
            // That it is another weave is one finding.
            let named = all.claims.iter().any(|c| matches!(c.value, Claim::Weave(_)));
            let listed = among(&needs, &whole);
            let numbers = if listed { RingNumbers::WithSteps } else { RingNumbers::AsClaims };
            let own = claims(&read, weave, numbers);
            all.claims.extend(own.into_iter().filter(|c| !(named && matches!(c.value, Claim::Weave(_)))));
        }
        comparison.words(&read);
    }
    all
}

impl Said {
    /// Sizes, as lines of `rings`.
    fn sizes(&mut self, lines: &[Line]) {
        for line in lines {
            let Some(span) = line.span() else { continue };
            self.lines.push(span);
            let name = Spanned::new("rings".to_owned(), span);
            let what = What::Kind { name, parts: line.parts() };
            self.statements.push(Statement { what, span, above: Vec::new(), behind: None });
        }
    }
}

/// Findings in order, without those that follow from others: of a size that is wrong in itself one finding is enough, and a
/// ratio of sizes of which one is wrong follows from that.
fn without_consequences(mut findings: Vec<Diagnostic>, compared: Vec<Diagnostic>, lines: &[Span]) -> Vec<Diagnostic> {
    let within = |f: &Diagnostic, span: Span| f.span.start < span.end && span.start < f.span.end;
    let others: Vec<Diagnostic> =
        compared.into_iter().filter(|own| !findings.iter().any(|f| within(f, own.span))).collect();
    findings.extend(others);
    let follows = |f: &Diagnostic| [AspectRatioDisagrees::NAME, ClaimAspectRatio::NAME].contains(&f.rule);
    let wrong: Vec<Span> =
        findings.iter().filter(|f| !follows(f) && f.rule != AspectRatioUnit::NAME).map(|f| f.span).collect();
    let line = |f: &Diagnostic| lines.iter().find(|line| within(f, **line)).copied();
    findings.retain(|f| {
        !follows(f) || !line(f).is_some_and(|line| wrong.iter().any(|w| w.start < line.end && line.start < w.end))
    });
    findings.sort_by_key(|f| (f.span.start, f.span.end, f.rule));
    findings.dedup();
    findings
}

/// Whether some of these stretches, in the order of the text, reaches into a passage.
fn among(stretches: &[Range<usize>], passage: &Range<usize>) -> bool {
    let next = stretches.partition_point(|s| s.end <= passage.start);
    stretches.get(next).is_some_and(|s| s.start < passage.end)
}
