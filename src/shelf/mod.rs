//! The maker's own rings, from a table: what is on hand, what to take, what to buy.

mod columns;
mod json;
mod shopping;
mod spreadsheet;
mod stock;

pub use json::{CountJson, With};
pub use shopping::{Need, needs, shopping};
pub use stock::{Shelf, ShelfFault, ShelfRing};
