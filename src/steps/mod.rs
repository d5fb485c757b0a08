//! Ring graph ↔ instructions.
//!
//! 1. [`order`] finds the sequence in which a maker can weave a piece: which closed rings each open ring picks up, what it
//!    passes, how it comes to lie.
//! 2. [`parts`] finds the steps that are repeated.
//! 3. [`write`](mod@write) tells it in plain English, as Markdown, over [`tell`](mod@tell) and [`colours`];
//!    [`directions`] turns rings so that down is away from the maker.
//! 4. [`read`](mod@read) finds the sentences of instructions, [`sentence`](mod@sentence) says what each means.
//! 5. [`follow`](mod@follow) carries them out, ring by ring, on a graph that grows ([`which_ring`] says which ring is
//!    meant, [`events`] is what it notes, [`impossible`] what can go wrong).
//! 6. [`check`](mod@check) compares them with the weave a tutorial is about ([`expected`] is its piece, [`piece_size`] how
//!    large that is): [`check_passes`], [`check_lies`], [`check_claims`]. [`would_make`] says what a wrong step would make.

mod check;
mod check_claims;
mod check_lies;
mod check_passes;
mod colours;
mod directions;
mod events;
mod expected;
mod follow;
mod impossible;
mod order;
mod parts;
mod piece_size;
mod read;
mod sentence;
mod tell;
mod which_ring;
mod words;
mod would_make;
mod write;

pub use check::{
    CANNOT_BE_DONE, Checked, LEFT_OUT, LIES_OTHERWISE, MISCOUNTED, WRONG_LEAN, WRONG_RING, WRONG_WAY, check,
};
pub use directions::Directions;
pub use events::{ByPair, Claim, Direction, InText, Name, Passed, PassedPair, Woven};
pub use follow::{Letters, Work, follow};
pub use order::{Order, Step};
pub use parts::Part;
pub use read::{Reading, read};
pub(crate) use words::{number_of, ring_name};
pub use write::Instructions;
