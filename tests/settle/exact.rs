//! What is reported, against values known exactly.

use super::settled;
use byrnie::notation::Hand;

const HALF_PERSIAN: &str = "ring a, b\nrepeat n\nlay a[n] behind a[n-1]\nb[n] through eye(a[n], a[n+1]), around eye(a[n-1], a[n]), over b[n-1], far side\n";
const SPIRAL: &str = "spiral\nring a\nrepeat n\na[n] down a[n-1], a[n-2]\n";

/// A simple chain closes from 2 on, and drawn out has one inner diameter for each ring (elementary), in mm as
/// in inches, whatever the wire and however its signs are written.
#[test]
fn a_simple_chain_has_its_inner_diameter_for_each_ring() {
    for (passes, rings) in [
        ("ring a, b\nrepeat n\nb[n] down a[n], a[n+1]\n", 2.0),
        ("ring a, b\nrepeat n\nb[n] down a[n], up a[n+1]\n", 2.0),
        ("ring a\nrepeat n\na[n] down a[n-1]\n", 1.0),
        ("ring a\nrepeat n\na[n] up a[n-1]\n", 1.0),
    ] {
        for (sizes, inner) in [
            ("main wire 1 mm, inner 3 mm", 3.0),
            ("main wire 1.6 mm, inner 9.5 mm", 9.5),
            ("main wire 18 awg, inner 1/4 in", 6.35),
        ] {
            let (_, s) = settled(&format!("{passes}rings\n{sizes}"));
            assert!((s.floors[0].found - 2.0).abs() < 1e-4, "{}", s.floors[0].found);
            assert!((s.floors[0].proved - 2.0).abs() < 1e-9);
            let (taut, natural) = (s.taut.as_ref().unwrap()[0], s.natural.as_ref().unwrap()[0]);
            assert!((taut - rings * inner).abs() < 1e-4 * inner, "{passes}{sizes}: {taut}");
            assert!((natural - taut).abs() < 1e-9);
            assert!(s.pushed.unwrap()[0] < 0.8 * taut);
            assert_eq!(s.straight, Some(true));
        }
    }
}

/// Two linked rings: 1, proved and found (tight Hopf link: Cantarella, Kusner, Sullivan, Inventiones 150
/// (2002)).
#[test]
fn two_rings() {
    let (_, s) = settled("ring a, b\nb down a\nrings\nmain wire 2 mm, inner 4 mm");
    assert!((s.floors[0].found - 1.0).abs() < 1e-4 && (s.floors[0].proved - 1.0).abs() < 1e-9);
    // Core radius 3 holds wire of 3.
    assert!((s.room().unwrap() - 0.5).abs() < 1e-4);
    assert_eq!((s.taut.as_ref().map(Vec::len), s.straight), (Some(0), None));
}

/// Half Persian 3-in-1 closes from 3.893 on (a prototype of the method) and leans as its side says: left with b on
/// the far side, right on the near side; mirrored the other way.
#[test]
fn half_persian_leans_as_its_side_says() {
    for (text, hand) in [
        (HALF_PERSIAN.to_owned(), Hand::Left),
        (HALF_PERSIAN.replace("far side", "near side"), Hand::Right),
        (format!("mirrored\n{HALF_PERSIAN}"), Hand::Right),
        (format!("mirrored\n{HALF_PERSIAN}").replace("far side", "near side"), Hand::Left),
    ] {
        for sizes in ["", "rings\nmain wire 1.6 mm, inner 7 mm", "rings\nmain wire 1.6 mm, inner 9.5 mm"] {
            let (_, s) = settled(&format!("{text}{sizes}"));
            assert!((s.floors[0].found - 3.893).abs() < 0.002);
            assert_eq!((s.lean, s.either_hand), (Some(hand), false), "{text}{sizes}");
            assert!(s.broken.is_empty());
        }
    }
}

/// Nothing said of lying: either hand fits, and `lean` picks one.
#[test]
fn lean_picks_the_mirror_image() {
    let open = "ring a, b\nrepeat n\nb[n] through eye(a[n], a[n+1]), around eye(a[n-1], a[n])\n";
    let (_, s) = settled(open);
    assert!(s.either_hand);
    for (word, hand) in [("left", Hand::Left), ("right", Hand::Right)] {
        let (_, s) = settled(&format!("{open}lean {word}"));
        assert_eq!((s.lean, s.either_hand), (Some(hand), false));
    }
}

/// Equal and opposite signs to the two predecessors: one floor, opposite hands; and the loose and the locked
/// poses of each are listed.
#[test]
fn spirals_list_their_poses() {
    let (_, one) = settled(SPIRAL);
    let (_, other) = settled(&SPIRAL.replace(", a[n-2]", ", up a[n-2]"));
    assert!((one.floors[0].found - other.floors[0].found).abs() < 1e-4);
    let twist = |s: &byrnie::settle::Settled| s.poses[s.chosen].twist_deg.unwrap();
    assert!((twist(&one) + twist(&other)).abs() < 0.1 && (twist(&one).abs() - 120.0).abs() < 1.0);
    for s in [&one, &other] {
        assert!(s.poses.len() >= 2, "{:?}", s.poses);
        assert!(s.poses.iter().skip(1).any(|p| p.floor < 4.01 && (p.twist_deg.unwrap() - twist(s)).abs() > 30.0));
    }
}

/// Words that no pose satisfies are told apart from the others.
#[test]
fn the_odd_statement_out_is_found() {
    let (weave, s) = settled(&HALF_PERSIAN.replace("over", "under"));
    let words = |n: &usize| weave.sources.words(weave.pattern.lying[*n].span).to_owned();
    assert_eq!(s.broken.len(), 1, "{:?}", s.broken.iter().map(words).collect::<Vec<_>>());
    assert!(!s.poses[s.chosen].allowed);
}

/// Where a chain has no room when it lies straight it may have some when it curls: half Persian 3-in-1 does when
/// it is small (common practice, no source), a simple chain does not, for its holes are full.
#[test]
fn half_persian_curls_when_it_is_small() {
    let (_, s) = settled(&format!("{HALF_PERSIAN}rings\nmain AR 3.87"));
    assert_eq!(s.straight, Some(false));
    assert!(!s.collisions.is_empty() && s.room().unwrap() < 0.0);
    assert!(s.curled.unwrap().across.is_some());
    let (_, s) = settled("ring a, b\nrepeat n\nb[n] down a[n], a[n+1]\nrings\nmain AR 1.95");
    assert!(s.closes() == Some(false) && s.curled.is_none());
}

/// The smallest rings of one wire are as large as the floor says; the smallest of one kind, the other held,
/// leave no room when they are taken.
#[test]
fn the_smallest_inner_diameter_leaves_no_room() {
    for inner in ["inner 6 mm", "inner 9.5 mm"] {
        let (weave, s) = settled(&format!("{HALF_PERSIAN}rings\nmain wire 1.6 mm, {inner}"));
        let smallest = s.smallest_inner(&weave.pattern, "main").unwrap();
        assert!((smallest / 1.6 - s.floors[0].found).abs() < 1e-4, "{}", smallest / 1.6);
    }
    let sheet = "ring a main\nring h, v link\nrepeat row r, column c\nh[r,c] down a[r,c], a[r,c+1]\nv[r,c] down a[r,c], a[r+1,c]\nrings\nmain wire 1 mm, inner 5 mm\nlink wire 0.8 mm, inner 3 mm\n";
    let (weave, s) = settled(sheet);
    let smallest = s.smallest_inner(&weave.pattern, "link").unwrap();
    assert!(smallest >= 2.0 - 1e-6 && smallest < 3.0, "two wires of 1 mm go through it: {smallest}");
    let (_, s) = settled(&sheet.replace("inner 3 mm", &format!("inner {smallest:.6} mm")));
    assert!(s.room().unwrap().abs() < 1e-3, "{:?}", s.room());
}
