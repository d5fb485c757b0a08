//! How many repeats a piece has.

use super::{Lattice, Shift};
use crate::text::count;

/// How many repeats a piece has: repeats and 1 for a chain, rows and columns for a sheet, 1 and 1 for
/// a unit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Repeats(pub [u32; 2]);

impl Repeats {
    /// The last repeat along each way, counted from 1. A number too large for a [`Shift`] is cut to one that fits.
    pub fn last(self) -> Shift {
        // Rings added beyond the end must fit as well.
        let [row, column] = self.0.map(|n| i32::try_from(n).unwrap_or(i32::MAX - 1000));
        Shift::new(row, column)
    }

    /// In words: "36 repeats", "12 rows, 20 columns", "one unit".
    pub fn words(self, lattice: Lattice) -> String {
        match lattice {
            Lattice::Unit => "one unit".to_owned(),
            Lattice::Chain => count(self.0[0], "repeat"),
            Lattice::Sheet => format!("{}, {}", count(self.0[0], "row"), count(self.0[1], "column")),
        }
    }
}
