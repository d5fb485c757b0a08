//! Counts, weights and the rules on them.

mod class;
mod gauges;
mod kit;
mod make;
mod measured;
mod properties;
mod reach;
mod rules;
mod shelf;
mod sizes;

use crate::common::{compile, examples};
use byrnie::count::Counts;

fn counts(text: &str) -> Counts {
    let weave = compile(text);
    let piece = weave.piece(weave.size()).unwrap();
    Counts::of(&weave, &piece)
}

/// One of the built-in weaves.
fn example(name: &str) -> &'static str {
    examples().into_iter().find(|(n, _)| *n == name).unwrap().1
}

/// A file of the examples that is no weave.
pub fn example_file(name: &str) -> String {
    std::fs::read_to_string(std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("examples").join(name)).unwrap()
}
