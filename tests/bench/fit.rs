//! How fast a shelf of 500 rings is looked through: `cargo bench --bench fit`.

#![allow(clippy::unwrap_used, clippy::expect_used)]

use byrnie::fit::{fit, fit_kind};
use byrnie::shelf::Shelf;
use byrnie::text::Source;
use byrnie::{Library, Weave};
use divan::Bencher;
use std::fmt::Write as _;

fn main() {
    divan::main();
}

/// 500 rings, no two of one size: 20 wires, each with 25 inner diameters.
fn shelf() -> String {
    let mut text = String::from("material,colour,wire (mm),inner (mm),on hand\n");
    for wire in 0..20 {
        for inner in 0..25 {
            let have = 100 + 7 * inner;
            let (wire, inner) = (0.8 + 0.07 * f64::from(wire), 3.0 + 0.29 * f64::from(inner));
            let _ = writeln!(text, "copper,,{wire:.2},{inner:.2},{have}");
        }
    }
    text
}

#[divan::bench]
fn read_a_shelf_of_500(bencher: Bencher) {
    let text = shelf();
    bencher.bench_local(|| Shelf::read(text.as_bytes()).unwrap().rings.len());
}

/// The accent alone, beside a base that is there already.
#[divan::bench(sample_count = 3, args = ["half-persian-4-in-1-every-eye-ringed", "tideline-bracelet"])]
fn fit_500_accents(bencher: Bencher, name: &str) {
    let shelf = Shelf::read(shelf().as_bytes()).unwrap();
    let text = Library::weaves().into_iter().find(|(n, _)| *n == name).unwrap().1;
    let sized =
        format!("weave \"bench\"\nbase \"{}\"\nrings\n  main wire 1.6 mm, inner 8 mm\n", Library::name(text).unwrap());
    bencher.bench_local(|| {
        let weave = Weave::compile(Source::new("bench", &sized), &Library);
        fit_kind(&weave, "accent", Some(&shelf), 8).unwrap().rows.len()
    });
}

/// One kind of ring; a base with an accent on every eye; and one with an accent on every third, whose repeat is long.
#[divan::bench(sample_count = 3, args = ["simple-chain", "half-persian-3-in-1", "half-persian-4-in-1-every-eye-ringed", "tideline-bracelet"])]
fn fit_500_rings(bencher: Bencher, name: &str) {
    let shelf = Shelf::read(shelf().as_bytes()).unwrap();
    let text = Library::weaves().into_iter().find(|(n, _)| *n == name).unwrap().1;
    bencher.bench_local(|| {
        // Compiled anew, so that settling it counts.
        let weave = Weave::compile(Source::new("bench", text), &Library);
        fit(&weave, Some(&shelf), 8).unwrap().rows.len()
    });
}
