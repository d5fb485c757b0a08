use crate::lint::{Context, Found, Rule};
use crate::notation::{KindPart, MakePart, What};
use crate::report::Diagnostic;
use crate::text::{Span, Spanned};
use std::mem::discriminant;

/// Something that may be given only once is given again.
pub struct SaidTwice;

impl Rule for SaidTwice {
    const NAME: &str = "said-twice";
    const PAGE: &str = include_str!("said_twice.md");
    const FOUND: Found = Found::InText(check);
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    for file in context.weave.files() {
        let mut said: Vec<(&What, Span)> = Vec::new();
        let mut made: Vec<(&MakePart, Span)> = Vec::new();
        let mut bags: Vec<&Spanned<String>> = Vec::new();
        for statement in &file.tree.statements {
            match &statement.what {
                what @ (What::Weave(_)
                | What::Base(_)
                | What::Mirrored
                | What::Spiral(_)
                | What::Gauges(_)
                | What::Repeat(_)) => {
                    let first = said.iter().find(|(w, _)| discriminant(*w) == discriminant(what));
                    report(findings, statement.span, first.map(|(_, s)| *s), word(what));
                    if first.is_none() {
                        said.push((what, statement.span));
                    }
                }
                What::MakePart(parts) => parts_twice(findings, parts, &mut made),
                What::Bag { name, rings, parts } => {
                    let first = bags.iter().find(|b| b.value == name.value);
                    report(findings, name.span, first.map(|b| b.span), "this bag");
                    bags.push(name);
                    parts_twice(findings, parts, &mut Vec::new());
                    for again in rings.iter().skip(1) {
                        report(findings, again.span, rings.first().map(|r| r.span), "the set of rings");
                    }
                }
                What::Kind { parts, .. } => {
                    let mut firsts: Vec<&Spanned<KindPart>> = Vec::new();
                    for part in parts {
                        let first = firsts.iter().find(|p| discriminant(&p.value) == discriminant(&part.value));
                        report(findings, part.span, first.map(|p| p.span), kind_word(&part.value));
                        if first.is_none() {
                            firsts.push(part);
                        }
                    }
                }
                _ => {}
            }
        }
    }
}

fn parts_twice<'t>(
    findings: &mut Vec<Diagnostic>,
    parts: &'t [Spanned<MakePart>],
    made: &mut Vec<(&'t MakePart, Span)>,
) {
    for part in parts {
        let first = made.iter().find(|(p, _)| discriminant(*p) == discriminant(&part.value));
        report(findings, part.span, first.map(|(_, s)| *s), make_word(&part.value));
        if first.is_none() {
            made.push((&part.value, part.span));
        }
    }
}

fn report(findings: &mut Vec<Diagnostic>, span: Span, first: Option<Span>, what: &str) {
    if let Some(first) = first {
        findings.push(
            SaidTwice::at(span, format!("{what} is given twice"))
                .label("given again here")
                .related(first, "first given here")
                .help("keep one of the two"),
        );
    }
}

fn word(what: &What) -> &'static str {
    match what {
        What::Weave(_) => "the name of the weave",
        What::Base(_) => "the base",
        What::Mirrored => "`mirrored`",
        What::Spiral(_) => "`spiral`",
        What::Gauges(_) => "what a bare gauge means",
        _ => "what repeats",
    }
}

fn kind_word(part: &KindPart) -> &'static str {
    match part {
        KindPart::Wire(..) => "the wire",
        KindPart::Inner(..) => "the inner diameter",
        KindPart::MeasuredWire(_) => "the measured wire",
        KindPart::MeasuredInner(_) => "the measured inner diameter",
        KindPart::AspectRatio(..) => "the aspect ratio",
        KindPart::Colour(_) => "the colour",
        KindPart::Material(_) => "the material",
    }
}

fn make_word(part: &MakePart) -> &'static str {
    match part {
        MakePart::Length(_) => "the length",
        MakePart::Clasp(_) => "the clasp",
        MakePart::Repeats(_) => "the number of repeats",
        MakePart::Rows(_) => "the number of rows",
        MakePart::Columns(_) => "the number of columns",
        MakePart::Height(_) => "the height",
        MakePart::Width(_) => "the width",
        MakePart::Pieces(_) => "the number of pieces",
        MakePart::Spares(_) => "the spares",
        MakePart::Measured(..) => "the measured sample",
    }
}
