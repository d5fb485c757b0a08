//! Accents put on a settled base, and how they sit.

use super::settled;
use byrnie::settle::{Settled, Word};

fn bracelet(main: &str, accent: &str) -> &'static Settled {
    settled(&format!(
        "base \"half Persian 3-in-1\"\nring c accent\naccent every 3, from 2\nc[n] around eye(a[n], a[n+1])\nrings\nmain wire 1.6 mm, inner {main} mm\naccent wire 1.6 mm, inner {accent} mm"
    ))
    .1
}

/// Around every third eye of a bracelet of 7 mm rings: up to 5.5 mm accents hang loose, 6 mm sit straight, from 7 mm
/// on they force the chain apart and lodge askew.
#[test]
fn an_accent_sits_loose_straight_or_askew_by_its_size() {
    let plain = &settled("base \"half Persian 3-in-1\"\nrings\nmain wire 1.6 mm, inner 7 mm").1;
    let bare = plain.natural.as_ref().unwrap()[0];
    for (inner, word) in
        [("5", Word::Loose), ("5.5", Word::Loose), ("6", Word::Straight), ("7", Word::Askew), ("8", Word::Askew)]
    {
        let s = bracelet("7", inner);
        let [sits] = s.sits.as_slice() else { panic!("{inner}: {:?}", s.sits) };
        assert_eq!(sits.word, word, "{inner}: {sits:?}");
        assert!(sits.ways >= 1 && sits.ways == s.lodged);
        let natural = s.natural.as_ref().unwrap()[0];
        match word {
            Word::Loose => assert!(sits.rock_deg >= 20.0),
            Word::Straight => {
                assert!(sits.rock_deg < 20.0 && sits.spread_deg < 20.0 && sits.loss_percent <= 0.5);
                assert!((natural / bare - 1.0).abs() < 0.005, "{natural} {bare}");
            }
            Word::Askew => {
                assert!(sits.loss_percent > 1.0);
                assert!(natural < 0.99 * bare, "{natural} {bare}");
            }
        }
        assert!(s.closes() == Some(true) && s.room().unwrap() < plain.scale.unwrap() - 1.0, "{inner}");
    }
}

/// A ring hanging from one ring only is as loose as a ring can be, and takes nothing of the length.
#[test]
fn a_ring_that_hangs_is_loose() {
    let s = &settled(
        "base \"simple chain\"\nring c accent\naccent every 2\nc[n] down a[n]\nrings\nmain wire 1 mm, inner 5 mm\naccent wire 1 mm, inner 4 mm",
    )
    .1;
    let [sits] = s.sits.as_slice() else { panic!("{:?}", s.sits) };
    assert_eq!(sits.word, Word::Loose);
    assert!(sits.loss_percent < 0.1, "{sits:?}");
    // The simple chain has its two inner diameters still (elementary).
    assert!((s.taut.as_ref().unwrap()[0] - 10.0).abs() < 0.01);
}

/// Without sizes nothing is said of how an accent sits, but the floor stands.
#[test]
fn without_sizes_there_is_a_floor_only() {
    let s = &settled("base \"half Persian 3-in-1\"\nring c\naccent every 2\nc[n] around eye(a[n], a[n+1])").1;
    assert!(s.sits.is_empty() && s.room().is_none());
    assert!(s.floors[0].found > 3.893 && s.floors[0].found < 6.0, "{}", s.floors[0].found);
}

/// An accent that cannot close at its size: the whole does not, though the base does.
#[test]
fn an_accent_too_small_does_not_close() {
    let s = bracelet("7", "3");
    assert_eq!(s.closes(), Some(false));
    assert!(s.sits.is_empty() && !s.collisions.is_empty());
}
