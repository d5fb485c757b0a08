//! Stage 8: ring graph ↔ instructions.
//!
//! 1. [`order`] finds the sequence in which a maker can weave a piece: which closed rings each open ring picks up, what it
//!    passes, how it comes to lie.
//! 2. [`parts`] says where the work goes on alike: so many steps, so many times over.
//! 3. [`write`](mod@write) tells it in plain English, as Markdown, over [`tell`](mod@tell); [`fronts`] turns rings so that down is away from the maker.
//! 4. [`read`](mod@read) finds the sentences of instructions, [`sentence`](mod@sentence) says what each means.
//! 5. [`follow`](mod@follow) carries them out, ring by ring, on a graph that grows.
//! 6. [`check`](mod@check) holds them against the weave ([`expected`]) a [`tutorial`] is about.

mod check;
mod expected;
mod follow;
mod fronts;
mod order;
mod parts;
mod read;
mod sentence;
mod tell;
mod tutorial;
mod words;
mod write;

pub use check::{
    CANNOT_BE_DONE, Checked, LEFT_OUT, LIES_OTHERWISE, MISCOUNTED, WRONG_LEAN, WRONG_RING, WRONG_WAY, check,
};
pub use follow::{Claim, Claimed, Fault, Lies, Name, Told, Work, Woven, follow};
pub use read::{Numbered, Reading, Sentence, read};
pub use sentence::{Lay, RingList, RingWords, Saying, Way, WhichEye};

pub use order::{ClosedTogether, Order, Passing, Stay, Step};
pub use parts::Part;
pub use tutorial::{WeaveIn, only, weave_in};
pub use write::{Instructions, Item, NotTold};
