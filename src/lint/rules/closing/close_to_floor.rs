//! The weave closes, but rings that come out a little smaller will not.

use crate::lint::Context;
use crate::lint::closing::{Closes, LITTLE_ROOM, Standing, closes, kind_span, standings, ways_out};
use crate::report::Diagnostic;
use std::f64::consts::PI;

/// What a saw takes, mm (makers' measurements).
const KERF: [f64; 2] = [0.15, 0.25];

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let Some((settled, Closes::Straight(room))) = closes(context) else { return };
    let Some(first) = settled.floors.first().filter(|_| room < LITTLE_ROOM) else { return };
    let mut found = Diagnostic::warning(
        "close-to-floor",
        kind_span(context, &first.kind),
        format!("closes with {:.1} % of room for the wire only: {}", 100.0 * room, standings(settled)),
    )
    .label("rings are never quite as written");
    for floor in settled.floors.iter().skip(1) {
        found = found.related(kind_span(context, &floor.kind), format!("{:.1} % of room here as well", 100.0 * room));
    }
    // A ring that was measured was measured closed.
    let measured = |kind: &str| context.pattern.kind(kind).is_some_and(|k| k.measured_inner.is_some());
    for standing in Standing::all(settled).iter().filter(|s| !measured(s.kind)) {
        let size = context.sizes.iter().find(|s| s.name == standing.kind);
        if let Some((wire, inner)) = size.and_then(|s| s.wire_mm.zip(s.inner_mm)) {
            let [thin, thick] = KERF.map(|kerf| (inner - kerf / PI) / wire);
            let [small, large] = KERF;
            found = found.related(
                kind_span(context, standing.kind),
                format!("a saw cut of {small} to {large} mm, closed, leaves AR {thin:.3} to {thick:.3}"),
            );
        }
    }
    let measure = "measure a closed ring: coiled wire springs open, 4 % in sterling to 14 % in spring-temper stainless, copper hardly, and only that adds room; ";
    let all = settled.floors.iter().all(|f| measured(&f.kind));
    findings.push(found.help(format!("{}{}", if all { "" } else { measure }, ways_out(context, settled))));
}
