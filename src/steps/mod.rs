//! Stage 8: ring graph → the order of work.
//!
//! 1. [`order`] finds the sequence in which a maker can weave a piece: which closed rings each open ring picks up, what
//!    it passes, how it comes to lie.
//! 2. [`parts`] says where the work goes on alike: so many steps, so many times over.

mod order;
mod parts;

pub use order::{ClosedTogether, Order, Passing, Stay, Step};
pub use parts::Part;
