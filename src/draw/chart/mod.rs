//! Pattern and links → the chart of one repeat.
//!
//! The chart shows what the *text* says, not how the rings settle: a maker lays it beside the work. Rings that others go
//! through are circles in rows; they overlap where the text has an eye. A ring woven through them is a loop: whole in front of
//! the rows and dashed behind them, with a mark where it goes down or comes up. Every ring's front faces the maker, and its
//! path runs clockwise. The solved signs and the lying words decide which outline lies in front; where the text leaves this
//! open, the two outlines run together.
//!
//! At most 60 rings are drawn; the chart says what it leaves out.

mod choice;
mod curve;
mod description;
mod families;
mod ink;
mod layout;
mod legend;
mod loops;
mod names;
mod page;
mod scene;
mod spot;
mod strands;
mod threadings;

use crate::Weave;

/// The chart of one repeat of a weave as a whole SVG document, 120 mm wide. It reads in black and white, and has a title and a
/// description for screen readers.
///
/// There is a chart for every text: it leaves out what the text leaves unclear, and says so.
pub fn chart(weave: &Weave) -> String {
    page::page(weave)
}
