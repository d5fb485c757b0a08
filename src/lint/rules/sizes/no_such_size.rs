//! A size that nothing can have, or a gauge where a length is meant.

use crate::lint::Context;
use crate::measure::{awg_mm, millimetres};
use crate::notation::{Claim, KindPart, MakePart, Size, Unit, What};
use crate::report::Diagnostic;
use crate::text::Span;

const NAME: &str = "no-such-size";

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    for statement in context.statements() {
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
    if matches!(size.unit, Unit::Mm | Unit::Inch) {
        return no_size(size);
    }
    let message = format!("`{}` is a wire gauge, and {what} is meant", size.as_written());
    Some(
        Diagnostic::error(NAME, size.span, message)
            .label("a gauge measures wire only")
            .help(format!("{what} is written in `mm` or `in`: 9.5 mm, 3/8 in")),
    )
}

fn no_measure(size: &Size) -> Option<Diagnostic> {
    if matches!(size.unit, Unit::Mm | Unit::Inch) {
        return no_size(size);
    }
    let message = format!("`{}` is a wire gauge, and what callipers read is meant", size.as_written());
    Some(
        Diagnostic::error(NAME, size.span, message)
            .label("callipers read mm or inches")
            .help("a measured size is written in `mm` or `in`: measured wire 1.58 mm; a gauge is a size that wire is sold by: wire 18 swg"),
    )
}

fn no_size(size: &Size) -> Option<Diagnostic> {
    if millimetres(size).is_some() {
        return None;
    }
    let found = |message: String| Diagnostic::error(NAME, size.span, message).label("no such size");
    Some(match size.unit {
        // Which wire it is nobody knows: that has its own finding.
        Unit::Gauge if size.number.text.parse().ok().and_then(awg_mm).is_some() => return None,
        Unit::Awg | Unit::Swg | Unit::Gauge => {
            found(format!("there is no `{}`: gauges are whole numbers from 0 to 40", size.as_written()))
                .help("write the diameter instead: 1.2 mm")
        }
        Unit::Mm | Unit::Inch if !size.number.value.is_finite() => {
            found(format!("`{}` is no size: the lower number of a fraction cannot be 0", size.as_written()))
        }
        Unit::Mm | Unit::Inch => found(format!("`{}` is no size: it must be more than 0", size.as_written())),
    })
}

fn no_ratio(ratio: f64, span: Span) -> Option<Diagnostic> {
    (ratio <= 0.0).then(|| {
        Diagnostic::error(NAME, span, "there is no AR of 0")
            .label("no such ring")
            .help("AR is the inner diameter divided by the wire; weaves use rings from about 3 to 8")
    })
}
