//! How accents are placed in a piece, and how they sit.

pub mod accent_misses;
pub mod accent_off_the_end;
pub mod accent_uneven;
pub mod sits_askew;
pub mod sits_loose;
pub mod sitting;
