//! Ring graph ↔ instructions.
//!
//! 1. [`order`] finds the sequence in which a maker can weave a piece: which closed rings each open ring picks up, what it
//!    passes, how it comes to lie.
//! 2. [`parts`] says where the work goes on alike: so many steps, so many times over.
//! 3. [`write`](mod@write) tells it in plain English, as Markdown, over [`tell`](mod@tell); [`fronts`] turns rings so that down is away from the maker.
//! 4. [`read`](mod@read) finds the sentences of instructions, [`sentence`](mod@sentence) says what each means.
//! 5. [`follow`](mod@follow) carries them out, ring by ring, on a graph that grows ([`refer`] says which ring is
//!    meant, [`told`] is what it notes).
//! 6. [`check`](mod@check) holds them against the weave ([`expected`]) a tutorial is about; [`becomes`] says what a wrong step would make.

mod becomes;
mod check;
mod check_goes;
mod expected;
mod follow;
mod fronts;
mod order;
mod parts;
mod read;
mod refer;
mod sentence;
mod tell;
mod told;
mod words;
mod write;

pub use check::{
    CANNOT_BE_DONE, Checked, LEFT_OUT, LIES_OTHERWISE, MISCOUNTED, WRONG_LEAN, WRONG_RING, WRONG_WAY, check, letters,
};
pub use follow::{Work, follow, follow_with};
pub use read::{Numbered, Reading, Sentence, read};
pub(crate) use sentence::amount_of;
pub use sentence::{Lay, RingList, RingWords, Saying, Way, WhichEye};

pub use order::{ClosedTogether, Order, Passing, Stay, Step};
pub use parts::Part;
pub use told::{Claim, Claimed, Fault, Lies, Name, Told, Woven};
pub(crate) use words::ring_name;
pub use write::{Instructions, Item, NotTold};
