//! A whole weave: its base settled, laid on the bench, its accents on it; which sizes are given and which would do.

mod accent;
mod base;
mod curled;
mod floor;
mod hold;
mod homes;
mod inner;
mod measure;
mod other_sizes;
mod placed;
mod put_on;
mod rock;
mod seat;
mod settled;
mod sizes;
mod suits;
mod view;

pub use accent::{Sits, Word};
pub use curled::Curled;
pub use floor::smallest_inner;
pub(crate) use hold::{HOLDS, room_word};
pub use hold::{Hold, LITTLE_ROOM};
pub use homes::Homes;
pub use other_sizes::Start;
pub use placed::Placed;
pub use seat::Seat;
pub use settled::{AtFloor, Floor, Lengths, NotSettled, Other, Settled, SettledRing};
pub use sizes::{Known, Sizes};
pub use suits::Suits;
pub use view::{View, views};
