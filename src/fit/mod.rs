//! Which rings make a weave: those on a maker's shelf, or the sizes in common use.
//!
//! The weave is not settled for every size. There are three ways to an answer:
//!
//! - **One kind of ring without accents** (`ratio`) has one shape. It closes from an aspect ratio on that is known once it
//!   is settled, and each ring's room follows from its own aspect ratio. Only the length of a repeat is worked out for each
//!   aspect ratio, rounded down to [`RATIO_STEP`].
//! - **Two kinds of ring** (`pairs`) have a shape that depends on both aspect ratios and on the ratio of the wires. Pairs
//!   whose wires are proved not to go through a hole (`holes`), or with which the base alone does not close, are put aside
//!   first. A `survey` of some tens of shapes then guesses the room of every pair. The most promising pairs (`order`) are
//!   settled, each shape once, rounded to [`SHAPE_STEP`]. The guess decides which pairs are settled, and nothing that is
//!   said about one: what the answer says of a pair is what `byrnie settle` says of it.
//! - **One kind beside others** (`beside`), which stay as the text has them: the same survey of its sizes, and the most
//!   promising are settled.
//!
//! Shapes are settled in parallel and collected in order, so the same question gives the same answer. The order of the
//! lines of a shelf makes no difference.

mod answer;
mod beside;
mod gaps;
mod holes;
mod json;
mod need;
mod offer;
mod order;
mod pairs;
mod panel;
mod question;
mod ratio;
mod row;
mod survey;
mod table;
mod trial;

pub use answer::{Fit, Held, Misses, Nearest, NotFitted, Work};
pub use gaps::Gap;
pub use json::FitJson;
pub use offer::{Offer, Offers};
pub use panel::{FloorLine, Mark, Panel, Proof, Standing};
pub use question::{fit, fit_kind};
pub use row::{Enough, Pick, Row};

/// The length of a repeat is worked out at aspect ratios rounded down to this. That makes it shorter by less than 1/300,
/// which is less than rings of one bag differ.
const RATIO_STEP: f64 = 0.01;
/// Shapes are settled with aspect ratios and the ratio of wires rounded to this.
const SHAPE_STEP: f64 = 0.001;
