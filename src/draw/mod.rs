//! Pattern and links → the chart of one repeat; pose → a picture as SVG, a model as glTF; an answer of `fit` → a map.
//!
//! Lengths on a page are in mm, x to the right and y downwards; kurbo has the points of a page and the curves on it, glam the
//! points in space. One writer writes all SVG. Same weave, same bytes.

mod chart;
mod lettering;
mod map;
pub mod model;
pub mod picture;
mod plane;
mod svg;

pub use chart::chart;
pub use map::fit_map;
