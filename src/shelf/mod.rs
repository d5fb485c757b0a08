//! The maker's own rings, from a table: what is on hand, what to take, what to buy.

mod amount;
mod columns;
mod fault;
mod json;
mod shopping;
mod spreadsheet;
mod stock;

pub use amount::NotAnAmount;
pub use fault::{Fault, NoShelf, ShelfFault};
pub use json::{CountJson, With};
pub use shopping::{Need, needs, shopping};
pub use stock::{Shelf, ShelfRing};
