//! How fast the questions about two rings are answered: `cargo bench --bench geometry`.

#![allow(clippy::unwrap_used)]

#[path = "../settle/pairs.rs"]
mod pairs;

use byrnie::draw::picture::{Options, picture};
use byrnie::pattern::Repeats;
use byrnie::settle::{Problem, RingSize, Settled, clearances, clearances_below, crossing, find, link_sign};
use byrnie::text::Source;
use byrnie::{Library, Weave};
use divan::Bencher;
use divan::counter::ItemsCount;
use pairs::{pairs, regular_pairs};
use rayon::prelude::*;

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

const STARTS: u64 = 16;

fn found(bencher: Bencher, text: &str, turned: [bool; 2]) {
    let weave = Weave::compile(Source::new("bench.weave", text), &Library);
    let problem = Problem::of(weave.pattern(), weave.cell().unwrap(), |_| RingSize { radius: 1.0, wire: 1.0 });
    bencher
        .counter(ItemsCount::new(STARTS))
        .bench_local(|| (0..STARTS).filter_map(|start| find(&problem, turned, start)).count());
}

/// From links to a first pose, from sixteen starts, those that arrive nowhere with them.
#[divan::bench]
fn find_a_chain_of_two_rings(bencher: Bencher) {
    found(bencher, "ring a, b\nrepeat n\nb[n] through eye(a[n], a[n+1]), around eye(a[n-1], a[n])", [false, false]);
}

#[divan::bench]
fn find_a_sheet_of_three_rings(bencher: Bencher) {
    let text = "ring a, h, v\nrepeat row r, column c\nh[r,c] down a[r,c], a[r,c+1]\nv[r,c] down a[r,c], a[r+1,c]";
    found(bencher, text, [true, true]);
}

/// A whole weave: every start, every pose, drawn out and pushed together, accents and all.
#[divan::bench(args = Library::weaves().into_iter().map(|(name, _)| name), sample_count = 3)]
fn settle(bencher: Bencher, name: &str) {
    let (name, text) = Library::weaves().into_iter().find(|(n, _)| *n == name).unwrap();
    let weave = Weave::compile(Source::new(name, text), &Library);
    bencher.bench_local(|| Settled::of(weave.graph()).is_ok());
}

/// All built-in weaves, on all cores.
#[divan::bench(sample_count = 1, sample_size = 1)]
fn settle_the_whole_library(bencher: Bencher) {
    let weaves: Vec<Weave> =
        Library::weaves().into_iter().map(|(name, text)| Weave::compile(Source::new(name, text), &Library)).collect();
    bencher
        .counter(ItemsCount::new(weaves.len()))
        .bench_local(|| weaves.par_iter().filter(|weave| Settled::of(weave.graph()).is_ok()).count());
}

/// A sheet of about so many rings, drawn: from the settled pose to the SVG.
#[divan::bench(args = [100, 1_000, 10_000], sample_count = 5)]
fn picture_of_a_sheet(bencher: Bencher, rings: u32) {
    let (name, text) = Library::weaves().into_iter().find(|(n, _)| *n == "european-4-in-1-sheet").unwrap();
    let weave = Weave::compile(Source::new(name, text), &Library);
    let settled = weave.settled().unwrap();
    // Two rings to each place.
    let size = Repeats([(rings / 2).isqrt(); 2]);
    bencher
        .counter(ItemsCount::new(rings))
        .bench_local(|| picture(&weave, settled, size, &Options::default()).map(|svg| svg.len()).ok());
}

/// A bracelet, likewise.
#[divan::bench(sample_count = 10)]
fn picture_of_a_bracelet(bencher: Bencher) {
    let (name, text) = Library::weaves().into_iter().find(|(n, _)| *n == "tideline-bracelet").unwrap();
    let weave = Weave::compile(Source::new(name, text), &Library);
    let settled = weave.settled().unwrap();
    let size = weave.size();
    bencher.bench_local(|| picture(&weave, settled, size, &Options::default()).map(|svg| svg.len()).ok());
}
