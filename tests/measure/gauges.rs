//! Bare gauges, and the system a file gives them.

use super::rules::{chain, finds, found};
use crate::common::{compile, counts};
use byrnie::measure::millimetres;
use byrnie::notation::{Unit, read, tidy};
use byrnie::pattern::{Bases, Found, KindSize, sizes};
use byrnie::text::Source;
use byrnie::{Library, Weave, lint, report};
use proptest::prelude::*;

/// AWG by ASTM B258, SWG by BS 3737:1964 (check-values): 18 is 1.02369 or 1.2192 mm, 16 is 1.29085 or 1.6256 mm.
#[test]
fn a_bare_gauge_by_itself_and_beside_a_size() {
    for (wire, awg, swg, none) in [
        ("18 gauge", &[][..], &[][..], &["gauge-without-system"][..]),
        ("18 ga", &[], &[], &["gauge-without-system"]),
        ("18 gauge (1.02 mm)", &[], &["wrong-gauge-system"], &["gauge-without-system"]),
        ("18 GAUGE (1.22 mm)", &["wrong-gauge-system"], &[], &["gauge-without-system"]),
        ("1.2 mm (18 ga)", &["wrong-gauge-system"], &[], &["gauge-without-system"]),
        ("18 gauge (1.1 mm)", &["gauge-disagrees"], &["gauge-disagrees"], &["gauge-without-system"]),
        ("16 gauge (16 swg)", &["gauge-disagrees"], &[], &["gauge-without-system"]),
        ("18 gauge (18 ga)", &[], &[], &["gauge-without-system", "gauge-without-system"]),
        // What is no gauge in either system is no size.
        ("41 gauge", &["no-such-size"], &["no-such-size"], &["no-such-size"]),
        ("1/2 ga", &["no-such-size"], &["no-such-size"], &["no-such-size"]),
    ] {
        let line = chain(&format!("wire {wire}, AR 5"), "");
        finds(&format!("gauges awg\n{line}"), awg);
        finds(&format!("{line}gauges swg\n"), swg);
        finds(&line, none);
    }
    // A gauge measures wire only, whatever its system.
    for head in ["", "gauges swg\n"] {
        finds(&format!("{head}{}", chain("wire 1 mm, inner 18 gauge", "make\n  length 18 ga\n")), &["no-such-size"; 2]);
        finds(&format!("{head}{}", chain("wire 1 mm, AR 5 ga", "")), &["aspect-ratio-unit"]);
    }
}

#[test]
fn every_message_names_the_wire_it_really_is() {
    let mut shown = String::new();
    for (head, kind) in [
        ("", "wire 18 gauge, AR 5"),
        ("", "wire 18 ga (1.02 mm), AR 5"),
        ("", "wire 1.22 mm (18 gauge), AR 5"),
        ("", "wire 18 gauge (1.5 mm), AR 5"),
        ("", "wire 40 gauge (0.1 mm), AR 5"),
        ("", "wire 99 gauge, AR 5"),
        ("gauges swg\n", "wire 18 gauge (1.02 mm), AR 5"),
        ("gauges awg\n", "wire 18 ga (1.5 mm), AR 5"),
        ("gauges awg\n", "wire 18 ga, inner 12 ga"),
        ("gauges awg\ngauges swg\n", "wire 18 gauge (1.02 mm), AR 5"),
    ] {
        let text = format!("{head}{}", chain(kind, ""));
        shown += &format!("{head}{kind}\n{}\n", found(&text).1);
    }
    insta::assert_snapshot!("bare_gauges", shown);
}

/// What the offered change makes is the wire in brackets.
#[test]
fn the_system_that_agrees_is_offered() {
    for (wire, fixed) in [
        ("18 gauge (1.22 mm)", "18 swg (1.22 mm)"),
        ("18 ga (1.02 mm)", "18 awg (1.02 mm)"),
        ("1.63 mm (16ga)", "1.63 mm (16swg)"),
    ] {
        let text = chain(&format!("wire {wire}, AR 5"), "");
        let findings = lint::check(&compile(&text));
        let fix = findings[0].fix.as_ref().unwrap();
        // Which of file and gauge is to name the system is the maker's choice.
        assert!(!fix.safe);
        let mended = fix.apply(0, &text);
        assert_eq!(mended, chain(&format!("wire {fixed}, AR 5"), ""));
        assert_eq!(lint::check(&compile(&mended)), []);
    }
}

#[test]
fn tables_name_the_system() {
    let text = chain("wire 18 gauge, inner 6.5 mm, copper", "gauges swg\nmake\n  repeats 20\n");
    let table = counts(&text).table(byrnie::text::Layout::Plain);
    assert!(table.contains("main  18 swg (1.22 mm)  6.5 mm"), "{table}");
}

struct Shop;

impl Bases for Shop {
    fn find(&self, name: &str) -> Found {
        match name {
            "shop chain" => Found::Text(Source::new(
                "shop chain.weave",
                "base \"simple chain\"\ngauges awg\nring c small\naccent every 2, from 1\n  c[n] down a[n]\nrings\n  small wire 18 gauge, inner 5 mm\n",
            )),
            _ => Library.find(name),
        }
    }
}

/// The line holds for its own file: a base has its own, or none.
#[test]
fn a_base_has_its_own_system() {
    let wires = |head: &str| {
        let text = format!("base \"shop chain\"\n{head}rings\n  main wire 18 gauge, inner 9 mm\n");
        let weave = Weave::compile(Source::new("own.weave", text), &Shop);
        let wires: Vec<_> = weave.pattern().kinds.iter().map(|k| k.wire.as_ref().unwrap().0.unit).collect();
        let found: Vec<_> = lint::check_up_to(&weave, lint::Needs::Text).iter().map(|f| f.rule).collect();
        (wires, found)
    };
    assert_eq!(wires("gauges swg\n"), (vec![Unit::Awg, Unit::Swg], vec![]));
    assert_eq!(wires(""), (vec![Unit::Awg, Unit::Gauge], vec!["gauge-without-system"]));
}

#[test]
fn said_twice_the_first_counts() {
    let text = format!("gauges awg\ngauges swg\n{}", chain("wire 18 gauge, AR 5", ""));
    finds(&text, &["said-twice"]);
    let wire = sizes(compile(&text).pattern())[0].wire_mm.unwrap();
    assert!((wire - 1.02369).abs() < 1e-5);
}

proptest! {
    /// A bare gauge is in all things the gauge with its system behind it; tidied it stays bare, wherever the line stands.
    #[test]
    fn bare_is_as_named(n in 0_u32..45, swg in any::<bool>(), short in any::<bool>(), place in 0_usize..6, inner in 1_u32..20, brackets in prop::option::of(1_u32..300)) {
        let (system, word) = (if swg { "swg" } else { "awg" }, if short { "ga" } else { "gauge" });
        let brackets = brackets.map(|b| format!(" ({}.{:02} mm)", b / 100, b % 100)).unwrap_or_default();
        let text = |unit: &str| chain(&format!("wire {n} {unit}{brackets}, inner {inner} mm, copper"), "make\n  repeats 9\n");
        let named = text(system);
        let bare = text(word);
        let mut lines: Vec<&str> = bare.lines().collect();
        let line = format!("gauges {system}");
        lines.insert(place.min(lines.len()), &line);
        let bare = lines.join("\n") + "\n";
        let size = |text: &str| -> KindSize { sizes(compile(text).pattern()).remove(0) };
        prop_assert_eq!(size(&bare), size(&named));
        let found = |text: &str| {
            let findings = lint::check_up_to(&compile(text), lint::Needs::Graph);
            findings.iter().map(|f| (f.rule, f.severity)).collect::<Vec<_>>()
        };
        prop_assert_eq!(found(&bare), found(&named));
        let once = tidy(&read(0, &bare).0);
        prop_assert!(once.contains(&format!("gauges {system}\n")) && once.contains(&format!("wire {n} gauge")), "{}", once);
        prop_assert_eq!(tidy(&read(0, &once).0), once.clone());
        prop_assert_eq!(size(&once), size(&named));
        let weave = compile(&once);
        prop_assert!(!report::plain(weave.sources(), &lint::check_up_to(&weave, lint::Needs::Text)).contains("gauge-without-system"));
        let wire = &weave.pattern().kinds[0].wire.as_ref().unwrap().0;
        prop_assert_eq!(millimetres(wire).is_some(), n <= 40);
    }
}
