//! How large a sheet comes out.

use super::size::{length_mm, some_stretch};
use super::table::half_up;
use crate::pattern::{Lattice, Make};
use crate::rings::Size;
use crate::settle::Sizes;
use crate::weave::Weave;

/// The extent of a sheet, along its rows (its height) and along its columns (its width), as rigid rings lie drawn out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Extent {
    /// What was asked for, mm.
    pub asked_mm: [Option<f64>; 2],
    /// Length of one repeat, mm.
    pub pitch_mm: [f64; 2],
    /// So many repeats of it, mm.
    pub mm: [f64; 2],
}

impl Extent {
    /// The extent of a sheet of this size. Settles the weave where sizes are given in mm; `None` where they are not, where
    /// the weave does not close at them, or where rings stretch.
    pub fn of(weave: &Weave, size: Size) -> Option<Self> {
        let pitch_mm = pitch_mm(weave)?;
        let make = &weave.pattern.make;
        let asked_mm = [&make.height, &make.width].map(|s| s.as_ref().and_then(length_mm));
        let [rows, columns] = size.0.map(f64::from);
        Some(Self { asked_mm, pitch_mm, mm: [rows * pitch_mm[0], columns * pitch_mm[1]] })
    }

    /// The extent in words, a line.
    pub(super) fn words(&self) -> String {
        let one = |way: usize, what: &str| {
            let get = |pair: &[f64; 2]| half_up(pair.get(way).copied().unwrap_or(0.0), 1);
            let asked = self.asked_mm.get(way).copied().flatten();
            let asked = asked.map_or(String::new(), |mm| format!(" (asked for: {mm:.1} mm)"));
            format!("{what} {:.1} mm{asked}", get(&self.mm))
        };
        let [rows, columns] = self.pitch_mm.map(|p| half_up(p, 2));
        format!(
            "Computed: {} and {}, drawn out, at {rows:.2} mm a row and {columns:.2} mm a column.\n",
            one(0, "height"),
            one(1, "width")
        )
    }
}

/// Rows and columns that come nearest to a height and a width; `None` for a way of which none is asked, or where the
/// length of a repeat is not known. At least 1, at most 99,999.
pub fn repeats_for_extent(weave: &Weave) -> [Option<u32>; 2] {
    let make = &weave.pattern.make;
    let asked = [&make.height, &make.width].map(|s| s.as_ref().and_then(length_mm));
    if asked == [None, None] {
        return [None, None];
    }
    pitch_mm(weave).map_or([None, None], |pitch| repeats_of_pitches(make, pitch))
}

/// The same for repeats so long, mm.
pub fn repeats_of_pitches(make: &Make, pitch_mm: [f64; 2]) -> [Option<u32>; 2] {
    let asked = [&make.height, &make.width].map(|s| s.as_ref().and_then(length_mm));
    let repeats = |asked: Option<f64>, pitch: f64| {
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // Clamped to what a u32 holds.
        asked.map(|mm| libm::round(mm / pitch).clamp(1.0, 99_999.0) as u32)
    };
    let ([height, width], [row, column]) = (asked, pitch_mm);
    [repeats(height, row), repeats(width, column)]
}

fn pitch_mm(weave: &Weave) -> Option<[f64; 2]> {
    let pattern = &weave.pattern;
    if pattern.lattice != Lattice::Sheet || !Sizes::of(pattern).all_in_mm || some_stretch(pattern) {
        return None;
    }
    match weave.settled().ok()?.natural.as_deref()? {
        [row, column] if [row, column].iter().all(|mm| mm.is_finite() && **mm > 0.0) => Some([*row, *column]),
        _ => None,
    }
}
