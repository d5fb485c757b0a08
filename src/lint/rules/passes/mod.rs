//! Which ring passes which, and how.

pub mod before_it_exists;
pub mod closed_through_closed;
pub mod down_and_up;
pub mod linked_twice;
pub mod no_eye;
pub mod open_direction;
pub mod through_itself;
pub mod wrong_place;
