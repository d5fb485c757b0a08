//! The finished height and width of a sheet.

use super::reach::Reach;
use crate::measure::length_mm;
use crate::pattern::{Lattice, Make, Repeats};
use crate::text::half_up;
use crate::weave::Weave;

/// The most rows and columns that a height and a width ask for.
const MOST_REPEATS: u32 = 99_999;

/// The extent of a sheet of rigid rings drawn out, from outer edge to outer edge: down its rows (its height), and
/// across its columns (its width). The height of a skew sheet is measured at right angles to the width, and its width
/// is that of one row.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Extent {
    /// Height and width that were asked for, mm.
    pub asked_mm: [Option<f64>; 2],
    /// Height of a row and width of a column, mm.
    pub pitch_mm: [f64; 2],
    /// Height and width, mm.
    pub mm: [f64; 2],
}

impl Extent {
    /// The extent of a sheet of this size. Settles the weave. `None` where sizes are not in mm, where the weave does
    /// not close at them, or where rings stretch.
    pub fn of(weave: &Weave, size: Repeats) -> Option<Self> {
        let reach = Reach::of_weave(weave, Lattice::Sheet)?;
        let [row, column] = reach.pitch_mm.as_slice() else { return None };
        let make = &weave.pattern().make;
        let asked_mm = [&make.height, &make.width].map(|s| s.as_ref().and_then(length_mm));
        let [height, width] = [0, 1].map(|way| reach.edges(weave, size, way));
        Some(Self { asked_mm, pitch_mm: [*row, *column], mm: [height?.outer_mm, width?.outer_mm] })
    }

    /// The extent in words, a line.
    pub(super) fn words(&self) -> String {
        let one = |what: &str, mm: f64, asked: Option<f64>| {
            let asked = asked.map_or(String::new(), |mm| format!(" (asked for: {mm:.1} mm)"));
            format!("{what} {:.1} mm{asked}", half_up(mm, 1))
        };
        let ([height, width], [asked_height, asked_width]) = (self.mm, self.asked_mm);
        let [row, column] = self.pitch_mm.map(|p| half_up(p, 2));
        format!(
            "Computed: {} and {}, drawn out, from outer edge to outer edge, at {row:.2} mm a row and {column:.2} mm a \
             column.\n",
            one("height", height, asked_height),
            one("width", width, asked_width)
        )
    }
}

/// The rows and columns that come nearest to the height and width asked for, from 1 to [`MOST_REPEATS`]; `None` where
/// none is asked for or the extent of a repeat is not known.
pub fn repeats_for_extent(weave: &Weave) -> [Option<u32>; 2] {
    let make = &weave.pattern().make;
    if make.height.is_none() && make.width.is_none() {
        return [None, None];
    }
    Reach::of_weave(weave, Lattice::Sheet).map_or([None, None], |reach| sheet_with(weave, &reach))
}

/// The same, where it is known how far the rings reach.
pub fn sheet_with(weave: &Weave, reach: &Reach) -> [Option<u32>; 2] {
    let make: &Make = &weave.pattern().make;
    let repeats = |asked: Option<f64>, way: usize| {
        // Of the other way only the ends matter.
        let size = |n: u32| if way == 0 { Repeats([n, MANY]) } else { Repeats([MANY, n]) };
        let length = |n: u32| reach.edges(weave, size(n), way).map(|e| e.outer_mm);
        reach.nearest(asked?, way, MOST_REPEATS, length, *reach.pitch_mm.get(way)?)
    };
    let [height, width] = [&make.height, &make.width].map(|s| s.as_ref().and_then(length_mm));
    [repeats(height, 0), repeats(width, 1)]
}

/// Enough repeats to have an inside.
const MANY: u32 = 1000;
