use super::written_twice::WrittenTwice;
use crate::lint::{Context, Found, Rule};
use crate::measure::{Twice, awg_mm, gauge_near, millimetres, swg_mm};
use crate::notation::Unit;
use crate::report::Diagnostic;

/// A wire gauge and the diameter beside it are different wires.
pub struct GaugeDisagrees;

impl Rule for GaugeDisagrees {
    const NAME: &str = "gauge-disagrees";
    const PAGE: &str = include_str!("gauge_disagrees.md");
    const FOUND: Found = Found::InText(check);
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    for written in WrittenTwice::all(context) {
        let (size, brackets) = (written.size, written.brackets);
        let (Twice::Gauge, Some(one), Some(other)) = (written.twice, millimetres(size), millimetres(brackets)) else {
            continue;
        };
        let (gauge, gauge_mm, beside, beside_mm) = match size.unit {
            Unit::Awg | Unit::Swg | Unit::Gauge => (size, one, brackets, other),
            Unit::Mm | Unit::Cm | Unit::Inch => (brackets, other, size, one),
        };
        let system = gauge.unit.word().to_uppercase();
        let table = if gauge.unit == Unit::Awg { awg_mm } else { swg_mm };
        let near = gauge_near(beside_mm, table).and_then(|n| Some((n, table(n)?)));
        let near = near.map(|(n, mm)| format!(" (the nearest gauge is {n} {system}, {mm:.3} mm)")).unwrap_or_default();
        let beside = context.words(beside.span);
        let message = format!("{} {system} is {gauge_mm:.3} mm; the text also says {beside}", gauge.number.text);
        findings.push(
            GaugeDisagrees::at(written.span(), message)
                .label(format!("two different wires, {:.2} mm apart", (gauge_mm - beside_mm).abs()))
                .help(format!("write the wire you measured, alone or with the matching gauge{near}")),
        );
    }
}
