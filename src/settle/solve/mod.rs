//! Many rings with links between them: poses found, tightened, pulled.

mod bundle;
mod descent;
mod distance;
mod find;
mod folding;
mod layout;
mod net;
mod orient;
mod poses;
mod problem;
mod program;
mod pull;
mod shortfall;
mod step;
mod tighten;

pub(crate) use bundle::{Bundled, folded};
pub(crate) use descent::downhill;
pub(crate) use distance::scale_of;
pub use find::{find, has_links};
pub(crate) use poses::shaken;
pub(crate) use pull::{ROUNDING, shrunk};
pub(crate) use tighten::{Effort, tighten_with};

pub use distance::{Near, near, scale};
pub(crate) use net::Net;
pub(crate) use orient::{laid, reach, thinnest, turned};
pub use poses::{Found, poses};
pub use problem::{Pose, Problem, RingSize, Wanted};
pub(crate) use pull::pull_with;
pub use pull::{Pull, pull};
pub(crate) use shortfall::Numbers;
pub use shortfall::shortfall;
pub(crate) use step::{Aim, Moves};
pub use tighten::{Tight, tighten};
