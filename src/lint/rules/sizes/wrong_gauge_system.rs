//! A gauge number is right in the other gauge system.

use crate::lint::Context;
use crate::lint::sizes;
use crate::measure::{Twice, millimetres};
use crate::report::Diagnostic;

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let lines = sizes::gauges_lines(context);
    for (size, brackets, twice) in sizes::written_twice(context) {
        let Twice::OtherSystem { in_brackets, system, mm } = twice else { continue };
        let (gauge, beside) = if in_brackets { (brackets, size) } else { (size, brackets) };
        let Some(gauge_mm) = millimetres(gauge) else { continue };
        let number = &gauge.number.text;
        let (said, meant) = (gauge.unit.word().to_uppercase(), system.word().to_uppercase());
        let unit = sizes::unit_words(context, gauge.span);
        let capitals = context.words(unit).chars().all(char::is_uppercase);
        let word = if capitals { meant.clone() } else { system.word().to_owned() };
        let mut found = Diagnostic::error(
            "wrong-gauge-system",
            gauge.span,
            format!(
                "{number} {said} is {gauge_mm:.3} mm; {} wire is {number} {meant} ({mm:.3} mm)",
                context.words(beside.span)
            ),
        )
        .label(format!("{said} and {meant} number wires differently"))
        .fix(format!("write `{word}`"), unit, word);
        if let Some(line) = lines.iter().find(|l| gauge.bare && l.source == gauge.span.source) {
            found = found.related(*line, format!("bare gauges of this file are {said}"));
        }
        findings.push(found);
    }
}
