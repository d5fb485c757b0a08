//! The built-in weaves as a table: what is computed of each, what makers take, small pictures.

mod figures;
mod json;
mod practice;
mod table;

pub use figures::{Entry, Figures};
pub use json::{WeavesJson, weaves_json};
pub use practice::{Practice, practice};
pub use table::{Folders, weaves_table};
