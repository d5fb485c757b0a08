//! Where rings can lie: links and distances of two rings, poses of weaves, and what is said of them.

mod accents;
mod apart;
mod bytes;
mod clearance;
mod exact;
mod examples;
mod find;
mod floors;
mod invariance;
mod lean;
mod link;
mod lying;
mod pairs;
mod recheck;
mod tubes;

use crate::common::compile;
use byrnie::Weave;
use byrnie::settle::Settled;

/// A text settled.
fn settled(text: &str) -> (Weave, Settled) {
    let weave = compile(text);
    assert!(weave.pattern.whole, "{text}: {:?}", weave.reading);
    let settled = Settled::of(&weave).unwrap_or_else(|why| panic!("{why}: {text}"));
    (weave, settled)
}
