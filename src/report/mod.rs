//! One [`Diagnostic`] value, shown to people or to machines, and the changes it offers, made.

mod diagnostic;
mod json;
mod mend;
mod plain;
mod sarif;
#[cfg(feature = "cli")]
mod terminal;

pub use diagnostic::{Diagnostic, Fix, Note, Severity};
pub use json::LintJson;
pub use mend::{Mended, mended};
pub use plain::plain;
pub use sarif::{Page, Sarif};
#[cfg(feature = "cli")]
pub use terminal::terminal;
