//! Kits and classes: bags of their own, what they come to, and the same piece in several gauges.

use crate::common::{compile, example, example_file, kept, schema_can_fail, valid_json};
use byrnie::count::{Class, Counts, KindCount, gauges, gauges_table, wants};
use byrnie::settle::{Seat, Word};
use byrnie::shelf::{CountJson, Shelf, ShelfRing, needs, shopping};
use byrnie::text::Layout;
use byrnie::{Weave, lint, report};

fn found(text: &str) -> (Vec<&'static str>, String) {
    let weave = compile(text);
    let findings = lint::check(&weave);
    (findings.iter().map(|f| f.rule).collect(), report::plain(weave.sources(), &findings))
}

/// The whole of it, as `byrnie count --json --shelf` prints it.
fn json(weave: &Weave, shelf: Option<&Shelf>) -> serde_json::Value {
    let (class, side_by_side) = (Class::of(weave).unwrap(), gauges(weave).unwrap());
    let wants = wants(&class);
    let needs = shelf.map(|shelf| needs(&wants, shelf));
    let printed = CountJson::of(&class, &side_by_side, &wants, needs.as_deref());
    let value = valid_json(&printed);
    let pointers = ["/total/rings", "/bags/0/piece/rings", "/kinds/0/wire_mm", "/gauges/0/lies", "/shopping/0/short"];
    pointers.iter().filter(|p| value.pointer(p).is_some()).for_each(|p| schema_can_fail(&printed, p));
    value
}

/// The class of eight by hand. A repeat of half Persian 3-in-1 has two rings, one closed and one open.
///
/// Lengths of a repeat are computed, in inner diameters 0.82 to 0.83; n repeats reach from hole to hole so much farther than
/// whole repeats as the end rings do, some 4 mm. (190 − 14) mm are 30 repeats of 1.6 mm × 7 mm, 40 of 1.2 mm × 5.3 mm, and
/// (205 − 14) mm are 26 of 2 mm × 8.8 mm: 60, 80 and 52 rings. With 5 %: 63, 84, 54.6 → 55.
/// Tables of 3, 3 and 2: 3 · 60 + 3 · 80 + 2 · 52 = 524 rings, half of them closed; packed 3 · 63 + 3 · 84 + 2 · 55 = 551.
/// A ring weighs ρ π² (inner + wire) wire² / 4: copper 8.96 · π² · 8.6 · 2.56 / 4 = 486.7 mg, stainless steel
/// 7.965 · π² · 6.5 · 1.44 / 4 = 184.0 mg, mild steel 7.85 · π² · 10.8 · 4 / 4 = 836.7 mg. 180 · 0.4867 + 240 · 0.1840 +
/// 104 · 0.8367 = 87.61 + 44.15 + 87.02 = 218.8 g.
#[test]
fn a_class_of_eight_in_three_gauges() {
    let weave = kept(example("larkspur-lane-three-gauges"));
    let class = Class::of(weave).unwrap();
    let each: Vec<_> = class.bags.iter().map(|b| (b.counts.pieces, b.counts.size.0[0], b.counts.rings())).collect();
    assert_eq!(each, [(3, 30, 60), (3, 40, 80), (2, 26, 52)]);
    assert_eq!((class.pieces(), class.sum(Counts::rings), class.sum(Counts::closed)), (8, 524, 262));
    assert!((class.grams().unwrap() - 218.8).abs() < 0.05, "{:?}", class.grams());
    let packed: Vec<u64> = wants(&class).iter().map(|w| w.rings).collect();
    assert_eq!(packed, [189, 252, 110]);
    for (bag, asked) in class.bags.iter().zip([190.0, 190.0, 205.0]) {
        let length = bag.counts.length.unwrap();
        assert!((length.length_mm - asked).abs() <= length.pitch_mm / 2.0 + 1e-6, "{length:?}");
    }
    let side_by_side = gauges(weave).unwrap();
    assert_eq!(side_by_side.iter().map(|g| g.set.as_deref()).collect::<Vec<_>>(), [None, Some("fine"), Some("stout")]);
    let shelf = Shelf::read(example_file("larkspur-lane-shelf.csv").as_bytes()).unwrap();
    let needs = needs(&wants(&class), &shelf);
    let shown = |layout| {
        format!(
            "{}\n{}\n{}",
            class.table(layout),
            gauges_table(&side_by_side, layout),
            shopping(&class, &needs, layout)
        )
    };
    insta::assert_snapshot!("three_gauges", shown(Layout::Plain));
    insta::assert_snapshot!("three_gauges_markdown", shown(Layout::Markdown));
    let json = json(weave, Some(&shelf));
    insta::assert_json_snapshot!("three_gauges_json", json);
}

/// What a bag does not say is as the lines without a name have it; of two words for one thing its own counts alone; and a set
/// of rings says what it changes.
#[test]
fn what_a_bag_does_not_say() {
    let text = "weave \"Harbour kits\"\nbase \"simple chain\"\nrings\n  main wire 1.6 mm, inner 6 mm, copper, \"bright\"\n\
                rings \"fine\"\n  main wire 1.2 mm\nrings \"narrow\"\n  main AR 4\nrings \"other\"\n  main brass\n\
                make\n  repeats 12, clasp 10 mm, pieces 2, spares 10 %\n  measured 10 repeats 118 mm\n\
                \"plain\"\n  \"long\" length 200 mm, pieces 1\n  \"fine\" repeats 20, rings \"fine\", spares 0 %\n\
                \"narrow\" rings \"narrow\"\n  \"other\", rings \"other\"\n";
    let weave = compile(text);
    assert_eq!(found(text).0, [] as [&str; 0], "{}", found(text).1);
    let class = Class::of(&weave).unwrap();
    let sizes = |n: usize| {
        let kind = &class.bags[n].counts.kinds[0];
        let size = kind.size.as_ref().unwrap();
        (size.wire_mm.unwrap(), size.inner_mm.unwrap(), kind.material.clone().unwrap())
    };
    assert_eq!(sizes(0), (1.6, 6.0, "copper".to_owned()));
    assert_eq!(sizes(2), (1.2, 6.0, "copper".to_owned()));
    assert_eq!(sizes(3), (1.6, 6.4, "copper".to_owned()));
    assert_eq!(sizes(4), (1.6, 6.0, "brass".to_owned()));
    // 11.8 mm a repeat as measured, and half of one left out at the end: (200 − 10 + 5.9) / 11.8 = 16.6.
    let repeats: Vec<u32> = class.bags.iter().map(|b| b.counts.size.0[0]).collect();
    assert_eq!(repeats, [12, 17, 20, 12, 12]);
    let pieces: Vec<u32> = class.bags.iter().map(|b| b.counts.pieces).collect();
    assert_eq!(pieces, [2, 1, 2, 2, 2]);
    // The sample was of other rings.
    let measured: Vec<bool> = class.bags.iter().map(|b| b.counts.length.unwrap().measured.is_some()).collect();
    assert_eq!(measured, [true, true, false, false, false]);
    assert_eq!(class.bags[2].counts.spares, Some(0.0));
    // The same copper rings of two bags are sold as one: 23 rings in each of 2, 33 in one, with 10 % 26 and 37.
    let wanted: Vec<(u64, Vec<u32>)> = wants(&class).into_iter().map(|w| (w.rings, w.in_a_piece)).collect();
    assert_eq!(wanted[0], (2 * 26 + 37, vec![23, 33, 0, 0, 0]));
    assert_eq!(wanted.len(), 4);
    // Pictures, steps and claims are of the piece the lines without a name describe.
    assert_eq!(weave.size_asked().unwrap().0[0], 12);
    let first = compile("weave \"x\"\nbase \"simple chain\"\nmake\n  pieces 3\n  \"a\" repeats 9\n  \"b\" repeats 7\n");
    assert_eq!(first.size_asked().unwrap().0[0], 9);
    json(&weave, None);
    json(&first, None);
    json(&compile(example("tideline-bracelet")), None);
}

/// Whatever is false of a bag, of a set of rings or of all that is made is found once, where it stands.
#[test]
fn mistakes_in_bags_and_sets() {
    let text = |sets: &str, make: &str, claims: &str| {
        format!(
            "weave \"Harbour kits\"\nbase \"half Persian 3-in-1\"\nrings\n  main wire 1.6 mm, inner 7 mm, copper\n{sets}make\n  repeats 20, clasp 10 mm\n{make}{claims}"
        )
    };
    let fine = "rings \"fine\"\n  main wire 1.2 mm, inner 5.3 mm\n";
    let bags = "  \"a\" pieces 3\n  \"b\" repeats 24, pieces 2, rings \"fine\"\n";
    for (sets, make, claims, rules) in [
        (
            fine,
            bags,
            "claim 40 rings in \"a\"\nclaim 48 rings in \"b\"\nclaim 216 rings in all\nclaim 108 open rings in all\n",
            &[][..],
        ),
        (fine, bags, "claim 41 rings in \"a\"\n", &["claim-rings"]),
        (fine, bags, "claim 40 rings in \"b\"\n", &["claim-rings"]),
        (fine, bags, "claim 217 rings in all\nclaim 100 closed rings in all\n", &["claim-rings", "claim-rings"]),
        (fine, bags, "claim weight 100 g in all\n", &["claim-weight"]),
        (fine, bags, "claim AR 4.375 in \"a\"\nclaim AR 4.42 in \"b\"\n", &[]),
        (fine, bags, "claim AR 4.375 in \"b\"\n", &["claim-aspect-ratio"]),
        (fine, bags, "claim length 100 mm in \"b\"\n", &["claim-length"]),
        (fine, bags, "claim 40 rings in \"c\"\n", &["unknown-bag"]),
        (fine, "  \"a\" rings \"coarse\"\n", "", &["unknown-rings"]),
        (fine, "  \"a\" pieces 3\n  \"a\" pieces 2\n", "", &["said-twice"]),
        (fine, "  \"a\" pieces 3, pieces 2\n", "", &["said-twice"]),
        (fine, "  \"a\" rings \"fine\", rings \"fine\"\n", "", &["said-twice"]),
        (fine, "  \"a\" pieces 0\n", "", &["nothing-to-make"]),
        // Sets are checked as the rings without a name are, whether a bag takes them or not.
        ("rings \"fine\"\n  main wire 18 awg (1.22 mm), inner 5.3 mm\n", bags, "", &["wrong-gauge-system"]),
        ("rings \"fine\"\n  main wire 1.2 mm, inner 3/16 in (5.3 mm)\n", bags, "", &["inch-disagrees"]),
        ("rings \"fine\"\n  main wire 1.2 mm, inner 4 mm\n", bags, "", &["rings-too-small"]),
        ("rings \"fine\"\n  main wire 1.2 mm, inner 4 mm\n", "", "", &["rings-too-small"]),
        (
            "rings \"fine\"\n  main wire 1.2 mm, inner 5.3 mm\n  main wire 1 mm, inner 4.4 mm\n",
            bags,
            "",
            &["name-used-twice"],
        ),
        ("rings \"fine\"\n  mian wire 1.2 mm, inner 5.3 mm\n", bags, "", &["unused-kind"]),
    ] {
        let text = text(sets, make, claims);
        let (names, shown) = found(&text);
        assert_eq!(names, rules, "{text}\n{shown}");
    }
    let (_, shown) = found(&text(
        "rings \"fine\"\n  main wire 1.2 mm, inner 4 mm\n",
        bags,
        "claim 41 rings in \"a\"\nclaim 217 rings in all\nclaim 40 rings in \"c\"\n",
    ));
    insta::assert_snapshot!("mistakes", shown);
    let weave = compile(&text(fine, bags, "claim lean left in all\nclaim weight 5 g in \"b\"\n"));
    let findings = lint::check(&weave);
    let open = lint::unchecked_claims(&weave, &findings);
    assert_eq!(open.len(), 1, "{open:?} {findings:?}");
}

/// An accent that does not suit the rings of a set sits askew there, and the table says so.
#[test]
fn a_set_whose_accent_sits_askew() {
    let text = "weave \"Tideline in two gauges\"\nbase \"Tideline bracelet\"\nrings \"wide\"\n  accent wire 16 swg, inner 9/32 in, niobium\n";
    let weave = compile(text);
    let (names, shown) = found(text);
    let table = gauges(&weave).unwrap();
    assert_eq!(table[0].sits, [Seat { family: "c".to_owned(), word: Word::Straight }]);
    assert_ne!(table[1].sits, table[0].sits, "{}", gauges_table(&table, Layout::Plain));
    assert!(names.iter().any(|n| ["sits-askew", "sits-loose"].contains(n)), "{shown}");
    assert!(shown.contains("in \"wide\""), "{shown}");
}

/// Long names and letters of all widths keep the columns straight, in a terminal and in Markdown.
#[test]
fn tables_with_long_names() {
    let text = "weave \"Überwurf\"\nbase \"simple chain\"\nrings\n  main wire 1 mm, inner 5 mm, copper\nrings \"hauchdünn | für geübte Hände\"\n  main wire 20 swg, inner 4.5 mm, \"環の色\"\n\
                make\n  repeats 10\n  \"環\" pieces 12\n  \"the long table beside the window\" rings \"hauchdünn | für geübte Hände\"\n";
    let weave = compile(text);
    let class = Class::of(&weave).unwrap();
    let side_by_side = gauges(&weave).unwrap();
    let shown = |layout| format!("{}\n{}", class.table(layout), gauges_table(&side_by_side, layout));
    insta::assert_snapshot!("long_names", shown(Layout::Plain));
    insta::assert_snapshot!("long_names_markdown", shown(Layout::Markdown));
    // Every line of a table in Markdown has as many bars.
    for block in shown(Layout::Markdown).split("\n\n").filter(|b| b.starts_with('|')) {
        let bars: Vec<usize> = block.lines().map(|l| l.replace("\\|", "").matches('|').count()).collect();
        assert!(bars.windows(2).all(|w| w[0] == w[1]), "{block}");
    }
}

/// Numbers add up over bags, kinds, colours and states, and the order of the shelf changes nothing.
#[test]
fn a_class_adds_up() {
    for sizes in [[3_u32, 8, 5], [11, 2, 30]] {
        let [one, two, three] = sizes;
        let text = format!(
            "weave \"x\"\nbase \"Tideline bracelet\"\nrings \"fine\"\n  main wire 1.2 mm, inner 5.3 mm, stainless steel\nmake\n  spares 7 %\n  \"a\" repeats {one}, pieces 2\n  \"b\" repeats {two}, pieces 5, rings \"fine\"\n  \"c\" repeats {three}\n"
        );
        let weave = compile(&text);
        let class = Class::without_length(&weave).unwrap();
        let all = class.sum(Counts::rings);
        assert_eq!(all, class.sum(Counts::open) + class.sum(Counts::closed));
        assert_eq!(all, class.sum(|c| c.kinds.iter().map(KindCount::rings).sum()));
        assert_eq!(all, class.sum(|c| c.colours.iter().map(|k| k.rings).sum()));
        let wanted = wants(&class);
        let in_pieces: u64 = wanted
            .iter()
            .flat_map(|w| w.in_a_piece.iter().zip(&class.bags))
            .map(|(rings, bag)| u64::from(*rings) * u64::from(bag.counts.pieces))
            .sum();
        assert_eq!(all, in_pieces);
        assert!(wanted.iter().map(|w| w.rings).sum::<u64>() >= all);
        let text = example_file("larkspur-lane-shelf.csv");
        let (head, rows) = text.trim_end().split_once('\n').unwrap();
        let turned: Vec<&str> = rows.lines().rev().collect();
        let turned = format!("{head}\n{}\n", turned.join("\n"));
        let list = |text: &str| {
            let shelf = Shelf::read(text.as_bytes()).unwrap();
            let needs: Vec<_> = needs(&wanted, &shelf)
                .iter()
                .map(|n| (n.want.clone(), n.short(), n.on_hand(), n.packs(), n.line.map(ShelfRing::called)))
                .collect();
            needs
        };
        assert_eq!(list(&text), list(&turned));
    }
}

/// Rings measured by callipers are still those of a bag on the shelf that says only what they are sold as; and a set of
/// other rings knows nothing of what was measured of these.
#[test]
fn measured_rings_come_from_the_bag_they_are_sold_in() {
    let text = "weave \"Harbour kits\"\nbase \"simple chain\"\nrings\n  main wire 1.6 mm, inner 9.5 mm, copper, measured inner 9.71 mm\n\
                rings \"wide\"\n  main inner 11 mm\nrings \"same\"\n  main brass\nmake\n  repeats 10\n  \"a\"\n  \"b\" rings \"wide\"\n  \"c\" rings \"same\"\n";
    let weave = compile(text);
    let class = Class::of(&weave).unwrap();
    let inner: Vec<f64> =
        class.bags.iter().map(|b| b.counts.kinds[0].size.as_ref().unwrap().inner_mm.unwrap()).collect();
    assert_eq!(inner, [9.71, 11.0, 9.71]);
    let shelf =
        Shelf::read(b"wire,inner,material,on hand\n1.6 mm,9.5 mm,copper,300\n1.6 mm,9.71 mm,brass,10\n").unwrap();
    let list: Vec<_> = needs(&wants(&class), &shelf).iter().map(|n| (n.want.rings, n.line.map(|l| l.line))).collect();
    assert_eq!(list, [(19, Some(2)), (19, None), (19, Some(3))]);
}

/// Slips of a maker who writes bags and sets for the first time: each line costs one finding, with the way out.
#[test]
fn slips_in_bags_and_sets() {
    let (_, shown) = found(
        "weave \"Harbour kits\"\nbase \"simple chain\"\nrings\n  main  wire 1.6 mm, inner 6 mm, copper\nrings fine\n  main  wire 1.2 mm, inner 4.5 mm\nmake\n  clasp 14 mm\n  small length 170 mm, pieces 3\n\
         \"large\" lenght 200 mm\n  \"mid\" 180 mm\n  'tiny' length 100 mm\nclaim 10 rings in small\nclaim 10 rings for all\n",
    );
    insta::assert_snapshot!("slips", shown);
}

/// A unit has no length, and one set of rings alone has nothing to be set beside; a claim of a sheet by its height waits for
/// the sizes it goes by.
#[test]
fn bags_of_units_and_sheets() {
    let unit = compile(
        "weave \"Harbour rosettes\"\nbase \"rosette of four\"\nrings \"fine\"\n  main wire 1 mm, inner 6 mm, copper\nmake\n  \"a\" pieces 3\n  \"b\" rings \"fine\", pieces 12\nclaim 60 rings in all\n",
    );
    assert_eq!(lint::check(&unit), []);
    assert!(gauges(&unit).unwrap().is_empty());
    let table = Class::of(&unit).unwrap().table(Layout::Plain);
    assert!(table.contains("one unit") && table.contains('–') && !table.contains("  ?      4"), "{table}");
    let sheet = |sizes: &str| {
        compile(&format!(
            "weave \"Harbour mats\"\nbase \"Japanese 4-in-1 sheet\"\nrings\n  main  wire 1.2 mm, inner 5 mm, aluminium\n{sizes}make\n  \"coaster\"  height 80 mm, width 80 mm, pieces 4\n  \"runner\"   height 80 mm, width 300 mm\nclaim 18 rings in all\n"
        ))
    };
    let open = sheet("");
    let why = lint::unchecked_claims(&open, &lint::check(&open));
    assert!(why.len() == 1 && why[0].1.starts_with("write in `rings` the wire"), "{why:?}");
    // 80 mm are 8 flat rings and 7 links between, as in `a_sheet_by_height_and_width`; 300 mm are 30.
    let sized = sheet("  link  wire 1.2 mm, inner 5 mm, aluminium\n");
    let class = Class::of(&sized).unwrap();
    assert_eq!(class.bags.iter().map(|b| b.counts.size.0).collect::<Vec<_>>(), [[8, 8], [8, 30]]);
    assert!(class.table(Layout::Plain).contains("77.4 × 77.4 mm"), "{}", class.table(Layout::Plain));
}
