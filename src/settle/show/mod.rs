//! A settled weave in words and as JSON.

mod json;
mod table;

pub use json::SettledJson;
