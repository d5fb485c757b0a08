//! The sizes rings are sold by, with what was measured beside them, in words.

use super::counts::KindCount;
use crate::measure::written;
use crate::notation::{Size, Unit};
use crate::text::half_up;

/// Wire and inner diameter of a kind, each as it is sold and in brackets as measured: "9.5 mm (measured 9.71 mm)",
/// "18 swg (1.22 mm, measured 1.2 mm)", where nothing is sold "measured 9.71 mm"; "?" where nothing is known.
pub(crate) fn sold_and_measured(kind: &KindCount) -> [String; 2] {
    let size = kind.size.as_ref();
    let nominal = [size.and_then(|s| s.nominal_wire_mm), size.and_then(|s| s.nominal_inner_mm)];
    // What follows from a measured size and an aspect ratio.
    let counts = [size.and_then(|s| s.wire_mm), size.and_then(|s| s.inner_mm)];
    let [sold_wire, sold_inner] = &kind.written;
    let [wire, inner] = &kind.measured;
    [(sold_wire, wire, nominal[0], counts[0]), (sold_inner, inner, nominal[1], counts[1])].map(
        |(sold, measured, nominal, counts)| match measured {
            None => written(sold.as_ref(), nominal.or(counts)),
            Some(measured) => beside(sold.as_ref(), nominal, &as_measured(measured)),
        },
    )
}

fn beside(sold: Option<&Size>, nominal: Option<f64>, measured: &str) -> String {
    if sold.is_none() && nominal.is_none() {
        return measured.to_owned();
    }
    let sold = written(sold, nominal);
    match sold.strip_suffix(')') {
        Some(open) => format!("{open}, {measured})"),
        None => format!("{sold} ({measured})"),
    }
}

/// In mm, which stand beside other units of what is sold anyway.
fn as_measured(size: &Size) -> String {
    match crate::measure::length_mm(size) {
        Some(mm) if size.unit != Unit::Mm => format!("measured {:.2} mm", half_up(mm, 2)),
        _ => format!("measured {}", size.words()),
    }
}
