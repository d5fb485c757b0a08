//! A settled weave in words and as JSON.

mod json;
mod schema;
mod table;

pub use schema::SETTLE_SCHEMA;
