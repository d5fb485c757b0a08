//! Texts about a class: bags of several sizes, and the same piece in several gauges.

use crate::common::{compile, examples};
use byrnie::count::{Class, gauges, gauges_table, wants};
use byrnie::report;
use byrnie::shelf::{Shelf, needs, shopping};
use byrnie::text::{Layout, Source};
use byrnie::tutorial::Tutorial;

fn class() -> &'static str {
    examples().into_iter().find(|(n, _)| *n == "larkspur-lane-three-gauges").unwrap().1
}

fn found(words: &str) -> (Vec<&'static str>, String) {
    let text = format!("# Larkspur Lane three gauges\n\n```weave\n{}```\n\n{words}\n", class());
    let tutorial = Tutorial::of(Source::new("class.md", text), &compile(class()));
    let findings = tutorial.findings;
    (findings.iter().map(|f| f.rule).collect(), report::plain(&tutorial.sources, &findings))
}

/// What `byrnie count --markdown` prints can stand in a tutorial, and says nothing that is false of it.
#[test]
fn printed_tables_are_true() {
    let weave = compile(class());
    let class = Class::of(&weave).unwrap();
    let shelf = Shelf::read(crate::common::example_file("larkspur-lane-shelf.csv").as_bytes()).unwrap();
    let needs = needs(&wants(&class), &shelf);
    let printed = [
        class.table(Layout::Markdown),
        gauges_table(&gauges(&weave).unwrap(), Layout::Markdown),
        shopping(&class, &needs, Layout::Markdown),
    ];
    let (rules, shown) = found(&printed.concat());
    assert_eq!(rules, [] as [&str; 0], "{shown}");
}

/// What is so of one gauge, of one bag or of all of them is not blamed; what is so of none is.
#[test]
fn what_is_so_of_one_is_not_blamed() {
    for (words, rules) in [
        ("- 60 rings, wire 1.6 mm, inner diameter 7 mm\n", &[][..]),
        ("- 80 rings, wire 1.2 mm, inner diameter 5.3 mm, AR 4.42\n", &[]),
        ("- 52 rings, wire 2 mm, inner diameter 8.8 mm\n", &[]),
        ("- 30 rings a, closed, wire 1.2 mm, inner diameter 5.3 mm\n", &[]),
        ("The bracelet has 80 rings.\n", &[]),
        ("The bracelet has 524 rings in all.\n", &[]),
        ("The bracelet has 81 rings.\n", &["claim-rings"]),
        ("The bracelet has 525 rings in all.\n", &["claim-rings"]),
        // The wire of one set with the hole of another.
        ("- 30 rings a, closed, wire 1.2 mm, inner diameter 7 mm\n", &["wrong-size"]),
        ("- 30 rings a, closed, AR 4.4\n", &[]),
        ("- 30 rings a, closed, AR 4.7\n", &["claim-aspect-ratio"]),
        ("The rings have an inner diameter of 5.3 mm; the bracelet leans right.\n", &["claim-lean"]),
    ] {
        let (names, shown) = found(words);
        assert_eq!(names, rules, "{words}\n{shown}");
    }
}
