//! Instructions with one figure changed: every change is found, on its line.

use crate::common::{compile, examples};
use byrnie::lint::Needs;
use byrnie::steps::{Instructions, check, read};
use byrnie::text::Source;
use byrnie::tutorial::prose;
use byrnie::{Weave, report};
use rayon::prelude::*;
use std::collections::{BTreeMap, BTreeSet};

/// Sizes for a weave that gives none: those of its kinds, in turn.
const SIZES: [&str; 3] = [
    "wire 16 swg (1.63 mm), inner 3/8 in (9.53 mm), copper",
    "wire 18 awg (1.02 mm), inner 15/64 in (5.95 mm), brass",
    "wire 1.2 mm, inner 6.5 mm",
];

/// Every weave, with sizes.
fn sized() -> Vec<(&'static str, Weave)> {
    let with_sizes = |text: &str| {
        let weave = compile(text);
        let mut kinds: Vec<&str> = Vec::new();
        for family in &weave.pattern().families {
            if !kinds.contains(&family.kind.as_str()) {
                kinds.push(&family.kind);
            }
        }
        if !weave.pattern().kinds.is_empty() {
            return weave;
        }
        let lines: String = kinds.iter().zip(SIZES.iter().cycle()).map(|(k, s)| format!("  {k}  {s}\n")).collect();
        compile(&format!("{text}\nrings\n{lines}"))
    };
    examples().into_iter().map(|(name, text)| (name, with_sizes(text))).collect()
}

/// Every single change of a figure in a line of the list of what is needed.
fn changes(line: &str) -> Vec<(&'static str, String)> {
    let mut all: Vec<(&'static str, String)> = Vec::new();
    let mut put = |sort, from: &str, to: &str| {
        for (at, _) in line.match_indices(from) {
            all.push((sort, format!("{}{to}{}", &line[..at], &line[at + from.len()..])));
        }
    };
    for (from, to) in [
        ("16 swg", "17 swg"),
        ("16 swg", "15 swg"),
        ("18 awg", "19 awg"),
        ("18 awg", "16 awg"),
        ("16 awg", "18 awg"),
        ("16 awg", "15 awg"),
    ] {
        put("another gauge", from, to);
    }
    put("the other system", " swg", " awg");
    put("the other system", " awg", " swg");
    for (from, to) in
        [("3/8", "5/16"), ("3/8", "7/16"), ("15/64", "13/64"), ("15/64", "17/64"), ("1/4", "3/16"), ("1/4", "1/2")]
    {
        put("another fraction", from, to);
        put("a fraction with a dot", from, &from.replace('/', "."));
    }
    put("wire for inner diameter", "inner diameter", "wire");
    put("inner diameter for wire", "wire", "inner diameter");
    let numbers: Vec<(usize, &str)> = line
        .match_indices(|c: char| c.is_ascii_digit())
        .map(|(at, _)| at)
        .filter(|at| {
            *at == 0
                || !line.as_bytes()[at - 1].is_ascii_digit()
                    && line.as_bytes()[at - 1] != b'.'
                    && line.as_bytes()[at - 1] != b'/'
        })
        .map(|at| {
            let rest = &line[at..];
            let end = rest.find(|c: char| !c.is_ascii_digit() && c != '.').unwrap_or(rest.len());
            (at, rest[..end].trim_end_matches('.'))
        })
        .collect();
    for (at, number) in numbers {
        let (before, after) = (&line[..at], &line[at + number.len()..]);
        let value: f64 = number.parse().unwrap();
        let mut change = |sort, to: f64| {
            let digits = number.split_once('.').map_or(1, |(_, d)| d.len().max(1));
            all.push((sort, format!("{before}{to:.digits$}{after}")));
        };
        if before.ends_with("AR ") {
            change("another AR", value + 0.3);
            change("another AR", value - 0.2);
            all.push(("AR with a unit", format!("{before}{number} mm{after}")));
        } else if after.starts_with(" mm") {
            change("other millimetres", value * 1.15);
            change("other millimetres", value * 0.85);
        }
    }
    all
}

#[derive(Default)]
struct Score {
    all: usize,
    caught: usize,
    one_finding: usize,
    missed: Vec<String>,
}

fn score(name: &str, weave: &Weave) -> BTreeMap<&'static str, Score> {
    let size = byrnie::pattern::Repeats(weave.size().0.map(|n| n.min(4)));
    let right = Instructions::of(weave, None, size).unwrap().markdown(|_| None);
    let found = |text: &str| {
        let (_, prose) = prose(weave, &Source::new("tutorial.md", text), &read(text), Some(size), Needs::Pose);
        prose
    };
    let words = found(&right);
    assert!(check(weave, None, &right).findings.is_empty() && words.is_empty(), "{name}:\n{right}\n{words:#?}");
    let mut scores: BTreeMap<&'static str, Score> = BTreeMap::new();
    // Of lines with the same sizes one is enough.
    let mut seen = BTreeSet::new();
    let sizes = |line: &str| line.split_once(" wire ").map(|(_, sizes)| sizes.to_owned());
    for line in right.lines().filter(|l| l.starts_with("- ") && seen.insert(sizes(l))) {
        let start = right.find(line).unwrap();
        for (sort, changed) in changes(line) {
            let text = right.replacen(line, &changed, 1);
            let words = found(&text);
            let score = scores.entry(sort).or_default();
            score.all += 1;
            let on_its_line = |f: &&report::Diagnostic| {
                f.span.start as usize >= start && f.span.end as usize <= start + changed.len()
            };
            let there = words.iter().filter(on_its_line).count();
            if there == 0 || there < words.len() {
                score.missed.push(format!("{name}: {changed}: {words:?}"));
                continue;
            }
            score.caught += 1;
            score.one_finding += usize::from(there == 1);
        }
    }
    scores
}

#[test]
fn changed_figures_are_found_on_their_line() {
    let mut sums: BTreeMap<&str, Score> = BTreeMap::new();
    for (sort, score) in
        sized().par_iter().map(|(name, weave)| score(name, weave)).collect::<Vec<_>>().into_iter().flatten()
    {
        let sum = sums.entry(sort).or_default();
        sum.all += score.all;
        sum.caught += score.caught;
        sum.one_finding += score.one_finding;
        sum.missed.extend(score.missed);
    }
    let (mut all, mut caught, mut one) = (0, 0, 0);
    let mut missed = Vec::new();
    for (sort, sum) in sums {
        println!("{sort:26} {:5} changes, {:5} caught, {:5} by one finding", sum.all, sum.caught, sum.one_finding);
        (all, caught, one) = (all + sum.all, caught + sum.caught, one + sum.one_finding);
        missed.extend(sum.missed);
    }
    println!("{all} figures changed: {caught} caught on their line, {one} by one finding");
    missed.truncate(12);
    assert!(all > 500 && caught == all, "{caught} of {all}:\n{}", missed.join("\n"));
}
