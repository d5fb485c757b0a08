//! One [`Diagnostic`] value, shown to people or to machines.

mod diagnostic;

pub use diagnostic::{Diagnostic, Fix, Severity};
