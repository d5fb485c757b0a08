//! Stage 10: one [`Diagnostic`] value, shown to people or to machines.

mod diagnostic;
mod json;
mod plain;
#[cfg(feature = "cli")]
mod terminal;

pub use diagnostic::{Diagnostic, Fix, Severity};
pub use json::json;
pub use plain::plain;
#[cfg(feature = "cli")]
pub use terminal::terminal;
