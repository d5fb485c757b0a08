//! What is wrong with a shelf, and the words for it.

use super::amount::NotAnAmount;
use crate::measure::NoSuchSize;
use crate::notation::NotASize;
use thiserror::Error;

/// What is wrong with one line of a shelf.
#[derive(Clone, Debug, PartialEq)]
pub struct ShelfFault {
    /// The line of the file, from 1.
    pub line: usize,
    /// The column: its number, from 1, and its heading; `None` where the whole line is meant.
    pub column: Option<(usize, String)>,
    /// What was found.
    pub what: Fault,
}

impl std::fmt::Display for ShelfFault {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match &self.column {
            Some((number, name)) => write!(f, "line {}, column {number} ({name}): {}", self.line, self.what),
            None => write!(f, "line {}: {}", self.line, self.what),
        }
    }
}

/// What is wrong with a line or a cell.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum Fault {
    /// A heading that looks like a slip; the one it looks like.
    #[error("this column is ignored; did you mean `{0}`?")]
    UnknownHeading(&'static str),
    /// A quote that nothing closes.
    #[error("a quote is opened here and not closed; close it, or write \"\" for an inch mark inside quotes")]
    OpenQuote,
    /// More cells than headings.
    #[error(
        "there are {cells} cells and {headings} headings, {} too many; \
         put quotes around cells with a comma in them, such as \"1,6\"",
        cells.saturating_sub(*headings)
    )]
    TooManyCells {
        /// Cells in the line.
        cells: usize,
        /// Headings of the shelf.
        headings: usize,
    },
    /// A control character, or one that is not UTF-8.
    #[error("contains a character that cannot be read; type it again, and save the file as UTF-8")]
    Unreadable,
    /// No size where one is needed.
    #[error("is empty; a ring has a wire and an inner diameter")]
    Empty,
    /// A cell that is not a size.
    #[error("`{words}` {why}{}", or_in_the_heading(.why))]
    Size {
        /// The cell.
        words: String,
        /// What is wrong with it.
        why: Box<NoSuchSize>,
    },
    /// A gauge as an inner diameter; the cell.
    #[error("`{0}` is a gauge; gauges measure wire, so write mm or inches")]
    GaugeOfHole(String),
    /// A size that is larger than any ring's, mm.
    #[error("`{words}` is {mm:.0} mm; at most {most:.0} mm is accepted")]
    TooLarge {
        /// The cell.
        words: String,
        /// Its size, mm.
        mm: f64,
        /// The largest that is accepted, mm.
        most: f64,
    },
    /// A wire that does not go through its own hole, mm.
    #[error("the inner diameter, {inner_mm:.2} mm, is not larger than the wire, {wire_mm:.2} mm; are the two swapped?")]
    WireFillsHole {
        /// The wire, mm.
        wire_mm: f64,
        /// The inner diameter, mm.
        inner_mm: f64,
    },
    /// A cell that is not an amount.
    #[error("`{words}` {why}")]
    Amount {
        /// The cell.
        words: String,
        /// What is wrong with it.
        why: NotAnAmount,
    },
}

/// What is missing after a number may be in the heading as well.
fn or_in_the_heading(why: &NoSuchSize) -> &'static str {
    match why {
        NoSuchSize::NotASize(NotASize::NoUnit) | NoSuchSize::TwoSystems { .. } => ", or in the heading",
        _ => "",
    }
}

/// Why nothing of a shelf can be read.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum NoShelf {
    /// More than [`crate::text::MAX_BYTES`].
    #[error("the shelf is longer than 1 MB, some 10,000 rings; split it")]
    TooLong,
    /// Nothing in it.
    #[error("the shelf is empty")]
    Empty,
    /// Columns that must be there and are not.
    #[error(
        "line {line} has no column `{}`; the first line names the columns, such as: material, colour, wire, inner, on hand",
        columns.join("` and no column `")
    )]
    ColumnsMissing {
        /// The line of headings, from 1.
        line: usize,
        /// The columns.
        columns: Vec<&'static str>,
    },
    /// Two headings for one thing, each with its number, from 1.
    #[error("columns {} (`{}`) and {} (`{}`) are the same; keep one of them", .0.0, .0.1, .1.0, .1.1)]
    SameColumn((usize, String), (usize, String)),
}
