//! How much to make: sheets by height and width, and rings to spare.

use crate::common::{compile, kept};
use byrnie::count::{BagCount, Class, Counts, Extent, wants};
use byrnie::pattern::Repeats;
use byrnie::shelf::{Need, Shelf, needs, shopping};
use byrnie::text::Layout;
use byrnie::{Weave, lint, report};

fn counts(weave: &Weave) -> Counts {
    Counts::of(weave, &weave.piece(weave.size()).unwrap())
}

/// A text without bags.
fn alone(weave: &Weave) -> Class {
    let bag = BagCount { name: None, rings: None, counts: counts(weave) };
    Class { name: weave.name().to_owned(), bags: vec![bag] }
}

/// Rows and columns that come nearest to what is asked, and what they come to; each row more is one row longer.
#[test]
fn a_sheet_by_height_and_width() {
    let families = kept("weave \"x\"\nbase \"Japanese 4-in-1 sheet\"\n");
    let kinds: std::collections::BTreeSet<&str> = families.pattern().families.iter().map(|f| f.kind.as_str()).collect();
    let lines: String = kinds.iter().map(|k| format!("  {k}  wire 1.2 mm, inner 5 mm, aluminium\n")).collect();
    let text = |make: &str| {
        format!("weave \"Harbour mat\"\nbase \"Japanese 4-in-1 sheet\"\n\nrings\n{lines}\nmake\n  {make}\n")
    };
    let weave = kept(Box::leak(text("height 80 mm, width 100 mm").into_boxed_str()));
    let Extent { pitch_mm: [row, column], .. } = Extent::of(weave, Repeats([1, 1])).unwrap();
    // Drawn out, a row is a simple chain: flat ring, link, flat ring, each as long as its inner diameter of 5 mm.
    assert!((row - 10.0).abs() < 1e-6 && (column - 10.0).abs() < 1e-6, "{row} {column}");
    let size = weave.size_asked().unwrap();
    assert_eq!(size, Repeats([8, 10]));
    let own = counts(weave);
    let extent = own.extent.unwrap();
    // The flat rings at both edges are whole, and their wire counts: 8 · 5 mm of flat rings, 7 · 5 mm of links between, 2 · 1.2 mm.
    assert!((extent.mm[0] - 77.4).abs() < 1e-3 && (extent.mm[1] - 97.4).abs() < 1e-3, "{extent:?}");
    assert!((extent.mm[0] - 80.0).abs() <= row / 2.0 && (extent.mm[1] - 100.0).abs() <= column / 2.0);
    let more = Extent::of(weave, Repeats([size.0[0] + 1, size.0[1]])).unwrap();
    assert!((more.mm[0] - extent.mm[0] - row).abs() < 1e-9 && (more.mm[1] - extent.mm[1]).abs() < 1e-9);
    insta::assert_snapshot!(own.table(Layout::Plain));
    // A number of rows counts before a height.
    let rows = kept(Box::leak(text("rows 3, width 100 mm").into_boxed_str()));
    assert_eq!(rows.size_asked().unwrap().0[0], 3);
    // Without sizes nobody can say.
    let bare = compile("weave \"x\"\nbase \"Japanese 4-in-1 sheet\"\nmake\n  height 80 mm, width 100 mm\n");
    assert!(bare.size_asked().is_none() && counts(&bare).extent.is_none());
}

/// By hand, 8 pieces and 5 %: a are 14 silver rings, of 13 rings b nine are teal and four silver. Silver 18 × 8 = 144, with
/// spares 151.2, so 152; teal 9 × 8 = 72, 75.6, so 76: 228 in all.
#[test]
fn rings_to_spare() {
    let kit = "weave \"Kit\"\nbase \"simple chain\"\nrings\n  main wire 16 awg, inner 1/4 in, aluminium\ncolours\n  a: silver\n  b: teal, teal, silver\nmake\n  repeats 14\n  pieces 8, spares 5 %\n";
    let weave = kept(kit);
    assert_eq!(lint::check(weave), []);
    let counts = counts(weave);
    let at_hand = |colour: &str| -> u64 {
        let own = counts.colours.iter().filter(|c| c.colour.as_deref() == Some(colour));
        own.map(|c| counts.at_hand(c.rings)).sum()
    };
    assert_eq!((counts.rings(), at_hand("silver"), at_hand("teal")), (27, 152, 76));
    assert!(counts.table(Layout::Plain).contains("have 228 rings at hand"));
    insta::assert_snapshot!(counts.table(Layout::Plain));
    // Whole percents of whole hundreds are whole.
    for (percent, rings, right) in [("0", 100, 100), ("5", 20, 21), ("10", 30, 33), ("7", 100, 107), ("2.5", 40, 41)] {
        let weave = compile(&kit.replace("spares 5 %", &format!("spares {percent} %")).replace("pieces 8, ", ""));
        assert_eq!(self::counts(&weave).at_hand(rings), right, "{percent}");
    }
    let slip = compile("weave \"x\"\nbase \"simple chain\"\nmake\n  spares 5\n");
    let shown = report::plain(slip.sources(), &lint::check(&slip));
    assert!(shown.contains("unreadable-line"), "{shown}");
}

/// The kit of [`rings_to_spare`] from a shelf. By hand: of 152 silver rings 100 are there, 52 short, two bags of 50 at 3.00; of 76
/// teal 90 are there. A piece has 18 silver rings at 0.06 and 9 teal at 0.024: 1.08 + 0.216 = 1.30.
#[test]
fn what_to_buy() {
    let kit = "weave \"Kit\"\nbase \"simple chain\"\nrings\n  main wire 16 awg, inner 1/4 in, aluminium\ncolours\n  a: silver\n  b: teal, teal, silver\nmake\n  repeats 14\n  pieces 8, spares 5 %\n";
    let shelf = |lines: &str| {
        Shelf::read(format!("wire;inner;material;colour;sold;price;on hand\n{lines}").as_bytes()).unwrap()
    };
    let full = shelf(
        "16 awg;1/4 in;aluminium;Silver;bag of 50;3,00 EUR;2 bags\n1.29 mm;6.35 mm;aluminum;teal;bag of 100;2.40;90\n16 swg;1/4 in;aluminium;teal;bag of 100;2.40;900\n",
    );
    assert_eq!(full.faults, []);
    let class = alone(kept(kit));
    let list = needs(&wants(&class), &full);
    let of = |colour: &str| list.iter().find(|n| n.want.colour.as_deref() == Some(colour)).unwrap();
    let (silver, teal) = (of("silver"), of("teal"));
    assert_eq!((silver.want.rings, silver.on_hand(), silver.short(), silver.packs()), (152, Some(100), 52, Some(2)));
    assert_eq!((teal.want.rings, teal.on_hand(), teal.short(), teal.packs()), (76, Some(90), 0, Some(0)));
    assert!((silver.price_to_buy().unwrap() - 6.0).abs() < 1e-9);
    assert!(
        (silver.price_in_a_piece(0).unwrap() - 1.08).abs() < 1e-9
            && (teal.price_in_a_piece(0).unwrap() - 0.216).abs() < 1e-9
    );
    insta::assert_snapshot!(shopping(&class, &list, Layout::Plain));
    // Sold by weight: 50 g of rings of 0.0848 g are 589, by hand 50 / 0.08479 = 589.7.
    let weighed = shelf("16 awg;1/4 in;aluminium;silver;50 g;7;\n16 awg;1/4 in;aluminium;teal;50 g;7;\n");
    assert_eq!(weighed.rings[0].pack_rings, Some(589));
    let list = needs(&wants(&class), &weighed);
    assert_eq!(list.iter().map(|n| (n.short(), n.packs())).collect::<Vec<_>>(), [(152, Some(1)), (76, Some(1))]);
    // What is not on the shelf is all short, and one line is not taken twice.
    let bare = shelf("16 awg;1/4 in;aluminium;silver;;;\n");
    let list = needs(&wants(&class), &bare);
    assert!(list.iter().all(|n| n.short() == n.want.rings && n.packs().is_none()));
    assert_eq!(list.iter().filter(|n| n.line.is_none()).count(), 1);
    let plain = kit.replace("colours\n  a: silver\n  b: teal, teal, silver\n", "");
    let list = needs(&wants(&alone(&compile(&plain))), &full);
    assert_eq!(list.iter().map(|n: &Need<'_>| n.want.rings).sum::<u64>(), 227);
    assert_eq!(list[0].on_hand(), Some(100));
}
