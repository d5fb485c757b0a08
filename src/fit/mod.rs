//! Which rings make a weave: from a maker's shelf, or of the sizes in common use.
//!
//! A question about many sizes is answered without settling the weave for each of them.
//!
//! - A weave of one kind of ring without accents has one shape: it closes from the aspect ratio on that was found when it
//!   was settled once, and how much room a ring has follows from its own (`rows`). Only the length of a repeat is pulled
//!   anew, once for each aspect ratio, rounded down to [`RATIO_STEP`].
//! - Two kinds of ring have a shape that is settled by the two aspect ratios and by how their wires compare. Sizes that are
//!   proved not to go, and those with which the base alone does not close, are put aside first (`bounds`). For fixed core
//!   circles and a fixed ratio of the wires, all wires can be thickened together to one floor: so what is to be known of
//!   all pairs is a surface over two numbers, and a `survey` finds it at some tens of points, each tightened from its
//!   neighbour, and reads the rest off between them. That is a guess: it decides which pairs are settled, and nothing that
//!   is said of a pair.
//! - The most promising pairs are settled, as many as were asked for, each shape once (rounded to [`SHAPE_STEP`]): what is
//!   said of them is what `byrnie settle` says.
//!
//! - Where one kind is chosen and all others stay as the text has them (`one_kind`), the same survey is made of its rings
//!   alone, and the most promising sizes are settled.
//!
//! Shapes are worked out side by side, and results stay in order: the order of the shelf changes nothing but which of two
//! alike rings is named first.

mod bounds;
mod choose;
mod common;
mod json;
mod need;
mod offer;
mod one_kind;
mod pairs;
mod panel;
mod rows;
mod survey;
mod table;
mod wanted;

pub use choose::{Fit, NotFitted, fit};
pub use common::common_sizes;
pub use json::FitJson;
pub use offer::{Offer, offers};
pub use one_kind::fit_kind;
pub use panel::{Mark, Panel, Standing};
pub use rows::{Enough, Misses, Pick, Row};
pub use wanted::Wanted;

/// Length of a repeat is worked out at aspect ratios rounded down to this: shorter by less than a three hundredth, which is
/// less than rings of one bag differ.
pub const RATIO_STEP: f64 = 0.01;
/// Shapes are settled with aspect ratios and the ratio of wires rounded to this.
pub const SHAPE_STEP: f64 = 0.001;
