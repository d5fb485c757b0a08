use super::remedies::remedies;
use super::standing::{Closes, standing};
use crate::lint::{Context, Found, Rule};
use crate::report::{Diagnostic, Severity};
use crate::settle::LITTLE_ROOM;
use std::f64::consts::PI;

/// The weave closes, but rings that come out a little smaller will not.
pub struct CloseToFloor;

impl Rule for CloseToFloor {
    const NAME: &str = "close-to-floor";
    const PAGE: &str = include_str!("close_to_floor.md");
    const SEVERITY: Severity = Severity::Warning;
    const FOUND: Found = Found::InPose(check);
}

/// What a saw takes, mm (makers' measurements).
const KERF: [f64; 2] = [0.15, 0.25];

const MEASURE: &str = "measure a closed ring: only springback adds room (coiled wire opens by 4 % in sterling to 14 % in spring-temper stainless, hardly in copper); ";

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let Some((settled, Closes::Straight(room))) = Closes::of(context) else { return };
    let Some(first) = settled.floors.first().filter(|_| room < LITTLE_ROOM) else { return };
    let percent = 100.0 * room;
    let message = format!("too tight: the wire could be only {percent:.1} % thicker");
    let mut found = CloseToFloor::at(context.kind_span(&first.kind), message).label("real rings vary by more");
    for floor in &settled.floors {
        found = found.related(context.kind_span(&floor.kind), standing(settled, floor));
    }
    // A ring that was measured was measured closed.
    let measured = |kind: &str| context.pattern.kind(kind).is_some_and(|k| k.measured_inner.is_some());
    for kind in settled.floors.iter().map(|f| &f.kind).filter(|kind| !measured(kind)) {
        if let Some((wire, inner)) = context.size(kind).and_then(|s| s.wire_mm.zip(s.inner_mm)) {
            let [thin, thick] = KERF.map(|kerf| (inner - kerf / PI) / wire);
            let [small, large] = KERF;
            let words = format!("closing a saw cut of {small} to {large} mm leaves AR {thin:.3} to {thick:.3}");
            found = found.related(context.kind_span(kind), words);
        }
    }
    let measure = if settled.floors.iter().all(|f| measured(&f.kind)) { "" } else { MEASURE };
    findings.push(found.help(format!("{measure}{}", remedies(context, settled))));
}
