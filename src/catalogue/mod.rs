//! The built-in weaves as a table: what is computed of each, what makers take, small pictures.

mod figures;
mod practice;
mod table;

pub use figures::{Entry, Figures, WEAVES_SCHEMA, weaves_json};
pub use practice::{Practice, practice};
pub use table::{Folders, weaves_table};
