//! Stage 8: ring graph ↔ instructions.
//!
//! 1. [`order`] finds the sequence in which a maker can weave a piece: which closed rings each open ring picks up, what it
//!    passes, how it comes to lie.
//! 2. [`parts`] says where the work goes on alike: so many steps, so many times over.
//! 3. [`write`](mod@write) tells it in plain English, as Markdown; [`fronts`] turns rings so that down is away from the maker.
//! 4. [`read`](mod@read) finds the sentences of instructions, [`sentence`](mod@sentence) says what each means.
//! 5. [`follow`](mod@follow) carries them out, ring by ring, on a graph that grows.

mod follow;
mod fronts;
mod order;
mod parts;
mod read;
mod sentence;
mod words;
mod write;

pub use follow::{Fault, Lies, Name, Work, Woven, follow};
pub use read::{Numbered, Reading, Sentence, read};
pub use sentence::{Lay, RingList, RingWords, Saying, Way};

pub use order::{ClosedTogether, Order, Passing, Stay, Step};
pub use parts::Part;
pub use write::{Instructions, Item, NotTold};
