//! How a settled chain lies: the lying words choose the face and the hand, and the eyes tip one way.

use super::{HALF_PERSIAN, settled};
use byrnie::notation::Hand;

const SIZES: [&str; 4] =
    ["", "rings\nmain wire 1.6 mm, inner 7 mm", "rings\nmain wire 1.6 mm, inner 9.5 mm", "rings\nmain AR 8"];

/// At any size; and drawn out with the words that ask for it.
fn leans(text: &str, hand: Hand) {
    for sizes in SIZES {
        let (_, s) = settled(&format!("{text}{sizes}"));
        assert_eq!((s.lean, s.either_hand), (Some(hand), false), "{text}{sizes}: {:?}", s.view.tips);
        assert!(s.broken.is_empty() && s.poses[s.chosen].allowed);
    }
}

/// notation.md: with a behind and b over, the chain leans left with b on the far side and right with b on
/// the near side.
#[test]
fn half_persian_leans_as_its_side_says() {
    leans(HALF_PERSIAN, Hand::Left);
    leans(&HALF_PERSIAN.replace("far side", "near side"), Hand::Right);
}

#[test]
fn the_mirrored_text_leans_the_other_way() {
    leans(&format!("mirrored\n{HALF_PERSIAN}"), Hand::Right);
    leans(&format!("mirrored\n{HALF_PERSIAN}").replace("far side", "near side"), Hand::Left);
}

/// Seen from its back the chain shows in front what was behind, on the near side what was on the far side,
/// and the eyes tip the other way.
#[test]
fn seen_from_the_back() {
    let back = HALF_PERSIAN.replace("behind", "in front of").replace("over", "under").replace("far", "near");
    leans(&back, Hand::Right);
}

/// Nothing said of lying: either hand fits, and `lean` picks one.
#[test]
fn lean_picks_the_mirror_image() {
    let open = "ring a, b\nrepeat n\nb[n] through eye(a[n], a[n+1]), around eye(a[n-1], a[n])\n";
    assert!(settled(open).1.either_hand);
    leans(&format!("{open}lean left\n"), Hand::Left);
    leans(&format!("{open}lean right\n"), Hand::Right);
}
