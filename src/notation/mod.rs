//! Text → tree. Reading never fails: it returns the tree and what it could not read.
//!
//! The first words of a line choose the pest rule that reads it ([`forms`]). A slip of the finger is repaired and
//! reported ([`repair`]); only a line that cannot be repaired is lost.

mod build;
mod forms;
mod gauges;
mod read;
mod repair;
mod size;
mod tidy;
mod tree;

pub use read::read;
pub(crate) use read::{MISSPELLED, UNREADABLE};
pub use size::{NotANumber, NotASize, Number, Size, Unit};
pub use tidy::tidy;
pub use tree::{
    Act, Along, Anchor, Claim, Clause, EndVerb, Hand, KindPart, MakePart, Of, Place, Position, RingRef, Side, State,
    Statement, Tree, What,
};

/// The pest parser made from `grammar/weave.pest`.
#[allow(missing_docs)]
mod grammar {
    #[derive(pest_derive::Parser)]
    #[grammar = "../grammar/weave.pest"]
    pub struct WeaveParser;
}

use grammar::{Rule, WeaveParser};

/// Every word of the notation, in alphabetical order, for editors and for tests of the reference.
pub fn words() -> Vec<&'static str> {
    let mut words: Vec<_> = forms::FORMS.iter().flat_map(|f| f.words.iter().copied()).collect();
    words.sort_unstable();
    words.dedup();
    words
}
