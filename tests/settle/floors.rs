//! Floors, the smallest aspect ratio at which a weave of equal rings closes, against what trials and practice
//! have; the poses behind them, and pushing them together.

use super::{CHAIN, HALF_PERSIAN, JAPANESE_4, SPIRAL, floor, settled};
use crate::common::compile;
use byrnie::settle::{Problem, Pull, RingSize, has_links, poses, pull, scale};

/// Half Persian 3-in-1 and 4-in-1, straight, the three-ring spiral and two rosettes: 3.893 from a prototype of
/// the method, the others from earlier trials of it (no source); 2 is also what the packing of two wires asks.
#[test]
fn floors_found_before() {
    for (text, ratio, within) in [
        (HALF_PERSIAN.to_owned(), 3.893, 0.002),
        (HALF_PERSIAN.replace(", over", ", through eye(a[n-2], a[n-1]), over"), 4.539, 0.001),
        (SPIRAL.to_owned(), 2.7343, 0.001),
        ("ring a, b, c\nb down a\nc down a, b".to_owned(), 2.0, 0.001),
        ("ring a, b, c, d, e\nb down a\nc down a, b\nd down a, b, c\ne down a, b, c, d".to_owned(), 3.0, 0.001),
    ] {
        let found = floor(&text);
        assert!((found - ratio).abs() < within, "{found} {ratio}: {text}");
    }
}

/// European 4-in-1 wants about 3 and half Persian 4-in-1 the high fours (common practice, no source).
#[test]
fn floors_lie_where_practice_has_them() {
    let european = "ring a, b\nrepeat row r, column c\nb[r,c] down eye(a[r,c], a[r,c+1]), up eye(a[r+1,c], a[r+1,c+1])";
    let half_persian = HALF_PERSIAN.replace(", over", ", through eye(a[n-2], a[n-1]), over");
    for (text, range) in [(european, 2.9..3.2), (&half_persian, 4.4..5.0)] {
        assert!(range.contains(&floor(text)), "{}: {text}", floor(text));
    }
}

/// Equal and opposite signs to the two predecessors: one link up to its mirror image, so one floor and opposite
/// hands. The loose pose is taken; the locked ones, which turn the other way, are listed.
#[test]
fn the_two_spirals_are_mirror_images() {
    let other = SPIRAL.replace(", a[n-2]", ", up a[n-2]");
    let (one, other) = (&settled(SPIRAL).1, &settled(&other).1);
    let turns = |s: &byrnie::settle::Settled| -> Vec<(f64, f64)> {
        s.poses.iter().map(|p| (p.floor, p.twist_deg.unwrap())).collect()
    };
    for s in [one, other] {
        assert_eq!(s.chosen, 0);
        let (loose, turn) = turns(s)[0];
        assert!((loose - floor(SPIRAL)).abs() < 1e-4 && (turn.abs() - 120.0).abs() < 1.0, "{:?}", turns(s));
        let locked = turns(s).into_iter().find(|p| p.1 * turn < 0.0 && p.0 > loose + 0.5 && p.0 < 4.01);
        assert!(locked.is_some(), "{:?}", turns(s));
    }
    assert!((turns(one)[0].1 + turns(other)[0].1).abs() < 0.01, "{:?} {:?}", turns(one), turns(other));
}

/// Every pose found holds its wire with every link right, drawn out and pushed together, and pushing makes it
/// shorter; wire thicker than it holds is refused.
#[test]
fn poses_hold_when_they_are_pulled_and_pushed() {
    for text in [CHAIN, HALF_PERSIAN, SPIRAL, JAPANESE_4] {
        let weave = compile(text);
        let cell = weave.cell().unwrap();
        let found = poses(&Problem::of(weave.pattern(), cell, |_| RingSize { radius: 1.0, wire: 1.0 }), 2);
        assert!(!found.poses.is_empty());
        let problem = &found.problem;
        for tight in found.poses.iter().take(2) {
            for thinner in [0.4, 0.9] {
                let wire = thinner * tight.scale;
                let [taut, pushed] =
                    [Pull::Taut, Pull::Together].map(|way| pull(problem, &tight.pose, wire, way).unwrap());
                assert!(pushed.length() < taut.length() - 1e-3, "{text}");
                for pose in [&taut, &pushed] {
                    assert!(has_links(problem, pose) && scale(problem, pose) > wire * (1.0 - 1e-8), "{text}");
                }
            }
            assert!(pull(problem, &tight.pose, 1.001 * tight.scale, Pull::Taut).is_none(), "{text}");
        }
    }
}

/// Words that no pose satisfies are told apart from the others.
#[test]
fn the_odd_statement_out_is_found() {
    let (weave, s) = settled(&HALF_PERSIAN.replace("over", "under"));
    let words: Vec<&str> = s.broken.iter().map(|n| weave.sources().words(weave.pattern().lying[*n].span)).collect();
    assert_eq!(words.len(), 1, "{words:?}");
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
    let (_, s) = settled(&format!("{CHAIN}rings\nmain AR 1.95"));
    assert!(s.closes() == Some(false) && s.curled.is_none());
}
