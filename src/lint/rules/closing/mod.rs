//! Whether rings of these sizes close, and with how much room.

pub mod claim_fits;
pub mod claim_straight;
pub mod close_to_floor;
pub mod over_full_hole;
pub mod remedies;
pub mod rings_too_small;
pub mod standing;
