use crate::lint::{Context, Found, Rule};
use crate::measure::length_mm;
use crate::notation::Size;
use crate::pattern::KindSize;
use crate::report::{Diagnostic, Severity};

/// A measured size is far from the one the rings are sold by.
pub struct MeasuredFarOff;

impl Rule for MeasuredFarOff {
    const NAME: &str = "measured-far-off";
    const PAGE: &str = include_str!("measured_far_off.md");
    const SEVERITY: Severity = Severity::Warning;
    const FOUND: Found = Found::InText(check);
}

/// How far wire, and the hole of a ring, may be from the size they are sold by, percent below and above it. Wire is drawn to
/// a few hundredths of a millimetre; a coil springs open, one of spring-temper stainless by 10 to 14 %, and closing a saw cut
/// takes a little. (Makers' measurements; common practice, no source.)
const WIRE: [f64; 2] = [10.0, 10.0];
const INNER: [f64; 2] = [10.0, 20.0];

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    for kind in &context.pattern.kinds {
        let size = KindSize::of(kind);
        let wire = (kind.measured_wire.as_ref(), size.nominal_wire_mm, kind.wire.as_ref().map(|w| &w.0));
        let inner = (kind.measured_inner.as_ref(), size.nominal_inner_mm, kind.inner.as_ref().map(|i| &i.0));
        for (what, (measured, nominal, sold), allowed) in [("wire", wire, WIRE), ("inner diameter", inner, INNER)] {
            let (Some(measured), Some(nominal)) = (measured, nominal) else { continue };
            findings.extend(far_off(&kind.name, what, measured, (nominal, sold), allowed));
        }
    }
}

fn far_off(
    kind: &str,
    what: &str,
    measured: &Size,
    (nominal, sold): (f64, Option<&Size>),
    [below, above]: [f64; 2],
) -> Option<Diagnostic> {
    let mm = length_mm(measured)?;
    let percent = 100.0 * (mm / nominal - 1.0);
    if percent >= -below - 1e-9 && percent <= above + 1e-9 {
        return None;
    }
    let (off, allowed) = if percent > 0.0 { ("larger", above) } else { ("smaller", below) };
    let far = percent.abs();
    let usual = match what {
        "wire" => "wire is accurate to a few hundredths of a millimetre",
        _ if percent > 0.0 => "coiled wire springs open by at most 14 %",
        _ => "closing a saw cut takes at most a tenth of a millimetre",
    };
    let found = MeasuredFarOff::at(
        measured.span,
        format!("the {what} of `{kind}` is measured as {mm:.2} mm and sold as {nominal:.2} mm, {far:.1} % apart"),
    )
    .label(format!("more than {allowed:.0} % {off}: a slip, or other rings"))
    .help(format!("measure some closed rings again ({usual}), or correct the size these rings are sold by"));
    Some(match sold {
        Some(sold) => found.related(sold.span, "the size they are sold by"),
        None => found,
    })
}
