//! Pattern and links → the chart of one repeat; pose → a picture as SVG, a model as glTF.
//!
//! The chart draws the *text*, as notes are written down, and not how the rings settle: a maker holds
//! it beside the work. Rings that are passed stand in rows as circles; they overlap where the text
//! speaks of an eye. A ring woven through them is a loop that is whole in front of the rows and dashed
//! behind them, and a mark stands where it goes down or comes up. Every ring's front faces the maker,
//! its path runs clockwise, and crossings follow from the solved signs and from the lying words; where
//! the text leaves open which of two outlines lies in front they run into each other.
//!
//! Lengths in mm. Same weave, same bytes. At most 60 rings are drawn; the legend says what is left out.

mod choice;
mod curve;
mod families;
mod fit_map;
mod goings;
mod ink;
mod layout;
mod lettering;
mod loops;
pub mod model;
mod names;
mod page;
pub mod picture;
mod scene;
mod signs;
mod spot;
mod strands;
mod svg;
mod words;

pub use fit_map::fit_map;

use crate::Weave;

/// The chart of one repeat of a weave as a whole SVG document, 120 mm wide, readable in black and
/// white, with title and description for screen readers.
///
/// Never fails: what the text leaves unclear is left out and the legend says so.
pub fn chart(weave: &Weave) -> String {
    page::page(weave)
}
