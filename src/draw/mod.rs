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

mod chart;
mod lettering;
mod map;
pub mod model;
pub mod picture;
mod svg;

pub use chart::chart;
pub use map::fit_map;
pub(crate) use svg::{Svg, escaped, mm};
