//! Worked examples, worked out by hand.

use crate::common::{counts, example};
use byrnie::count::{ColourCount, SizeFrom};
use byrnie::text::Layout;
use serde_json::json;

fn colour(colour: &str, kind: &str, rings: u32, closed: u32) -> ColourCount {
    ColourCount { colour: Some(colour.to_owned()), kind: kind.to_owned(), rings, closed }
}

/// The class kit by hand. Drawn out, a repeat of the simple chain is two inner diameters long: 12.7 mm.
/// The clasp hangs in the end rings, so n repeats, of which `ends` drops the last b, are 2n − 1 inner diameters: (190 − 18) /
/// 6.35 = 27.1, so 27 rings: 14 repeats, closed rings a1 … a14, open rings b1 … b13. 27 · 6.35 + 18 = 189.45 mm. a1 and a14 have one link instead of two. All a are silver; b run teal, teal, silver: in 13
/// there are 4 whole turns (8 teal, 4 silver) and one teal, so 9 teal and 4 silver; with a 18 silver.
/// 16 AWG is 1.29085 mm and 1/4 in 6.35 mm: AR 4.919. A ring has π² · 7.64085 · 1.66629 / 4 = 31.415 mm³ and
/// at 2.699 g/cm³ weighs 0.08479 g; 27 weigh 2.289 g, eight kits of them 18.31 g.
#[test]
fn larkspur_lane_kit() {
    let kit = counts(example("larkspur-lane-first-chain-kit"));
    assert_eq!((kit.rings(), kit.closed(), kit.open(), kit.accents(), kit.pieces), (27, 14, 13, 0, 8));
    let [a, b] = ["a", "b"].map(|name| kit.families.iter().find(|f| f.name == name).unwrap());
    assert_eq!((a.rings(), a.end_rings), (14, Some(2)));
    assert_eq!((b.rings(), b.end_rings), (13, Some(0)));
    assert_eq!(kit.colours, [colour("silver", "main", 18, 14), colour("teal", "main", 9, 0)]);
    let main = &kit.kinds[0];
    assert!((main.size.as_ref().unwrap().aspect_ratio.unwrap() - 4.919).abs() < 0.0005);
    assert!((main.ring_grams.unwrap() - 0.084_79).abs() < 0.000_005, "{:?}", main.ring_grams);
    assert!((kit.grams().unwrap() - 2.289).abs() < 0.001, "{:?}", kit.grams());
    let length = kit.length.unwrap();
    assert!((length.pitch_mm - 12.7).abs() < 1e-3 && (length.length_mm - 189.45).abs() < 0.01, "{length:?}");
    insta::assert_snapshot!("kit", kit.table(Layout::Plain));
    insta::assert_json_snapshot!("kit_json", json!(kit.json()));
}

/// The Tideline bracelet by hand, but for the length of a repeat, which is computed: 5.76 mm, and what its end rings reach
/// beyond whole repeats, from hole to hole 1.7 mm: (190 − 14 − 1.7) / 5.76 = 30.2. 30 repeats: a and b 30 each; c on 2, 5, …, 29: 10. b run copper, copper,
/// bronze: 10 whole turns (20, 10). Inside, a holds the b's of its own and the two repeats around it, b as
/// many a's: 3. Missing one at the ends: a1 (b2 reaches back to it, b0 does not), a30 (no b31), b1 (no a0) and
/// b30 (no a31). c29 stands around the eye of a29 and a30: whole.
#[test]
fn tideline_bracelet() {
    let piece = counts(example("tideline-bracelet"));
    assert_eq!((piece.rings(), piece.closed(), piece.open(), piece.accents()), (70, 30, 40, 10));
    let ends: Vec<_> = piece.families.iter().map(|f| (f.rings(), f.end_rings)).collect();
    assert_eq!(ends, [(30, Some(2)), (30, Some(2)), (10, Some(0))]);
    assert_eq!(
        piece.colours,
        [
            ColourCount { colour: None, kind: "main".to_owned(), rings: 30, closed: 30 },
            colour("copper", "main", 20, 0),
            colour("bronze", "main", 10, 0),
            colour("dusk violet", "accent", 10, 0),
        ]
    );
    insta::assert_snapshot!("tideline", piece.table(Layout::Plain));
}

/// A sheet of 3 rows and 5 columns: colours run along the way that is said, whatever is dropped.
#[test]
fn colours_of_a_sheet() {
    let sheet = |by: &str| {
        let text = format!(
            "ring a\nring b\nrepeat row r, column c\n  b[r,c] down a[r,c], a[r,c+1]\nends\n  drop b[all,last]\n\
             colours\n  b{by}: red, blue\nmake\n  rows 3, columns 5\n"
        );
        counts(&text).colours.into_iter().filter_map(|c| c.colour.map(|n| (n, c.rings))).collect::<Vec<_>>()
    };
    // b has 4 columns left: two red rows of four and one blue, or red, blue, red, blue of three.
    assert_eq!(sheet(" by row"), [("red".to_owned(), 8), ("blue".to_owned(), 4)]);
    assert_eq!(sheet(" by column"), [("red".to_owned(), 6), ("blue".to_owned(), 6)]);
}

/// By hand: 10 repeats in 47 mm are 4.7 mm each. (190 − 18) / 4.7 = 36.6, so 37 repeats, which make
/// 37 · 4.7 + 18 = 191.9 mm.
#[test]
fn length_from_a_measured_sample() {
    let text = "base \"simple chain\"\nmake\n  length 190 mm, clasp 18 mm\n  measured 10 repeats 47 mm\n";
    let chain = counts(text);
    let length = chain.length.unwrap();
    assert_eq!(chain.size.0, [37, 1]);
    assert!((length.pitch_mm - 4.7).abs() < 1e-9 && (length.length_mm - 191.9).abs() < 1e-9);
    assert_eq!(length.computed_pitch_mm, None);
    insta::assert_snapshot!("measured", chain.table(Layout::Plain));
    assert_eq!(counts("base \"simple chain\"\nmake\n  repeats 5\n").length, None);
}

/// A repeat of the simple chain drawn out is two inner diameters: 10 mm. (113 − 18) / 5 = 19 rings, which are 10 repeats less
/// the last link. A sample that is shorter, 9.8 mm a repeat, makes it 98 − 4.9 + 18 = 111.1 mm; it counts before what is computed, and both are shown; nothing is computed of rings that stretch or do not close, or
/// where a size is missing.
#[test]
fn length_as_computed() {
    let text = |kind: &str, rest: &str| {
        format!("base \"simple chain\"\nrings\n  main {kind}\nmake\n  length 113 mm, clasp 18 mm\n{rest}")
    };
    let sized = "wire 1 mm, inner 5 mm";
    let chain = counts(&text(sized, ""));
    let length = chain.length.unwrap();
    assert!(chain.size_from == SizeFrom::Text && chain.size.0 == [10, 1]);
    assert!((length.computed_pitch_mm.unwrap() - 10.0).abs() < 1e-3 && length.measured.is_none(), "{length:?}");
    insta::assert_snapshot!("computed", chain.table(Layout::Plain));
    let both = counts(&text(sized, "  measured 10 repeats 98 mm\n"));
    let length = both.length.unwrap();
    assert!((length.computed_pitch_mm.unwrap() - 10.0).abs() < 1e-3 && (length.pitch_mm - 9.8).abs() < 1e-9);
    assert!(both.size.0 == [10, 1] && (length.length_mm - 111.1).abs() < 1e-3, "{length:?}");
    insta::assert_snapshot!("measured_and_computed", both.table(Layout::Plain));
    insta::assert_json_snapshot!("measured_and_computed_json", json!(both.json())["length"]);
    for kind in ["wire 1 mm, inner 5 mm, rubber", "wire 1 mm, inner 1.5 mm", "AR 5", "wire 1 mm"] {
        let chain = counts(&text(kind, ""));
        assert!(chain.length.is_none() && chain.size_from == SizeFrom::Example, "{kind}");
    }
}

/// What is not known is said, wide letters keep the columns straight, and cautions are shown.
#[test]
fn gaps_and_cautions() {
    let text = "weave \"Überwurf\"\nring 環 main, closed\nring łuska łącznik, open\nring c weich\nrepeat n\n  łuska[n] down 環[n], 環[n+1]\n  c[n] down 環[n]\n\
                rings\n  main wire 1 mm, inner 5 mm, nickel silver\n  łącznik AR 4\nmake\n  pieces 2\n";
    insta::assert_snapshot!("gaps", counts(text).table(Layout::Plain));
}
