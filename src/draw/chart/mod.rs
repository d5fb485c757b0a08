//! Pattern and links → the chart of one repeat, as the text has it.

mod choice;
mod curve;
mod families;
mod goings;
mod ink;
mod layout;
mod loops;
mod names;
mod page;
mod scene;
mod signs;
mod spot;
mod strands;
mod words;

use crate::Weave;

/// The chart of one repeat of a weave as a whole SVG document, 120 mm wide, readable in black and
/// white, with title and description for screen readers.
///
/// Never fails: what the text leaves unclear is left out and the legend says so.
pub fn chart(weave: &Weave) -> String {
    page::page(weave)
}
