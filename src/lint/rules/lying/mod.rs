//! How rings lie: what the text says about it, and where they come to lie when settled.

pub mod lean_changes;
pub mod lies_though_linked;
pub mod lying_contradiction;
pub mod no_pose_found;
pub mod no_such_pose;
pub mod not_an_eye;
pub mod side_of_a_sheet;
pub mod wrong_lean;
