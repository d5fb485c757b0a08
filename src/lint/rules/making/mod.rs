//! How much is made, and whether it can be made.

pub mod idle_end;
pub mod nothing_to_make;
pub mod short_on_the_shelf;
pub mod too_many_rings;
