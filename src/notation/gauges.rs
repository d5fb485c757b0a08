//! Bare gauges: `18 gauge` is a wire of the system that the file names in its line `gauges`.

use super::size::{Size, Unit};
use super::tree::{Claim, KindPart, MakePart, Tree, What};

/// Gives every bare gauge of a file the system of its line `gauges`, wherever that line is. The first of several such
/// lines is used; without one, bare gauges stay [`Unit::Gauge`].
pub(super) fn name(tree: &mut Tree) {
    let system = tree.statements.iter().find_map(|s| match s.what {
        What::Gauges(system) => Some(system),
        _ => None,
    });
    let Some(system) = system else { return };
    let sizes = tree.statements.iter_mut().flat_map(|s| sizes(&mut s.what));
    for size in sizes.filter(|s| s.unit == Unit::Gauge) {
        size.unit = system;
    }
}

/// Every size of a statement.
fn sizes(what: &mut What) -> Vec<&mut Size> {
    match what {
        What::Kind { parts, .. } => parts.iter_mut().flat_map(|p| of_kind(&mut p.value)).collect(),
        What::MakePart(parts) | What::Bag { parts, .. } => {
            parts.iter_mut().filter_map(|p| of_make(&mut p.value)).collect()
        }
        What::Claim(Claim::Length(size) | Claim::Pitch(size), _) => vec![size],
        _ => Vec::new(),
    }
}

fn of_kind(part: &mut KindPart) -> Vec<&mut Size> {
    match part {
        KindPart::Wire(size, also) | KindPart::Inner(size, also) => std::iter::once(size).chain(also).collect(),
        KindPart::MeasuredWire(size) | KindPart::MeasuredInner(size) => vec![size],
        KindPart::AspectRatio(..) | KindPart::Colour(_) | KindPart::Material(_) => Vec::new(),
    }
}

fn of_make(part: &mut MakePart) -> Option<&mut Size> {
    match part {
        MakePart::Length(size)
        | MakePart::Clasp(size)
        | MakePart::Height(size)
        | MakePart::Width(size)
        | MakePart::Measured(_, size) => Some(size),
        MakePart::Repeats(_) | MakePart::Rows(_) | MakePart::Columns(_) | MakePart::Pieces(_) | MakePart::Spares(_) => {
            None
        }
    }
}
