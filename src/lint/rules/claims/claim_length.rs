//! A claimed length or pitch is not the one that was measured, or computed.

use crate::count::LengthCount;
use crate::lint::Context;
use crate::measure::{decimals, half_step, length_mm};
use crate::notation::{Claim, Size, Unit};
use crate::report::Diagnostic;

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let (weave, pattern) = (context.weave, context.pattern);
    if !pattern.claims.iter().any(|c| matches!(c.value, Claim::Length(_) | Claim::Pitch(_))) {
        return;
    }
    let Some(length) = LengthCount::of(weave, weave.size()) else { return };
    let measured = length.measured.is_some();
    let by = if measured { "measured" } else { "computed" };
    for claim in &pattern.claims {
        let (size, real, what, how) = match &claim.value {
            Claim::Length(size) if weave.size_asked().is_some() => {
                let repeats = weave.size().words(pattern.lattice);
                let clasp = if length.clasp_mm > 0.0 { " and the clasp" } else { "" };
                let ends = if length.ends_mm.is_some() { " with their end rings" } else { "" };
                let how = format!("{repeats}{ends}{clasp} at the {by} pitch of {:.3} mm make", length.pitch_mm);
                (size, length.length_mm, "length", how)
            }
            Claim::Pitch(size) if measured => (size, length.pitch_mm, "pitch", "the measured sample gives".to_owned()),
            Claim::Pitch(size) => {
                (size, length.pitch_mm, "pitch", "rigid rings of these sizes drawn out give".to_owned())
            }
            _ => continue,
        };
        let Some(claimed) = length_mm(size).filter(|c| (real - c).abs() > rounding(size) + 1e-9) else { continue };
        let off = real - claimed;
        let places = decimals(&size.number).unwrap_or(1).max(1) as usize;
        let message = format!(
            "a {what} of {} is claimed, but {how} {real:.places$} mm: {:.places$} mm {}",
            context.words(size.span),
            off.abs(),
            if off > 0.0 { "more" } else { "less" }
        );
        // A sample is a fact; what is computed holds for rings exactly as written.
        findings.push(if measured {
            Diagnostic::error("claim-length", claim.span, message)
                .label(format!("by the sample: {real:.places$} mm"))
                .help("correct the claim, or measure the sample again")
        } else {
            Diagnostic::warning("claim-length", claim.span, message)
                .label(format!("computed: {real:.places$} mm"))
                .help("correct the claim, or make a sample and say what you measured: measured 10 repeats … mm")
        });
    }
}

/// How far from the truth a length may be, mm: half of the last place written, or half of the part of an
/// inch a fraction counts in.
fn rounding(size: &Size) -> f64 {
    let unit = if size.unit == Unit::Inch { 25.4 } else { 1.0 };
    let part = size.number.text.split_once('/').and_then(|(_, under)| under.parse::<f64>().ok());
    unit * part.map_or(half_step(&size.number), |under| 0.5 / under)
}
