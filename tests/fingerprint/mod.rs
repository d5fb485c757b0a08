//! The fingerprint is the same for one weave however it is written, mirrored for the mirror image, and
//! different for different weaves.

use byrnie::rings::Fingerprint;
use byrnie::text::Source;
use byrnie::{Library, Weave};

fn print(text: &str) -> Fingerprint {
    let weave = Weave::compile(Source::new("test.weave", text), &Library);
    assert!(weave.pattern().whole, "{:#?}", weave.reading());
    weave.fingerprint().expect("small enough to compare")
}

fn library(name: &str) -> Fingerprint {
    print(Library::weaves().iter().find(|(n, _)| *n == name).expect("in the library").1)
}

fn mirrored(f: &Fingerprint) -> Fingerprint {
    Fingerprint { weave: f.mirror.clone(), mirror: f.weave.clone() }
}

const HALF_PERSIAN: &str = "ring a main, closed\nring b main, open\nrepeat n\nlay a[n] behind a[n-1]\nb[n] through eye(a[n], a[n+1]), around eye(a[n-1], a[n]), over b[n-1], far side\n";

#[test]
fn one_simple_chain_however_it_is_written() {
    let one = print("ring a\nrepeat n\na[n] down a[n-1]");
    for text in [
        "ring a\nrepeat n\na[n] up a[n-1]",
        "ring a\nrepeat n\na[n+3] down a[n+2]",
        "ring a\nrepeat n\na[n] down a[n+1]",
        "ring a, b\nrepeat n\nb[n] down a[n], a[n+1]",
        "ring a, b\nrepeat n\nb[n] down a[n], up a[n+1]",
        "ring a, b, c\nrepeat n\nb[n] down a[n]\nc[n] down b[n]\na[n] up c[n-1]",
    ] {
        assert_eq!(print(text), one, "{text}");
    }
    assert_eq!(one.weave, one.mirror, "a simple chain has no hand");
    assert_eq!(library("simple-chain"), one);
}

#[test]
fn half_persian_keeps_its_name_in_other_words() {
    let one = print(HALF_PERSIAN);
    for (text, why) in [
        (HALF_PERSIAN.replace('a', "x").replace("mxin", "main").replace("lxy", "lay").replace("xround", "around").replace("repext", "repeat").replace("fxr", "far"), "other names"),
        ("ring a main, closed\nring b main, open\nrepeat n\nb[n] far side, over b[n-1], around eye(a[n-1], a[n]), through eye(a[n], a[n+1])\nlay a[n-1] in front of a[n]\n".to_owned(), "other order: first named is down turns b over"),
        ("ring a main, closed\nring b main, open\nrepeat n\nlay a[n] behind a[n-1]\nb[n] up a[n], a[n+1], down a[n-1], over b[n-1], far side\n".to_owned(), "b turned over"),
        ("ring a main, closed\nring b main, open\nrepeat n\nlay a[n] behind a[n-1]\nb[n] down a[n], up a[n+1], down a[n-1], over b[n-1], far side\n".to_owned(), "every second a turned over"),
        ("ring a main, closed\nring b main, open\nrepeat n\nlay a[n] behind a[n-1]\nb[n+5] through eye(a[n], a[n+1]), around eye(a[n-1], a[n]), over b[n+4], far side\n".to_owned(), "counted from elsewhere"),
        ("ring a main, closed\nring b main, open\nrepeat n\nlay a[n] behind a[n+1]\nb[n] through eye(a[n], a[n-1]), around eye(a[n+1], a[n]), over b[n+1], near side\n".to_owned(), "turned end for end"),
        ("ring a, p main, closed\nring b, q main, open\nrepeat n\nlay a[n] behind p[n-1]\nlay p[n] behind a[n]\nb[n] through eye(a[n], p[n]), around eye(p[n-1], a[n]), over q[n-1], far side\nq[n] through eye(p[n], a[n+1]), around eye(a[n], p[n]), over b[n], far side".to_owned(), "two repeats as one"),
    ] {
        assert_eq!(print(&text), one, "{why}:\n{text}");
    }
    assert_eq!(library("half-persian-3-in-1"), one);
    assert_ne!(one.weave, one.mirror);
    assert_eq!(print(&format!("mirrored\n{HALF_PERSIAN}")), mirrored(&one));
    assert_eq!(print(&HALF_PERSIAN.replace("far side", "near side")), mirrored(&one));
    let all_one_way =
        HALF_PERSIAN.replace("through eye(a[n], a[n+1]), around eye(a[n-1], a[n])", "down a[n-1], a[n], a[n+1]");
    assert_ne!(print(&all_one_way), one, "the same links all in one direction");
}

#[test]
fn lean_picks_the_hand_only_where_no_side_does() {
    let bare = HALF_PERSIAN.replace(", far side", "");
    let (left, right) = (print(&format!("{bare}lean left")), print(&format!("{bare}lean right")));
    assert_eq!(left, mirrored(&right));
    assert_ne!(left, right);
    assert_eq!(print(&format!("{HALF_PERSIAN}lean left")), print(HALF_PERSIAN));
}

#[test]
fn the_spiral_has_one_link_up_to_its_mirror_image() {
    let equal = print("spiral\nring a\nrepeat n\na[n] down a[n-1], a[n-2]");
    let opposite = print("spiral\nring a\nrepeat n\na[n] down a[n-1], up a[n-2]");
    assert_eq!(equal, mirrored(&opposite));
    assert_ne!(equal, opposite);
}

#[test]
fn accents_around_and_through_the_eye_differ() {
    let accent = |pass: &str, every: u32| {
        print(&format!(
            "base \"half Persian 3-in-1\"\nring c accent\naccent every {every}, from 2\nc[n] {pass} eye(a[n], a[n+1])"
        ))
    };
    let base = library("half-persian-3-in-1");
    assert_ne!(accent("around", 3), accent("through", 3));
    assert_ne!(accent("around", 3), accent("around", 2));
    assert_ne!(accent("around", 1).weave, base.weave);
    let from_5 =
        print("base \"half Persian 3-in-1\"\nring c accent\naccent every 3, from 5\nc[n] around eye(a[n], a[n+1])");
    assert_eq!(accent("around", 3), from_5, "the first repeat is a matter of the ends");
}

#[test]
fn a_sheet_is_the_same_sheet_along_other_ways() {
    let one = print("ring a\nrepeat row r, column c\na[r,c] down a[r-1,c], a[r-1,c+1]");
    for text in [
        "ring a\nrepeat row r, column c\na[r,c] down a[r-1,c-1], a[r-1,c]",
        "ring a\nrepeat row r, column c\na[r,c] down a[r+1,c], a[r+1,c+1]",
        "ring a, b\nrepeat row r, column c\nb[r,c] down eye(a[r,c], a[r,c+1]), up eye(a[r+1,c], a[r+1,c+1])",
        "ring a, b\nrepeat row r, column c\nb[r,c] down a[r,c], a[r,c+1], a[r+1,c], a[r+1,c+1]",
    ] {
        assert_eq!(print(text), one, "{text}");
    }
    assert_eq!(library("european-4-in-1-sheet"), one);
    assert_ne!(library("japanese-4-in-1-sheet").weave, one.weave);
    let frustrated = print("ring a, b\nrepeat row r, column c\nb[r,c] down a[r,c], a[r,c+1], a[r+1,c], up a[r+1,c+1]");
    assert_ne!(frustrated.weave, one.weave);
}

#[test]
fn a_rosette_has_a_hand_and_turning_one_ring_over_keeps_it() {
    let one = print("ring a, b, c\nb down a\nc down a, b");
    assert_eq!(print("ring a, b, c\nb up a\nc up a, down b"), one, "a turned over");
    assert_eq!(print("ring a, b, c\nb up a\nc up a, b"), mirrored(&one), "every link turned");
    assert_ne!(one.weave, one.mirror);
}

#[test]
fn pairs_do_not_make_the_comparison_run_away() {
    // Twelve pairs of equal rings: 2 to the 12th orders of them are alike.
    let mut text = "ring ".to_owned();
    let names: Vec<String> = "abcdefghijkm".chars().flat_map(|c| [format!("{c}x"), format!("{c}y")]).collect();
    text += &names.join(", ");
    text += "\nrepeat n\n";
    for pair in names.chunks(2).collect::<Vec<_>>().windows(2) {
        for ring in pair[1] {
            text += &format!("{ring}[n] down {}[n], {}[n]\n", pair[0][0], pair[0][1]);
        }
    }
    let last = &names[names.len() - 2..];
    for ring in &names[..2] {
        text += &format!("{ring}[n] down {}[n-1], {}[n-1]\n", last[0], last[1]);
    }
    let two_in_two = print("ring a, b\nrepeat n\na[n] down a[n-1], b[n-1]\nb[n] down a[n-1], b[n-1]");
    assert_eq!(print(&text), two_in_two);
}
