//! Counts, weights and the rules on them.

mod kit;
mod make;
mod properties;
mod rules;

use crate::common::{compile, examples};
use byrnie::supply::Counts;

fn counts(text: &str) -> Counts {
    let weave = compile(text);
    let piece = weave.piece(weave.size()).unwrap();
    Counts::of(&weave, &piece)
}

/// One of the built-in weaves.
fn example(name: &str) -> &'static str {
    examples().into_iter().find(|(n, _)| *n == name).unwrap().1
}
