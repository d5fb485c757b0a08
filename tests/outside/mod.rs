//! Checks against values from outside the project. Each names its source.
#![allow(clippy::float_cmp)] // A table must be copied to the last digit.

mod gauges;
mod materials;
pub mod packings;

/// Whether two numbers are the same to so many decimals.
fn same(one: f64, other: f64, decimals: i32) -> bool {
    (one - other).abs() <= 0.5 * 10_f64.powi(-decimals) + 1e-12
}
