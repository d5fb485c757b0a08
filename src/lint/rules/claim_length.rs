//! A claimed length or pitch is not the one that was measured.

use crate::lint::Context;
use crate::notation::{Claim, Size, Unit};
use crate::report::Diagnostic;
use crate::supply::{LengthCount, decimals, half_step, length_mm};

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let (weave, pattern) = (context.weave, context.pattern);
    let Some(measured) = LengthCount::of(pattern, weave.size()) else {
        return;
    };
    for claim in &pattern.claims {
        let (size, real, what, how) = match &claim.value {
            Claim::Length(size) if weave.size_asked().is_some() => {
                let repeats = weave.size().words(pattern.lattice);
                let clasp = if measured.clasp_mm > 0.0 { " and the clasp" } else { "" };
                (size, measured.length_mm, "length", format!("{repeats}{clasp} at the measured pitch of {:.3} mm make", measured.pitch_mm()))
            }
            Claim::Pitch(size) => (size, measured.pitch_mm(), "pitch", "the measured sample gives".to_owned()),
            _ => continue,
        };
        let Some(claimed) = length_mm(size).filter(|c| (real - c).abs() > rounding(size) + 1e-9) else { continue };
        let off = real - claimed;
        let places = decimals(&size.number).unwrap_or(1).max(1) as usize;
        findings.push(
            Diagnostic::error(
                "claim-length",
                claim.span,
                format!(
                    "a {what} of {} is claimed, but {how} {real:.places$} mm: {:.places$} mm {}",
                    context.words(size.span),
                    off.abs(),
                    if off > 0.0 { "more" } else { "less" }
                ),
            )
            .label(format!("by the sample: {real:.places$} mm"))
            .help("correct the claim, or measure the sample again"),
        );
    }
}

/// How far from the truth a length may be, mm: half of the last place written, or half of the part of an
/// inch a fraction counts in.
fn rounding(size: &Size) -> f64 {
    let unit = if size.unit == Unit::Inch { 25.4 } else { 1.0 };
    let part = size.number.text.split_once('/').and_then(|(_, under)| under.parse::<f64>().ok());
    unit * part.map_or(half_step(&size.number), |under| 0.5 / under)
}
