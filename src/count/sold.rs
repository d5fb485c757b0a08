//! The sizes rings are sold by, with the measured ones beside them, in words.

use super::counts::KindCount;
use crate::measure::{in_mm, length_mm, written};
use crate::notation::{Size, Unit};
use crate::text::UNKNOWN;

/// Wire and inner diameter of a kind, each as it is sold and, in brackets, as measured: "9.5 mm (measured 9.71 mm)",
/// "18 swg (1.22 mm, measured 1.2 mm)", "measured 9.71 mm" where it is sold by no size; `None` where nothing is known.
pub(crate) fn sold_and_measured(kind: &KindCount) -> [Option<String>; 2] {
    let size = kind.size.as_ref();
    let [sold_wire, sold_inner] = &kind.written;
    let [wire, inner] = &kind.measured;
    let nominal = [size.and_then(|s| s.nominal_wire_mm), size.and_then(|s| s.nominal_inner_mm)];
    // What follows from a measured size and an aspect ratio.
    let [wire_mm, inner_mm] = [size.and_then(|s| s.wire_mm), size.and_then(|s| s.inner_mm)];
    [(sold_wire, nominal[0], wire, wire_mm), (sold_inner, nominal[1], inner, inner_mm)].map(
        |(sold, nominal, measured, mm)| {
            let sold = sold.as_ref().map(written).or_else(|| nominal.map(in_mm));
            match measured {
                None => sold.or_else(|| mm.map(in_mm)),
                Some(measured) => Some(beside(sold, &as_measured(measured))),
            }
        },
    )
}

fn beside(sold: Option<String>, measured: &str) -> String {
    let Some(sold) = sold else { return measured.to_owned() };
    match sold.strip_suffix(')') {
        Some(open) => format!("{open}, {measured})"),
        None => format!("{sold} ({measured})"),
    }
}

/// In mm, as the size it is sold by is shown as well.
fn as_measured(size: &Size) -> String {
    match length_mm(size) {
        Some(mm) if size.unit != Unit::Mm => format!("measured {}", in_mm(mm)),
        _ => format!("measured {}", size.words()),
    }
}

/// Wire and inner diameter of a kind for a table.
pub(super) fn size_cells(kind: Option<&KindCount>) -> [String; 2] {
    kind.map(sold_and_measured).unwrap_or_default().map(|words| words.unwrap_or_else(|| UNKNOWN.to_owned()))
}
