//! How many repeats a piece has.

use super::Lattice;
use crate::text::count;

/// How many repeats a piece has: repeats and 1 for a chain, rows and columns for a sheet, 1 and 1 for
/// a unit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Repeats(pub [u32; 2]);

impl Repeats {
    /// In words: "36 repeats", "12 rows, 20 columns", "one unit".
    pub fn words(self, lattice: Lattice) -> String {
        match lattice {
            Lattice::Unit => "one unit".to_owned(),
            Lattice::Chain => count(self.0[0], "repeat"),
            Lattice::Sheet => format!("{}, {}", count(self.0[0], "row"), count(self.0[1], "column")),
        }
    }
}
