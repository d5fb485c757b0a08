//! How fast the stages are: `cargo bench`.

#![allow(clippy::unwrap_used, clippy::expect_used)]

use byrnie::count::Counts;
use byrnie::lint::Needs;
use byrnie::notation::{read, tidy};
use byrnie::pattern::Repeats;
use byrnie::text::Source;
use byrnie::tutorial::prose;
use byrnie::{Library, Weave, lint};
use divan::Bencher;
use std::fmt::Write as _;

fn main() {
    divan::main();
}

/// A weave of 10,000 lines: 400 families, each passing the ones before it, with comments and claims.
fn long_text() -> String {
    let mut text = String::from("weave \"long\"\n");
    for f in 0..400 {
        let _ = writeln!(text, "ring {}", name(f));
    }
    text.push_str("repeat n\n");
    let mut lines = 402;
    let mut step = 0;
    while lines < 9_990 {
        for f in 0..400 {
            let (to, back) = ((f * 7 + 13 * step + 1) % 400, step % 50 + 1);
            match step % 4 {
                0 => {
                    _ = writeln!(
                        text,
                        "  {}[n] down {}[n-{back}], up {}[n-{back}]",
                        name(f),
                        name(to),
                        name((to + 1) % 400)
                    );
                }
                1 => _ = writeln!(text, "  lay {}[n] behind {}[n-{back}]", name(f), name(to)),
                2 => _ = writeln!(text, "  {}[n] over {}[n-{back}]", name(f), name(to)),
                _ => _ = writeln!(text, "  # ring {} once more", name(f)),
            }
            lines += 1;
        }
        step += 1;
    }
    text.push_str("claim 4 in 1\n");
    text
}

fn name(f: usize) -> String {
    let letter = |i: usize| char::from(b'a' + u8::try_from(i % 20).unwrap());
    format!("{}{}{}x", letter(f), letter(f / 20), letter(f / 400))
}

fn compile(text: &str) -> Weave {
    Weave::compile(Source::new("bench.weave", text), &Library)
}

#[divan::bench]
fn read_10_000_lines(bencher: Bencher) {
    let text = long_text();
    bencher.counter(divan::counter::BytesCount::of_str(&text)).bench_local(|| read(0, &text));
}

#[divan::bench]
fn tidy_10_000_lines(bencher: Bencher) {
    let text = long_text();
    let (tree, _) = read(0, &text);
    bencher.bench_local(|| tidy(&tree));
}

#[divan::bench]
fn compile_and_lint_10_000_lines(bencher: Bencher) {
    let text = long_text();
    bencher.bench_local(|| lint::check(&compile(&text)));
}

#[divan::bench(args = ["half-persian-3-in-1", "tideline-bracelet", "european-4-in-1-sheet", "japanese-4-in-1-sheet"])]
fn fingerprint(bencher: Bencher, example: &str) {
    let weaves = Library::weaves();
    let weave = compile(weaves.iter().find(|(n, _)| *n == example).unwrap().1);
    bencher.bench_local(|| weave.fingerprint());
}

/// Sheets of growing size: time should grow as the number of rings does.
#[divan::bench(args = [250, 500, 1000])]
fn expand_a_sheet(bencher: Bencher, side: u32) {
    let weave = compile("ring a\nrepeat row r, column c\na[r,c] down a[r-1,c], a[r-1,c+1]");
    bencher.counter(divan::counter::ItemsCount::new(side * side)).bench_local(|| weave.piece(Repeats([side, side])));
}

#[divan::bench(args = [250, 500, 1000])]
fn count_a_sheet(bencher: Bencher, side: u32) {
    let weave = compile("ring a\nrepeat row r, column c\na[r,c] down a[r-1,c], a[r-1,c+1]");
    let piece = weave.piece(Repeats([side, side])).unwrap();
    bencher.counter(divan::counter::ItemsCount::new(side * side)).bench_local(|| Counts::of(&weave, &piece));
}

#[divan::bench(args = [250, 500, 1000])]
fn compile_and_lint_a_sheet(bencher: Bencher, side: u32) {
    let text = format!(
        "ring a\nrepeat row r, column c\na[r,c] down a[r-1,c], a[r-1,c+1]\nmake\nrows {side}, columns {side}\n"
    );
    bencher.counter(divan::counter::ItemsCount::new(side * side)).bench_local(|| lint::check(&compile(&text)));
}

/// A tutorial of 200 steps, each told by itself, held against its weave.
#[divan::bench]
fn check_a_tutorial_of_200_steps(bencher: Bencher) {
    let text = Library::weaves().into_iter().find(|(name, _)| *name == "simple-chain").unwrap().1;
    let weave = Weave::compile(Source::new("bench", text), &Library);
    let mut told = String::from(
        "# simple chain\n\n1. Thread a1 and a2 on a tie.\n2. Open b1. Go down through a1 and a2. Close b1.\n",
    );
    for n in 2..=200 {
        let _ = writeln!(
            told,
            "{}. Open b{n}. Pick up a{}. Go down through a{n} and a{}. Close b{n}.",
            n + 1,
            n + 1,
            n + 1
        );
    }
    let source = Source::new("told.md", told.as_str());
    bencher.bench_local(|| {
        let checked = byrnie::steps::check(&weave, None, &told);
        let words = prose(&weave, &source, &byrnie::steps::read(&told), checked.size, Needs::Graph);
        checked.findings.len() + words.1.len()
    });
}

/// The instructions of a bracelet of 200 repeats.
#[divan::bench]
fn write_instructions(bencher: Bencher) {
    let text = Library::weaves().into_iter().find(|(name, _)| *name == "half-persian-3-in-1").unwrap().1;
    let weave = Weave::compile(Source::new("bench", text), &Library);
    bencher.bench_local(|| {
        byrnie::steps::Instructions::of(&weave, None, Repeats([200, 1])).unwrap().markdown(|_| None).len()
    });
}
