//! What a maker measured, beside the sizes rings are sold by.

use super::rules::{chain, finds, found};
use crate::common::{compile, counts, kept};
use byrnie::measure::ring_grams;
use byrnie::pattern::{KindSize, Repeats, sizes};
use byrnie::steps::Instructions;
use byrnie::text::Source;
use byrnie::tutorial::Tutorial;
use byrnie::{Weave, report};
use proptest::prelude::*;
use serde_json::json;

const COPPER: &str = "wire 1.6 mm, inner 9.5 mm, copper, measured wire 1.58 mm, measured inner 9.71 mm";

fn size(kind: &str) -> KindSize {
    sizes(compile(&chain(kind, "")).pattern()).remove(0)
}

fn near(found: Option<f64>, right: f64) {
    assert!(found.is_some_and(|f| (f - right).abs() < 1e-9), "{found:?} {right}");
}

#[test]
fn each_measured_size_counts_on_its_own() {
    for (kind, nominal, counts) in [
        ("wire 1.6 mm, inner 9.5 mm", [1.6, 9.5], [1.6, 9.5]),
        (COPPER, [1.6, 9.5], [1.58, 9.71]),
        ("wire 1.6 mm, inner 9.5 mm, measured inner 9.71 mm", [1.6, 9.5], [1.6, 9.71]),
        ("measured wire 1.58 mm, wire 1.6 mm, inner 9.5 mm", [1.6, 9.5], [1.58, 9.5]),
        ("wire 1 mm, AR 5, measured wire 0.98 mm", [1.0, 5.0], [0.98, 5.0]),
        ("inner 3/8 in, wire 18 swg, measured inner 0.38 in", [1.2192, 9.525], [1.2192, 9.652]),
    ] {
        let size = size(kind);
        near(size.nominal_wire_mm, nominal[0]);
        near(size.nominal_inner_mm, nominal[1]);
        near(size.wire_mm, counts[0]);
        near(size.inner_mm, counts[1]);
        near(size.aspect_ratio, counts[1] / counts[0]);
        near(size.nominal_aspect_ratio, nominal[1] / nominal[0]);
        let apart = nominal.iter().zip(counts).any(|(n, c): (&f64, f64)| (n - c).abs() > 1e-9);
        assert_eq!(size.sold_as().is_some(), apart, "{kind}");
    }
    // With a ratio alone what is measured gives the rest; measured sizes alone are sizes, and nothing nominal is known.
    let by_ratio = size("AR 5, measured wire 1.2 mm");
    near(by_ratio.inner_mm, 6.0);
    assert_eq!((by_ratio.nominal_wire_mm, by_ratio.nominal_inner_mm), (None, None));
    near(size("AR 5, measured inner 6 mm").wire_mm, 1.2);
    let alone = size("measured wire 1 mm, measured inner 6 mm");
    near(alone.aspect_ratio, 6.0);
    assert_eq!(alone.nominal_aspect_ratio, None);
}

/// A simple chain drawn out is as long as its holes, and a ring weighs ρ·π²·(ID + w)·w²/4 (the torus; check-values): both of
/// what was measured.
#[test]
fn length_and_weight_are_of_what_was_measured() {
    let counts = counts(&chain(COPPER, "make\n  repeats 20\n"));
    let length = counts.length.unwrap();
    assert!((length.pitch_mm - 2.0 * 9.71).abs() < 1e-4, "{length:?}");
    near(counts.kinds[0].ring_grams, ring_grams(8.96, 1.58, 9.71));
    let kind = &json!(counts.json())["kinds"][0];
    for (key, value) in [("wire_mm", 1.58), ("inner_mm", 9.71), ("nominal_wire_mm", 1.6), ("nominal_inner_mm", 9.5)] {
        near(kind[key].as_f64(), value);
    }
    near(kind["aspect_ratio"].as_f64(), 6.1456);
    insta::assert_snapshot!("measured_sizes", counts.table(byrnie::text::Layout::Plain));
}

#[test]
fn tables_show_both() {
    for (kind, shown) in [
        ("wire 18 swg, AR 5, measured wire 1.2 mm", "18 swg (1.22 mm, measured 1.2 mm)  6.10 mm "),
        ("wire 1 mm, inner 1/4 in, measured inner 0.26 in", "1 mm  1/4 in (6.35 mm, measured 6.60 mm) "),
        ("wire 1 mm, measured inner 6.6 mm", "1 mm  measured 6.6 mm "),
        ("AR 5, measured wire 1.2 mm", "measured 1.2 mm  6.00 mm "),
    ] {
        let text = chain(kind, "make\n  repeats 2\n");
        let weave = compile(&text);
        let table = byrnie::count::Counts::without_length(&weave, &weave.piece(weave.size()).unwrap())
            .table(byrnie::text::Layout::Plain);
        assert!(table.contains(&format!("main  {shown}")), "{table}");
    }
}

#[test]
fn what_is_written_is_checked_among_the_nominal_sizes() {
    for (kind, rules) in [
        (COPPER, &[][..]),
        // The ratio is of the nominal sizes, and so is what stands in brackets.
        ("wire 1.6 mm, inner 9.5 mm, AR 5.94, measured inner 9.71 mm", &[]),
        ("wire 1.6 mm, inner 9.5 mm, AR 6.07, measured inner 9.71 mm", &["aspect-ratio-disagrees"]),
        ("wire 18 awg (1.2 mm), inner 6.5 mm, measured wire 1.1 mm", &["wrong-gauge-system"]),
        ("wire 6.5 mm, inner 1.2 mm, measured wire 1.2 mm", &["wire-and-inner-swapped", "measured-far-off"]),
        // Ten percent, and twenty for a hole that is larger.
        ("wire 1 mm, inner 10 mm, measured wire 1.1 mm, measured inner 12 mm", &[]),
        ("wire 1 mm, inner 10 mm, measured wire 0.9 mm, measured inner 9 mm", &[]),
        ("wire 1 mm, inner 10 mm, measured wire 1.11 mm, measured inner 12.1 mm", &["measured-far-off"; 2]),
        ("wire 1 mm, inner 10 mm, measured wire 0.89 mm, measured inner 8.9 mm", &["measured-far-off"; 2]),
        ("wire 1 mm, AR 10, measured inner 8.9 mm", &["measured-far-off"]),
        ("wire 1 mm, measured inner 8.9 mm", &[]),
        // Callipers read mm and inches.
        ("wire 18 swg, AR 5, measured wire 18 swg", &["no-such-size"]),
        ("wire 18 swg, AR 5, measured wire 18 gauge", &["no-such-size"]),
        ("wire 18 swg, AR 5, measured inner 12 awg", &["no-such-size"]),
        ("wire 1 mm, AR 5, measured inner 0 mm", &["no-such-size"]),
        ("wire 1 mm, AR 5, measured wire 1 mm, measured wire 1 mm", &["said-twice"]),
        // Nominal rings close here, those that were measured do not.
        ("wire 1 mm, inner 2.1 mm, measured wire 1.08 mm", &["over-full-hole"]),
    ] {
        finds(&chain(kind, ""), rules);
    }
    // 39 inner diameters as measured, and the wire of both ends: 39 · 9.71 + 2 · 1.58 = 381.85.
    let fits = "make\n  repeats 20\nclaim AR 6.15\nclaim length 381.9 mm\n";
    finds(&chain(COPPER, fits), &[]);
    finds(&chain(COPPER, "claim AR 5.94\n"), &["claim-aspect-ratio"]);
}

#[test]
fn every_message_shows_both_numbers() {
    let mut shown = String::new();
    for (kind, rest) in [
        ("wire 1.6 mm, inner 9.5 mm, measured wire 1.85 mm, measured inner 12 mm", ""),
        ("wire 16 swg, AR 5.9, measured wire 1.26 mm, measured inner 8.1 mm", ""),
        (COPPER, "claim AR 5.94\n"),
        ("wire 1 mm, AR 5, measured wire 18 gauge", ""),
        ("wire 1 mm, inner 2.1 mm, measured wire 1.08 mm", ""),
        ("wire 1 mm, inner 2.1 mm, measured inner 2.02 mm", ""),
    ] {
        shown += &format!("{kind}\n{rest}{}\n", found(&chain(kind, rest)).1);
    }
    insta::assert_snapshot!("measured_messages", shown);
}

/// Other sizes are other rings: what was measured of the first does not hold of them.
#[test]
fn other_sizes_were_not_measured() {
    let weave = compile(&chain(COPPER, ""));
    let other = sizes(weave.with_sizes(&[("main", (2.0, 12.0))]).pattern()).remove(0);
    near(other.wire_mm, 2.0);
    near(other.inner_mm, 12.0);
    near(other.aspect_ratio, 6.0);
}

fn told(weave: &Weave, text: &str) -> (Vec<&'static str>, String) {
    let found = Tutorial::of(Source::new("steps.md", text), weave);
    (found.findings.iter().map(|f| f.rule).collect(), report::plain(&found.sources, &found.findings))
}

/// The instructions say what to buy and what was measured, and nothing in them is a mistake.
#[test]
fn instructions_tell_what_to_buy() {
    for (kind, line) in [
        (
            COPPER,
            "3 rings a, closed, wire 1.6 mm (measured 1.58 mm), inner diameter 9.5 mm (measured 9.71 mm), AR 5.94 (measured 6.15), copper",
        ),
        (
            "wire 18 swg, inner 1/4 in, measured wire 0.05 in",
            "3 rings a, closed, wire 18 swg (1.22 mm, measured 1.27 mm), inner diameter 1/4 in (6.35 mm), AR 5.21 (measured 5.00)",
        ),
        ("wire 1 mm, measured inner 6.6 mm", "3 rings a, closed, wire 1 mm, inner diameter measured 6.6 mm, AR 6.60"),
        ("AR 5, measured wire 1.2 mm", "3 rings a, closed, wire measured 1.2 mm, inner diameter 6.00 mm, AR 5.00"),
    ] {
        let weave = kept(&chain(kind, "make\n  repeats 3\n"));
        let steps = Instructions::of(weave, weave.settled().ok(), Repeats([3, 1])).unwrap();
        assert!(steps.needs.contains(&line.to_owned()), "{:?}", steps.needs);
        let (rules, shown) = told(weave, &steps.markdown(|_| None));
        assert!(rules.is_empty(), "{shown}");
    }
}

/// A text may tell the sizes rings are sold by, or those that were measured, and no others.
#[test]
fn a_tutorial_may_tell_either() {
    let weave = kept(&chain(COPPER, "make\n  repeats 3\n"));
    for (line, rules) in [
        ("- 3 rings a, closed, wire 1.6 mm, inner diameter 9.5 mm", &[][..]),
        ("- 3 rings a, closed, wire 1.58 mm, inner diameter 9.71 mm, AR 6.15", &[]),
        ("- 3 rings a, closed, inner diameter 9.2 mm", &["wrong-size"]),
        ("- 3 rings a, closed, AR 5.94", &[]),
        ("- 3 rings a, closed, AR 6.15", &[]),
        ("- 3 rings a, closed, AR 6.5", &["claim-aspect-ratio"]),
        ("These rings have an AR of 5.9.", &[]),
        ("These rings have an AR of 6.1.", &[]),
        ("These rings have an AR of 5.8.", &["claim-aspect-ratio"]),
        ("The 9.71 mm wire is easy to see.", &["wire-and-inner-swapped"]),
        ("The 1.6 mm inner diameter is easy to see.", &["wire-and-inner-swapped"]),
    ] {
        let (found, shown) = told(weave, &format!("# Harbour chain\n\n{line}\n"));
        assert_eq!(found, rules, "{line}\n{shown}");
    }
}

proptest! {
    /// What counts is what was measured, or else what is nominal; the nominal sizes do not feel what was measured.
    #[test]
    fn measured_or_else_nominal(wire in 50_u32..300, ratio in 20_u32..120, other in 50_u32..300, hole in 100_u32..3000, both in 0_u8..4, by_ratio in any::<bool>()) {
        let mm = |hundredths: u32| format!("{}.{:02} mm", hundredths / 100, hundredths % 100);
        let nominal = if by_ratio { format!("wire {}, AR {}.{}", mm(wire), ratio / 10, ratio % 10) } else { format!("wire {}, inner {}", mm(wire), mm(wire * ratio / 10)) };
        let measured_wire = (both & 1 > 0).then(|| mm(other));
        let measured_inner = (both & 2 > 0).then(|| mm(hole));
        let mut kind = nominal.clone();
        kind += &measured_wire.iter().map(|w| format!(", measured wire {w}")).collect::<String>();
        kind += &measured_inner.iter().map(|i| format!(", measured inner {i}")).collect::<String>();
        let (sold, counts) = (size(&nominal), size(&kind));
        prop_assert_eq!(counts.nominal_wire_mm, sold.wire_mm);
        prop_assert_eq!(counts.nominal_inner_mm, sold.inner_mm);
        prop_assert_eq!(counts.nominal_aspect_ratio, sold.aspect_ratio);
        let hundredths = |n: u32| f64::from(n) / 100.0;
        near(counts.wire_mm, measured_wire.map_or(sold.wire_mm.unwrap(), |_| hundredths(other)));
        near(counts.inner_mm, measured_inner.map_or(sold.inner_mm.unwrap(), |_| hundredths(hole)));
        near(counts.aspect_ratio, counts.inner_mm.unwrap() / counts.wire_mm.unwrap());
        if both == 0 {
            prop_assert_eq!(&counts, &sold);
        }
    }
}
