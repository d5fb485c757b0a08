//! How a settled chain lies: the lying words choose the face and the hand, and the eyes tip one way.

use crate::common::compile;
use byrnie::notation::Hand;
use byrnie::settle::{Problem, RingSize, View, poses, pull, views};

const HALF_PERSIAN: &str = "ring a, b\nrepeat n\nlay a[n] behind a[n-1]\nb[n] through eye(a[n], a[n+1]), around eye(a[n-1], a[n]), over b[n-1], far side\n";

/// Every view of every pose, pulled taut with wire a little thinner than the floor allows.
fn seen(text: &str) -> Vec<View> {
    let weave = compile(text);
    let cell = weave.cell.as_ref().unwrap();
    let problem = Problem::of(&weave.pattern, cell, |_| RingSize { radius: 1.0, wire: 1.0 });
    let mut seen = Vec::new();
    for tight in poses(&problem, 3).poses {
        for thinner in [0.98, 0.8, 0.65] {
            let taut = pull(&problem, &tight.pose, thinner * tight.scale, true).unwrap();
            seen.extend(views(&weave.pattern, cell, &problem, &taut).into_iter().filter(View::fits));
        }
    }
    seen
}

fn leans(text: &str, hand: Hand) {
    let seen = seen(text);
    assert!(!seen.is_empty(), "no view: {text}");
    for view in seen {
        assert_eq!(view.lean(), Some(hand), "{text}: {:?}", view.tips);
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
}

/// Seen from its back the chain shows in front what was behind, on the near side what was on the far side,
/// and the eyes tip the other way.
#[test]
fn seen_from_the_back() {
    let back = HALF_PERSIAN.replace("behind", "in front of").replace("over", "under").replace("far", "near");
    leans(&back, Hand::Right);
}

/// All passes in one direction is another weave, though each ring holds the same others; words that no pose
/// satisfies together give no view.
#[test]
fn words_that_no_pose_satisfies_give_no_view() {
    assert!(seen(&HALF_PERSIAN.replace("over", "under")).is_empty());
}
