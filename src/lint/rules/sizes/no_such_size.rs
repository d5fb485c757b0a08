use crate::lint::{Context, Found, Rule};
use crate::measure::{awg_mm, millimetres};
use crate::notation::{Claim, KindPart, MakePart, Size, Unit, What};
use crate::report::Diagnostic;
use crate::text::Span;

/// A size that nothing can have, or a gauge where a length is meant.
pub struct NoSuchSize;

impl Rule for NoSuchSize {
    const NAME: &str = "no-such-size";
    const PAGE: &str = include_str!("no_such_size.md");
    const FOUND: Found = Found::InText(check);
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    for statement in &context.statements {
        match &statement.what {
            What::Kind { parts, .. } => {
                for part in parts {
                    match &part.value {
                        KindPart::Wire(size, also) => {
                            findings.extend([Some(size), also.as_ref()].into_iter().flatten().filter_map(no_size));
                        }
                        KindPart::Inner(size, also) => {
                            let sizes = [Some(size), also.as_ref()].into_iter().flatten();
                            findings.extend(sizes.filter_map(|s| no_length(s, "an inner diameter")));
                        }
                        KindPart::MeasuredWire(size) | KindPart::MeasuredInner(size) => {
                            findings.extend(no_measure(size));
                        }
                        KindPart::AspectRatio(number, _) => findings.extend(no_ratio(number.value, part.span)),
                        KindPart::Colour(_) | KindPart::Material(_) => {}
                    }
                }
            }
            What::MakePart(parts) | What::Bag { parts, .. } => {
                findings.extend(parts.iter().filter_map(|part| match &part.value {
                    MakePart::Length(size)
                    | MakePart::Height(size)
                    | MakePart::Width(size)
                    | MakePart::Measured(_, size) => no_length(size, "a length"),
                    // `clasp 0 mm` says that there is none.
                    MakePart::Clasp(size) if size.unit == Unit::Mm && size.number.value == 0.0 => None,
                    MakePart::Clasp(size) => no_length(size, "the length of a clasp"),
                    _ => None,
                }));
            }
            What::Claim(Claim::Length(size), _) => findings.extend(no_length(size, "a length")),
            What::Claim(Claim::Pitch(size), _) => findings.extend(no_length(size, "a pitch")),
            What::Claim(Claim::AspectRatio { number, .. }, _) => {
                findings.extend(no_ratio(number.value, statement.span));
            }
            _ => {}
        }
    }
}

fn no_length(size: &Size, what: &str) -> Option<Diagnostic> {
    if matches!(size.unit, Unit::Mm | Unit::Cm | Unit::Inch) {
        return no_size(size);
    }
    let message = format!("`{}` is a wire gauge; {what} is in `mm` or `in`", size.as_written());
    Some(
        NoSuchSize::at(size.span, message)
            .label("a gauge measures only wire")
            .help("write a length, such as 9.5 mm or 3/8 in"),
    )
}

fn no_measure(size: &Size) -> Option<Diagnostic> {
    if matches!(size.unit, Unit::Mm | Unit::Cm | Unit::Inch) {
        return no_size(size);
    }
    let message = format!("`{}` is a wire gauge; a measured size is in `mm` or `in`", size.as_written());
    Some(
        NoSuchSize::at(size.span, message).label("callipers read mm or inches").help(
            "write what the callipers read: measured wire 1.58 mm; a gauge is the size wire is sold by: wire 18 swg",
        ),
    )
}

fn no_size(size: &Size) -> Option<Diagnostic> {
    if millimetres(size).is_some() {
        return None;
    }
    let found = |message: String| NoSuchSize::at(size.span, message).label("no such size");
    Some(match size.unit {
        // Which wire it is nobody knows: that has its own finding.
        Unit::Gauge if size.number.text.parse().ok().and_then(awg_mm).is_some() => return None,
        Unit::Awg | Unit::Swg | Unit::Gauge => {
            found(format!("there is no `{}`: gauges are whole numbers from 0 to 40", size.as_written()))
                .help("write the diameter instead, such as 1.2 mm")
        }
        Unit::Mm | Unit::Cm | Unit::Inch if !size.number.value.is_finite() => {
            found(format!("`{}` is not a size: the lower number of a fraction cannot be 0", size.as_written()))
        }
        Unit::Mm | Unit::Cm | Unit::Inch => {
            found(format!("`{}` is not a size: a size must be greater than 0", size.as_written()))
        }
    })
}

fn no_ratio(ratio: f64, span: Span) -> Option<Diagnostic> {
    (ratio <= 0.0).then(|| {
        NoSuchSize::at(span, "AR must be greater than 0")
            .label("no ring has this AR")
            .help("AR is the inner diameter divided by the wire; most weaves use about 3 to 8")
    })
}
