use super::written_twice::{WrittenTwice, unit_words};
use crate::lint::{Context, Found, Rule};
use crate::measure::{Twice, millimetres};
use crate::notation::{Statement, What};
use crate::report::Diagnostic;

/// A gauge number is right in the other gauge system.
pub struct WrongGaugeSystem;

impl Rule for WrongGaugeSystem {
    const NAME: &str = "wrong-gauge-system";
    const PAGE: &str = include_str!("wrong_gauge_system.md");
    const FOUND: Found = Found::InText(check);
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    for WrittenTwice { size, brackets, twice } in WrittenTwice::all(context) {
        let Twice::OtherSystem { in_brackets, system, mm } = twice else { continue };
        let (gauge, beside) = if in_brackets { (brackets, size) } else { (size, brackets) };
        let Some(gauge_mm) = millimetres(gauge) else { continue };
        let number = &gauge.number.text;
        let (said, meant) = (gauge.unit.word().to_uppercase(), system.word().to_uppercase());
        let unit = unit_words(context, gauge.span);
        let capitals = context.words(unit).chars().all(char::is_uppercase);
        let word = if capitals { meant.clone() } else { system.word().to_owned() };
        let mut found = WrongGaugeSystem::at(
            gauge.span,
            format!(
                "{number} {said} is {gauge_mm:.3} mm; {} wire is {number} {meant} ({mm:.3} mm)",
                context.words(beside.span)
            ),
        )
        .label(format!("{said} and {meant} number wires differently"))
        .fix(format!("write `{word}`"), unit, word);
        let gauges = |s: &&&Statement| matches!(s.what, What::Gauges(_)) && s.span.source == gauge.span.source;
        if let Some(line) = context.statements.iter().find(gauges).filter(|_| gauge.bare) {
            found = found.related(line.span, format!("bare gauges in this file are {said}"));
        }
        findings.push(found);
    }
}
