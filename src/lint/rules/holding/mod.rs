//! Whether every ring is held, and the piece holds together.

pub mod dangling_end;
pub mod held_by_nothing;
pub mod never_picked_up;
pub mod repeats_apart;
pub mod separate_parts;
