//! Worked examples, reckoned by hand.

use super::{counts, example};
use byrnie::supply::ColourCount;

fn colour(colour: &str, kind: &str, rings: u32) -> ColourCount {
    ColourCount { colour: Some(colour.to_owned()), kind: kind.to_owned(), rings }
}

/// The class kit by hand. 27 repeats: closed rings a1 … a27, open rings b1 … b26 (`ends` drops the last):
/// 53 rings. a1 and a27 have one link instead of two. All a are silver; b run teal, teal, silver: in 26
/// there are 8 whole turns (16 teal, 8 silver) and two teal, so 18 teal and 8 silver; with a 35 silver.
/// 16 AWG is 1.29085 mm and 1/4 in 6.35 mm: AR 4.919. A ring has π² · 7.64085 · 1.66629 / 4 = 31.415 mm³ and
/// at 2.699 g/cm³ weighs 0.08479 g; 53 weigh 4.494 g, eight kits of them 35.95 g.
#[test]
fn larkspur_lane_kit() {
    let kit = counts(example("larkspur-lane-first-chain-kit"));
    assert_eq!((kit.rings(), kit.closed(), kit.open(), kit.accents(), kit.pieces), (53, 27, 26, 0, 8));
    let [a, b] = kit.families.as_slice() else { panic!() };
    assert_eq!((a.rings(), a.end_rings), (27, Some(2)));
    assert_eq!((b.rings(), b.end_rings), (26, Some(0)));
    assert_eq!(kit.colours, [colour("silver", "main", 35), colour("teal", "main", 18)]);
    let main = &kit.kinds[0];
    assert!((main.size.as_ref().unwrap().aspect_ratio.unwrap() - 4.919).abs() < 0.0005);
    assert!((main.ring_grams.unwrap() - 0.084_79).abs() < 0.000_005, "{:?}", main.ring_grams);
    assert!((kit.grams().unwrap() - 4.494).abs() < 0.001, "{:?}", kit.grams());
    insta::assert_snapshot!("kit", kit.table());
    insta::assert_json_snapshot!("kit_json", kit.json());
}

/// The Tideline bracelet by hand. 37 repeats: a and b 37 each; c on 2, 5, …, 35: 12. b run copper, copper,
/// bronze: 12 whole turns (24, 12) and one copper, so 25 and 12. Inside, a holds the b's of its own and
/// the two repeats around it, b as many a's: 3. Missing one at the ends: a1 (b2 reaches back to it, b0 does
/// not), a37 (no b38), b1 (no a0) and b37 (no a38). c35 stands around the eye of a35 and a36: whole.
#[test]
fn tideline_bracelet() {
    let piece = counts(example("tideline-bracelet"));
    assert_eq!((piece.rings(), piece.closed(), piece.open(), piece.accents()), (86, 37, 49, 12));
    let ends: Vec<_> = piece.families.iter().map(|f| (f.rings(), f.end_rings)).collect();
    assert_eq!(ends, [(37, Some(2)), (37, Some(2)), (12, Some(0))]);
    assert_eq!(
        piece.colours,
        [
            ColourCount { colour: None, kind: "main".to_owned(), rings: 37 },
            colour("copper", "main", 25),
            colour("bronze", "main", 12),
            colour("dusk violet", "accent", 12),
        ]
    );
    insta::assert_snapshot!("tideline", piece.table());
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
    assert!((length.pitch_mm() - 4.7).abs() < 1e-9 && (length.length_mm - 191.9).abs() < 1e-9);
    insta::assert_snapshot!("measured", chain.table());
    assert_eq!(counts("base \"simple chain\"\nmake\n  repeats 5\n").length, None);
}

/// What is not known is said, wide letters keep the columns straight, and cautions are shown.
#[test]
fn gaps_and_cautions() {
    let text = "weave \"Überwurf\"\nring 環 main, closed\nring łuska łącznik, open\nring c weich\nrepeat n\n  łuska[n] down 環[n], 環[n+1]\n  c[n] down 環[n]\n\
                rings\n  main wire 1 mm, inner 5 mm, nickel silver\n  łącznik AR 4\nmake\n  pieces 2\n";
    insta::assert_snapshot!("gaps", counts(text).table());
}
