//! A wire gauge and the diameter beside it are different wires.

use crate::lint::Context;
use crate::lint::sizes::written_twice;
use crate::measure::{Twice, awg_mm, gauge_near, millimetres, swg_mm};
use crate::notation::Unit;
use crate::report::Diagnostic;

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    for (size, brackets, twice) in written_twice(context) {
        let (Twice::Gauge, Some(one), Some(other)) = (twice, millimetres(size), millimetres(brackets)) else {
            continue;
        };
        let (gauge, gauge_mm, beside, beside_mm) = match size.unit {
            Unit::Awg | Unit::Swg | Unit::Gauge => (size, one, brackets, other),
            Unit::Mm | Unit::Inch => (brackets, other, size, one),
        };
        let table = if gauge.unit == Unit::Awg { awg_mm } else { swg_mm };
        let nearest = gauge_near(beside_mm, table)
            .and_then(|n| Some(format!("{n} {} is {:.3} mm; ", gauge.unit.word().to_uppercase(), table(n)?)))
            .unwrap_or_default();
        let beside_words = context.words(beside.span);
        findings.push(
            Diagnostic::error(
                "gauge-disagrees",
                size.span.to(brackets.span),
                format!(
                    "{} {} is {gauge_mm:.3} mm, and {beside_words} stands beside it: {:.2} mm apart",
                    gauge.number.text,
                    gauge.unit.word().to_uppercase(),
                    (gauge_mm - beside_mm).abs()
                ),
            )
            .label("two different wires")
            .help(format!("{nearest}write the one you measured, alone or with the right size beside it")),
        );
    }
}
