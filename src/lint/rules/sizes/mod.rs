//! Sizes as they are written.

pub mod aspect_ratio_disagrees;
pub mod aspect_ratio_unit;
pub mod gauge_disagrees;
pub mod gauge_without_system;
pub mod inch_disagrees;
pub mod measured_far_off;
pub mod no_such_size;
pub mod wire_and_inner_swapped;
pub mod written_twice;
pub mod wrong_gauge_system;

use crate::lint::{Found, Rule};

/// A tutorial gives rings a size that its weave does not give them.
pub struct WrongSize;

impl Rule for WrongSize {
    const NAME: &str = "wrong-size";
    const PAGE: &str = include_str!("wrong_size.md");
    const FOUND: Found = Found::InProse;
}

/// The rules that also look at sizes as a tutorial writes them.
pub const AS_WRITTEN: [Found; 7] = [
    aspect_ratio_disagrees::AspectRatioDisagrees::FOUND,
    aspect_ratio_unit::AspectRatioUnit::FOUND,
    gauge_disagrees::GaugeDisagrees::FOUND,
    inch_disagrees::InchDisagrees::FOUND,
    no_such_size::NoSuchSize::FOUND,
    wire_and_inner_swapped::WireAndInnerSwapped::FOUND,
    wrong_gauge_system::WrongGaugeSystem::FOUND,
];
