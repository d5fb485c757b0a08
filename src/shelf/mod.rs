//! The maker's own rings, from a table: what is on hand, what to take, what to buy.

mod columns;
mod shopping;
mod spreadsheet;
mod stock;

pub use shopping::{Need, needs, shopping, shopping_json};
pub use stock::{Shelf, ShelfFault, ShelfRing};
