//! What must hold for any weave.

use crate::common::compile_alone;
use byrnie::count::Counts;
use byrnie::measure::{Twice, length_mm, millimetres, twice};
use byrnie::text::Layout;
use proptest::prelude::*;
use serde_json::json;

fn sizes(wire: &str, inner: &str) -> (byrnie::notation::Size, byrnie::notation::Size) {
    let weave = compile_alone(&format!("ring a\nrings\n  main wire {wire}, inner {inner}\n"));
    let kind = &weave.pattern().kinds[0];
    (kind.wire.clone().unwrap().0, kind.inner.clone().unwrap().0)
}

prop_compose! {
    /// A chain of two families and an accent, with kinds, states, colours and ends at random.
    fn chain()(
        repeats in 1_u32..60, every in 1_u32..7, from in 1_u32..9, pieces in 1_u32..4,
        kinds in prop::collection::vec(prop::sample::select(vec!["main", "small", "big"]), 3),
        states in prop::collection::vec(prop::sample::select(vec!["closed", "open"]), 3),
        colours in prop::collection::vec(prop::sample::select(vec!["red", "blue", "teal"]), 1..5),
        coloured in prop::sample::subsequence(vec!["a", "b", "c"], 0..=3),
        drop in prop::sample::subsequence(vec!["a[1]", "b[last]", "c[2]"], 0..=3),
    ) -> String {
        let lines = |of: &mut dyn Iterator<Item = String>| of.map(|l| l + "\n").collect::<String>();
        let colours = colours.join(", ");
        let families = ["a", "b", "c"].iter().zip(kinds).zip(states);
        [
            lines(&mut families.map(|((name, kind), state)| format!("ring {name} {kind}, {state}"))),
            "repeat n\n  b[n] down a[n], a[n+1]\n".to_owned(),
            format!("accent every {every}, from {from}\n  c[n] down a[n], b[n]\nends\n"),
            lines(&mut drop.iter().map(|ring| format!("  drop {ring}"))),
            "rings\n  main wire 1 mm, inner 6 mm, copper\n  small wire 1 mm, AR 5, brass, \"gold\"\ncolours\n".to_owned(),
            lines(&mut coloured.iter().map(|family| format!("  {family}: {colours}"))),
            format!("make\n  repeats {repeats}, pieces {pieces}\n"),
        ]
        .concat()
    }
}

proptest! {
    #[test]
    fn counts_add_up(text in chain()) {
        // Without the length, for which each would be settled.
        let weave = compile_alone(&text);
        let piece = weave.piece(weave.size()).unwrap();
        let c = Counts::without_length(&weave, &piece);
        let rings = c.rings();
        prop_assert_eq!(rings, c.families.iter().map(byrnie::count::FamilyCount::rings).sum::<u32>());
        prop_assert_eq!(rings, c.kinds.iter().map(byrnie::count::KindCount::rings).sum::<u32>());
        prop_assert_eq!(rings, c.closed() + c.open());
        prop_assert_eq!(c.closed(), c.kinds.iter().map(|k| k.closed).sum::<u32>());
        prop_assert_eq!(rings, c.colours.iter().map(|k| k.rings).sum::<u32>());
        for kind in &c.kinds {
            let coloured = c.colours.iter().filter(|k| k.kind == kind.name).map(|k| k.rings).sum::<u32>();
            prop_assert_eq!(kind.rings(), coloured);
        }
        prop_assert!(c.families.iter().all(|f| f.end_rings.unwrap() <= f.rings()));
        prop_assert_eq!(json!(c.json())["total"]["rings"].as_u64(), Some(u64::from(rings) * u64::from(c.pieces)));
        prop_assert_eq!(c.table(Layout::Plain), Counts::without_length(&weave, &piece).table(Layout::Plain));
    }

    /// A wire or a hole is the same in every unit it can be written in.
    #[test]
    fn units_go_round(over in 1_u32..200, under in 1_u32..65, gauge in 0_u32..=40) {
        let inches = f64::from(over) / f64::from(under);
        let (awg, fraction) = sizes(&format!("{gauge} awg"), &format!("{over}/{under} in"));
        prop_assert!((length_mm(&fraction).unwrap() - inches * 25.4).abs() < 1e-9);
        let (wire, inner) = sizes(&format!("{:.3} mm", millimetres(&awg).unwrap()), &format!("{:.3} mm", inches * 25.4));
        for (one, other) in [(&awg, &wire), (&fraction, &inner)] {
            prop_assert_eq!(twice(one, other), Twice::Agree);
            prop_assert_eq!(twice(other, one), Twice::Agree);
        }
    }

    /// Any text of sizes can be counted and checked.
    #[test]
    fn odd_sizes_do_no_harm(wire in "[0-9]{1,7}(\\.[0-9]{1,7}|/[0-9]{1,4})?", inner in "[0-9]{1,7}", unit in "mm|in|awg|swg|gauge|ga", gauges in "(gauges (awg|swg)\n)?", pieces in 0_u32..9_999_999) {
        let text = format!("base \"European 4-in-1 sheet\"\n{gauges}rings\n  main wire {wire} {unit} ({inner} swg), inner {inner} {unit} ({wire} mm), AR {inner}, iron, measured wire {inner} {unit}, measured inner {wire} {unit}\nmake\n  rows 2, columns 2, pieces {pieces}\n  measured 0 repeats {wire} mm\nclaim weight 1 g\nclaim AR {inner}\n");
        let weave = compile_alone(&text);
        byrnie::lint::check(&weave);
        // Nothing is settled a second time for the count.
        let c = Counts::without_length(&weave, &weave.piece(weave.size()).unwrap());
        prop_assert!(!c.table(Layout::Plain).contains("NaN") && !json!(c.json()).to_string().is_empty());
    }
}
