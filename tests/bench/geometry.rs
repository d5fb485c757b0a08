//! How fast the questions about two rings are answered: `cargo bench --bench geometry`.

#![allow(clippy::unwrap_used)]

#[path = "../settle/pairs.rs"]
mod pairs;

use byrnie::settle::{clearances, clearances_below, crossing, link_sign};
use divan::Bencher;
use divan::counter::ItemsCount;
use pairs::{pairs, regular_pairs};

const PAIRS: usize = 1000;

fn main() {
    divan::main();
}

#[divan::bench]
fn link_sign_of_1000_pairs(bencher: Bencher) {
    let pairs = pairs(1, PAIRS);
    bencher
        .counter(ItemsCount::new(PAIRS))
        .bench_local(|| pairs.iter().map(|(a, b)| i32::from(link_sign(a, b))).sum::<i32>());
}

#[divan::bench]
fn crossing_of_1000_pairs(bencher: Bencher) {
    let pairs = pairs(1, PAIRS);
    bencher
        .counter(ItemsCount::new(PAIRS))
        .bench_local(|| pairs.iter().map(|(a, b)| crossing(a, b).margin(1)).sum::<f64>());
}

#[divan::bench]
fn clearances_of_1000_pairs(bencher: Bencher) {
    let pairs = pairs(1, PAIRS);
    bencher
        .counter(ItemsCount::new(PAIRS))
        .bench_local(|| pairs.iter().flat_map(|(a, b)| clearances(a, b)).map(|c| c.distance).sum::<f64>());
}

/// Touching, crossing, coaxial: the slow cases.
#[divan::bench]
fn clearances_of_1000_regular_pairs(bencher: Bencher) {
    let pairs = regular_pairs(1, PAIRS);
    bencher
        .counter(ItemsCount::new(PAIRS))
        .bench_local(|| pairs.iter().flat_map(|(a, b)| clearances(a, b)).map(|c| c.distance).sum::<f64>());
}

/// As a solver asks: only what is nearer than a wire of 1.2 mm.
#[divan::bench]
fn clearances_below_a_wire_of_1000_pairs(bencher: Bencher) {
    let pairs = pairs(1, PAIRS);
    bencher
        .counter(ItemsCount::new(PAIRS))
        .bench_local(|| pairs.iter().flat_map(|(a, b)| clearances_below(a, b, 1.2)).map(|c| c.distance).sum::<f64>());
}
