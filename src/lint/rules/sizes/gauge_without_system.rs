use super::written_twice::unit_words;
use crate::lint::{Context, Found, KindLine, Rule};
use crate::measure::{Twice, awg_mm, swg_mm, twice};
use crate::notation::{KindPart, Size, Unit};
use crate::report::Diagnostic;

/// A bare gauge in a file that does not say which system it means.
pub struct GaugeWithoutSystem;

impl Rule for GaugeWithoutSystem {
    const NAME: &str = "gauge-without-system";
    const PAGE: &str = include_str!("gauge_without_system.md");
    const FOUND: Found = Found::InText(check);
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    for part in KindLine::all(context).flat_map(|line| line.parts) {
        // A gauge for anything but wire has its own finding.
        let KindPart::Wire(size, also) = &part.value else { continue };
        findings.extend(bare(context, size, also.as_ref()));
        findings.extend(also.as_ref().and_then(|also| bare(context, also, Some(size))));
    }
}

/// The finding on a gauge without a system, with the size beside it; `None` for any other size.
fn bare(context: &Context<'_>, gauge: &Size, beside: Option<&Size>) -> Option<Diagnostic> {
    if gauge.unit != Unit::Gauge {
        return None;
    }
    let number = &gauge.number.text;
    let (awg, swg) = number.parse().ok().and_then(|n| awg_mm(n).zip(swg_mm(n)))?;
    let both = format!("{number} gauge is {awg:.2} mm in AWG and {swg:.2} mm in SWG");
    let found = |message: String| GaugeWithoutSystem::at(gauge.span, message).label("American or British?");
    let named = |system| Size::new(gauge.number.clone(), system, gauge.span);
    let beside = beside.filter(|b| crate::measure::millimetres(b).is_some());
    let agrees = |system| beside.is_some_and(|b| twice(&named(system), b) == Twice::Agree);
    let words = beside.map(|b| context.words(b.span)).unwrap_or_default();
    let fix = |system: Unit| {
        let unit = unit_words(context, gauge.span);
        let message = format!("{both}; the {words} beside it means {}", system.word().to_uppercase());
        found(message).label(format!("a line `gauges {}` sets it for the whole file", system.word())).fix(
            format!("write `{}`", system.word()),
            unit,
            system.word(),
        )
    };
    Some(match (agrees(Unit::Awg), agrees(Unit::Swg)) {
        (true, false) => fix(Unit::Awg),
        (false, true) => fix(Unit::Swg),
        (false, false) if beside.is_some() => found(format!("{both}; the {words} beside it is neither"))
            .help("measure the wire and write what you measured; a gauge needs its system (`awg`, `swg`)"),
        _ => found(format!("{both}; this file does not say which")).help(format!(
            "add a line `gauges awg` (American) or `gauges swg` (British) for all bare gauges of the file; or write `{number} awg` or `{number} swg`"
        )),
    })
}
