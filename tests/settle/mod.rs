//! Where rings can lie: links and distances of two rings, poses of weaves, and what is said of them.

mod accents;
mod apart;
mod bytes;
mod clearance;
mod exact;
mod examples;
mod find;
mod floors;
mod folded;
mod invariance;
mod lean;
mod link;
mod lying;
mod pairs;
mod piece;
mod recheck;
mod smallest;
mod tubes;

use crate::common::{compile_alone, examples, kept};
use byrnie::Weave;
use byrnie::settle::Settled;

const HALF_PERSIAN: &str = "ring a, b\nrepeat n\nlay a[n] behind a[n-1]\nb[n] through eye(a[n], a[n+1]), around eye(a[n-1], a[n]), over b[n-1], far side\n";
const CHAIN: &str = "ring a, b\nrepeat n\nb[n] down a[n], a[n+1]\n";
const SPIRAL: &str = "spiral\nring a\nrepeat n\na[n] down a[n-1], a[n-2]\n";
const JAPANESE_4: &str =
    "ring a, h, v\nrepeat row r, column c\nh[r,c] down a[r,c], a[r,c+1]\nv[r,c] down a[r,c], a[r+1,c]\n";

/// A text settled: once, however many tests ask.
fn settled(text: &str) -> (&'static Weave, &'static Settled) {
    let weave = kept(text);
    assert!(weave.pattern().whole, "{text}: {:?}", weave.reading());
    (weave, weave.settled().unwrap_or_else(|why| panic!("{why}: {text}")))
}

/// A text settled, whatever has been settled before.
fn settled_anew(text: &str) -> (Weave, Settled) {
    let weave = compile_alone(text);
    assert!(weave.pattern().whole, "{text}: {:?}", weave.reading());
    let settled = Settled::of(weave.graph()).unwrap_or_else(|why| panic!("{why}: {text}"));
    (weave, settled)
}

/// The floor of the first kind that was found.
fn floor(text: &str) -> f64 {
    settled(text).1.floors[0].found
}

/// The text of an example.
fn example(name: &str) -> &'static str {
    examples().into_iter().find(|(n, _)| *n == name).unwrap().1
}
