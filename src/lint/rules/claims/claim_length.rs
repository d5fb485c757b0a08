use crate::count::LengthCount;
use crate::lint::{Context, Found, Rule};
use crate::measure::{decimals, half_step, length_mm};
use crate::notation::{Claim, Size, Unit};
use crate::report::Diagnostic;

/// A claimed length or pitch is not the one that was measured, or computed.
pub struct ClaimLength;

impl Rule for ClaimLength {
    const NAME: &str = "claim-length";
    const PAGE: &str = include_str!("claim_length.md");
    const FOUND: Found = Found::InPose(check);
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    if !context.claims.iter().any(|c| matches!(c.value, Claim::Length(_) | Claim::Pitch(_))) {
        return;
    }
    let Some(length) = LengthCount::of(context.weave, context.weave.size()) else { return };
    let measured = length.measured.is_some();
    for claim in context.claims {
        let (size, real, what, made) = match &claim.value {
            Claim::Length(size) if context.weave.size_asked().is_some() => {
                (size, length.length_mm, "length", piece(context, &length))
            }
            Claim::Pitch(size) if measured => (size, length.pitch_mm, "pitch", "the measured sample has".to_owned()),
            Claim::Pitch(size) => {
                (size, length.pitch_mm, "pitch", "rigid rings of these sizes drawn tight have".to_owned())
            }
            _ => continue,
        };
        let Some(claimed) = length_mm(size).filter(|c| (real - c).abs() > rounding(size) + 1e-9) else { continue };
        let places = decimals(&size.number).unwrap_or(1).max(1) as usize;
        let words = context.words(size.span);
        let message = format!("the text says a {what} of {words}; {made} {real:.places$} mm");
        let off = format!("{:.places$} mm {}", (real - claimed).abs(), if real > claimed { "more" } else { "less" });
        // A sample is a fact; what is computed holds for rings exactly as written.
        findings.push(if measured {
            ClaimLength::at(claim.span, message)
                .label(format!("by the sample {off}"))
                .help("correct the claim, or measure the sample again")
        } else {
            ClaimLength::warning(claim.span, message)
                .label(format!("computed: {off}"))
                .help("correct the claim, or make a sample and write what you measured: `measured 10 repeats … mm`")
        });
    }
}

/// "12 repeats with their end rings and the clasp (5.769 mm a repeat, computed) make".
fn piece(context: &Context<'_>, length: &LengthCount) -> String {
    let repeats = context.weave.size().words(context.pattern.lattice);
    let with = match (length.ends_mm.is_some(), length.clasp_mm > 0.0) {
        (false, false) => "",
        (true, false) => " with their end rings",
        (false, true) => " with the clasp",
        (true, true) => " with their end rings and the clasp",
    };
    let by = if length.measured.is_some() { "measured" } else { "computed" };
    format!("{repeats}{with} ({:.3} mm a repeat, {by}) make", length.pitch_mm)
}

/// How far from the truth a length may be, mm: half of the last place written, or half of the part of an
/// inch that a fraction is written in.
fn rounding(size: &Size) -> f64 {
    let unit = if size.unit == Unit::Inch { 25.4 } else { 1.0 };
    let part = size.number.text.split_once('/').and_then(|(_, under)| under.parse::<f64>().ok());
    unit * part.map_or(half_step(&size.number), |under| 0.5 / under)
}
