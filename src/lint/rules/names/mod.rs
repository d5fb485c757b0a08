//! Names of rings, kinds, sets, bags, bases and materials.

pub mod name_used_twice;
pub mod name_with_digit;
pub mod unknown_bag;
pub mod unknown_base;
pub mod unknown_kind;
pub mod unknown_material;
pub mod unknown_ring;
pub mod unknown_ring_set;
pub mod unused_kind;
pub mod unused_ring;
