//! Steps of written instructions that do not make their weave.

use crate::lint::{Found, Rule};
use crate::steps;

/// A step cannot be carried out.
pub struct StepCannotBeDone;

impl Rule for StepCannotBeDone {
    const NAME: &str = steps::CANNOT_BE_DONE;
    const PAGE: &str = include_str!("step_cannot_be_done.md");
    const FOUND: Found = Found::InSteps;
}

/// Rings of the piece are never woven in.
pub struct StepLeftOut;

impl Rule for StepLeftOut {
    const NAME: &str = steps::LEFT_OUT;
    const PAGE: &str = include_str!("step_left_out.md");
    const FOUND: Found = Found::InSteps;
}

/// A step lays a ring otherwise than the weave does.
pub struct StepLiesOtherwise;

impl Rule for StepLiesOtherwise {
    const NAME: &str = steps::LIES_OTHERWISE;
    const PAGE: &str = include_str!("step_lies_otherwise.md");
    const FOUND: Found = Found::InSteps;
}

/// A list or a step gives a wrong number of rings.
pub struct StepMiscounted;

impl Rule for StepMiscounted {
    const NAME: &str = steps::MISCOUNTED;
    const PAGE: &str = include_str!("step_miscounted.md");
    const FOUND: Found = Found::InSteps;
}

/// The eyes lean the other way.
pub struct StepWrongLean;

impl Rule for StepWrongLean {
    const NAME: &str = steps::WRONG_LEAN;
    const PAGE: &str = include_str!("step_wrong_lean.md");
    const FOUND: Found = Found::InSteps;
}

/// A step passes other rings than the weave does.
pub struct StepWrongRing;

impl Rule for StepWrongRing {
    const NAME: &str = steps::WRONG_RING;
    const PAGE: &str = include_str!("step_wrong_ring.md");
    const FOUND: Found = Found::InSteps;
}

/// A step passes the right rings the wrong way.
pub struct StepWrongWay;

impl Rule for StepWrongWay {
    const NAME: &str = steps::WRONG_WAY;
    const PAGE: &str = include_str!("step_wrong_way.md");
    const FOUND: Found = Found::InSteps;
}
