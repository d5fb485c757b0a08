//! Cases of the rules beyond those on their pages.

use crate::common::{compile, example};
use byrnie::{lint, report};

pub(super) fn found(text: &str) -> (Vec<&'static str>, String) {
    let weave = compile(text);
    let findings = lint::check(&weave);
    (findings.iter().map(|f| f.rule).collect(), report::plain(weave.sources(), &findings))
}

/// A simple chain with this line in `rings` and this behind it.
pub(super) fn chain(kind: &str, rest: &str) -> String {
    format!("weave \"Harbour chain\"\nbase \"simple chain\"\nrings\n  main  {kind}\n{rest}")
}

#[track_caller]
pub(super) fn finds(text: &str, rules: &[&str]) {
    let (names, shown) = found(text);
    assert_eq!(names, rules, "{text}\n{shown}");
}

#[test]
fn a_size_written_twice() {
    for (kind, rules) in [
        // Rounded to the decimals written.
        ("wire 18 swg (1.2 mm), AR 5", &[][..]),
        ("wire 18 swg (1.22 mm), AR 5", &[]),
        ("wire 18 awg (1.0 mm), AR 5", &[]),
        ("wire 18 awg (1 mm), AR 5", &[]),
        ("wire 1.2 mm (18 SWG), AR 5", &[]),
        ("wire 16 swg (1.61 mm), AR 5", &[]),
        ("wire 18 swg (0.048 in), AR 5", &[]),
        // 16 SWG and 14 AWG are 0.002 mm apart.
        ("wire 16 swg (14 awg), AR 5", &[]),
        ("wire 16 swg (1.60 mm), AR 5", &["gauge-disagrees"]),
        ("wire 12 awg (2 mm), AR 5", &["gauge-disagrees"]),
        ("wire 20 swg (20 awg), AR 5", &["gauge-disagrees"]),
        // A whole millimetre is the metric wire, not anything that rounds to it.
        ("wire 18 swg (1 mm), AR 5", &["wrong-gauge-system"]),
        ("wire 1.2 mm (18 AWG), AR 5", &["wrong-gauge-system"]),
        ("wire 18 awg (0.048 in), AR 5", &["wrong-gauge-system"]),
        ("wire 1 mm, inner 3/8 in (9.5 mm)", &[]),
        ("wire 1 mm, inner 9.53 mm (3/8 in)", &[]),
        ("wire 1 mm, inner 9 mm (3/8 in)", &["inch-disagrees"]),
        ("wire 1.2 mm (0.060 in), AR 5", &["inch-disagrees"]),
        ("wire 1.2 mm (1.3 mm), AR 5", &["inch-disagrees"]),
        // What is no size has its own finding.
        ("wire 18 swg (0 mm), AR 5", &["no-such-size"]),
    ] {
        finds(&chain(kind, ""), rules);
    }
}

#[test]
fn sizes_there_cannot_be() {
    for (kind, count) in [
        ("wire 0 mm, AR 5", 1),
        ("wire 41 awg, AR 5", 1),
        ("wire 18.5 swg, AR 5", 1),
        ("wire 1/2 awg, AR 5", 1),
        ("wire 0/0 in, AR 5", 1),
        ("wire 1 mm, AR 0", 1),
        ("wire 1 mm, inner 18 awg (16 swg)", 2),
    ] {
        finds(&chain(kind, ""), &vec!["no-such-size"; count]);
    }
    let made = "make\n  length 18 swg, clasp 0 mm\n  measured 3 repeats 0 in\nclaim AR 0\nclaim pitch 0 mm\n";
    finds(&chain("wire 1 mm, AR 5", made), &["no-such-size"; 4]);
}

#[test]
fn wire_and_hole() {
    finds(&chain("wire 2 mm, inner 2 mm", ""), &["wire-and-inner-swapped"]);
    finds(&chain("wire 10 swg, inner 1/16 in", ""), &["wire-and-inner-swapped"]);
    finds(&chain("wire 9.5 mm (3/8 in), inner 18 swg, AR 5.9", ""), &["no-such-size"]);
    // Two rings of AR 2 still pass side by side, but only just; less is proved too small.
    finds(&chain("AR 2", ""), &["close-to-floor"]);
    finds(&chain("wire 1 mm, AR 1.99", ""), &["over-full-hole"]);
    finds(&chain("AR 1.5", ""), &["over-full-hole"]);
    finds(&chain("AR 1.5, rubber", ""), &[]);
}

/// The kit's chain with a thick accent through every closed ring: 1.2 + 3 mm through 4 mm do not go, and
/// without the accent's wire nothing is known.
#[test]
fn unlike_wires_through_one_hole() {
    let text = |accent: &str| {
        format!(
            "ring a\nring b thick\nrepeat n\n  a[n] down a[n-1]\naccent every 2, from 1\n  b[n] down a[n]\n\
             rings\n  main wire 1.2 mm, inner 4 mm\n  thick {accent}\nmake\n  repeats 9\n"
        )
    };
    let (names, shown) = found(&text("wire 3 mm, inner 9 mm"));
    assert!(names.contains(&"over-full-hole"), "{shown}");
    insta::assert_snapshot!(
        "unlike_wires",
        shown.lines().filter(|l| l.contains("hole") || l.starts_with(' ')).collect::<Vec<_>>().join("\n")
    );
    assert!(!found(&text("AR 5")).0.contains(&"over-full-hole"));
}

/// A piece too short to have a ring with all its links is not over-full.
#[test]
fn a_short_piece_has_no_full_ring() {
    let text = |rows: u32| {
        format!(
            "weave \"Scrap\"\nbase \"European 4-in-1 sheet\"\nrings\n  main wire 1.6 mm, inner 3.8 mm\nmake\n  rows {rows}, columns 2\n"
        )
    };
    assert!(!found(&text(1)).0.contains(&"over-full-hole"));
    assert!(found(&text(5)).0.contains(&"over-full-hole"));
}

#[test]
fn kinds_without_a_line() {
    let sheet = "weave \"Harbour sheet\"\nbase \"Japanese 4-in-1 sheet\"\nrings\n  main wire 1 mm, AR 5\n";
    let (names, shown) = found(sheet);
    assert_eq!(names, ["unknown-kind"]);
    assert!(shown.starts_with("test.weave:3:1: warning[unknown-kind]: rings of the kind `link`"), "{shown}");
    // Without `rings` there is nothing to miss; with a line that cannot be read nothing is certain.
    finds("weave \"Harbour sheet\"\nbase \"Japanese 4-in-1 sheet\"\n", &[]);
    finds(&format!("{sheet}  link wire wire\n"), &["unreadable-line"]);
    finds(&chain("wire 1 mm, AR 5", "claim AR 5 for mian\n"), &["unknown-kind"]);
    finds(&chain("wire 1 mm, AR 5", "claim AR 5 for main\n"), &[]);
    // Two names for one kind are one finding, not two.
    let misspelled = "weave \"x\"\nring a main\nring b acent\nrepeat n\n  b[n] down a[n], a[n+1]\nends\n  drop b[last]\nrings\n  main AR 5\n  accent AR 4\n";
    finds(misspelled, &["unknown-kind"]);
}

#[test]
fn materials() {
    for (words, help) in [
        ("steel", "write one of galvanised steel, mild steel, stainless steel, stainless steel 316"),
        ("teal", "a colour goes in quotes: \"teal\""),
        ("niobum", "write `niobium`"),
    ] {
        let (names, shown) = found(&chain(&format!("wire 1 mm, inner 5 mm, {words}"), ""));
        assert_eq!(names, ["unknown-material"], "{shown}");
        assert!(shown.contains(help), "{shown}");
    }
}

#[test]
fn claims() {
    let all = "wire 1.6 mm, inner 9.5 mm, copper";
    for (rest, rules) in [
        (
            "make\n  repeats 20\nclaim 39 rings\nclaim 20 closed rings\nclaim 19 Open rings\nclaim 20 a rings\nclaim 39 main rings\n",
            &[][..],
        ),
        ("make\n  repeats 20\nclaim 40 rings\nclaim 21 a rings\nclaim 40 main rings\n", &["claim-rings"; 3]),
        // Nothing says how large the piece is: nothing to check, but a word must name something.
        ("claim 40 rings\nclaim weight 3 g\n", &[]),
        ("claim 40 mian rings\n", &["claim-rings"]),
        ("make\n  repeats 20\nclaim weight 24.5 g\nclaim weight 25 g\nclaim weight 24.50 g\n", &[]),
        ("make\n  repeats 20\nclaim weight 24.4 g\n", &["claim-weight"]),
        ("claim AR 6\nclaim AR 5.9\nclaim AR 5.94\nclaim AR 5.938 for main\n", &[]),
        ("make\n  measured 10 repeats 47 mm\nclaim pitch 4.7 mm\nclaim length 100 mm\n", &[]),
        (
            "make\n  measured 10 repeats 47 mm\n  repeats 40\nclaim length 7 1/2 in\nclaim pitch 4.71 mm\n",
            &["claim-length"],
        ),
        ("claim AR 5.93\n", &["claim-aspect-ratio"]),
        ("claim AR 5.94 mm\n", &["aspect-ratio-unit"]),
    ] {
        finds(&chain(all, rest), rules);
    }
    finds(&chain("wire 1.6 mm, inner 9.5 mm", "make\n  repeats 20\nclaim weight 3 g\n"), &[]);
}

/// `accent rings` are the rings of that kind; where no kind is called so, all accents.
#[test]
fn accent_rings() {
    let bracelet = example("tideline-bracelet");
    assert!(!found(&format!("{bracelet}claim 10 accent rings\nclaim 10 c rings\n")).0.contains(&"claim-rings"));
    let renamed = bracelet.replace("ring c accent", "ring c violet").replace("  accent  wire", "  violet  wire");
    assert!(!found(&format!("{renamed}claim 10 accent rings\n")).0.contains(&"claim-rings"));
    assert!(found(&format!("{renamed}claim 11 accent rings\n")).0.contains(&"claim-rings"));
}
