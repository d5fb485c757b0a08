//! Chains of pairs: open, boxed, Byzantine. The links are the same; the words choose the pose.

use super::{example, settled};
use byrnie::pattern::FamilyId;
use byrnie::settle::Settled;

/// A chain of pairs, bare of lying words, with so many pairs in its repeat.
fn pairs(count: usize) -> String {
    let names = |pair: usize| (format!("a{}", ["a", "b", "c"][pair]), format!("z{}", ["a", "b", "c"][pair]));
    let mut text = String::new();
    for pair in 0..count {
        let (one, two) = names(pair);
        text += &format!("ring {one}, {two} main, {}\n", if pair == 0 { "closed" } else { "open" });
    }
    text += "repeat n\n";
    for pair in 1..=count {
        let ((one, two), (before, beside)) = (names(pair % count), names(pair - 1));
        let (own, on) = if pair == count { ("n+1", "n") } else { ("n", "n") };
        for ring in [one, two] {
            text += &format!("{ring}[{own}] down {before}[{on}], {beside}[{on}]\n");
        }
    }
    text
}

/// Floor of each pose with the names of the families folded back.
fn listed(text: &str) -> Vec<(f64, Vec<String>)> {
    let (weave, settled) = settled(text);
    let name = |family: &FamilyId| weave.pattern().family_name(*family).to_owned();
    settled.poses.iter().map(|p| (p.floor, p.folded.as_ref().unwrap().iter().map(name).collect())).collect()
}

/// A chain of pairs lies open from AR 2.621 on, and boxed from 4.054 on.
#[test]
fn the_bare_links_of_a_chain_of_pairs_list_the_open_pose_and_the_boxed_one() {
    let list = listed(&pairs(2));
    assert!((list[0].0 - 2.6213).abs() < 1e-3 && list[0].1.is_empty(), "{list:?}");
    assert!(list.iter().any(|(floor, folded)| (floor - 4.0542).abs() < 1e-3 && !folded.is_empty()), "{list:?}");
    // Of three pairs two can lie in a box and the third stay open: the Byzantine pose.
    let list = listed(&pairs(3));
    assert!((list[0].0 - 2.6213).abs() < 1e-3 && list[0].1.is_empty(), "{list:?}");
    let byzantine = list.iter().find(|(floor, _)| (floor - 3.3402).abs() < 1e-3);
    assert_eq!(byzantine.map(|(_, folded)| folded.len()), Some(4), "{list:?}");
}

/// However many pairs are written as one repeat, the open chain has one floor: an odd number of them stands crosswise
/// only over two repeats.
#[test]
fn an_odd_number_of_rings_in_the_repeat_is_the_same_chain() {
    let single = "ring a, b, c\nrepeat n\nb[n] down a[n]\nc[n] down b[n]\na[n+1] down c[n]\n";
    let (_, s) = settled(single);
    assert!((s.floors[0].found - 2.0).abs() < 1e-4, "{:?}", s.floors);
    let three = &settled(&pairs(3)).1.floors[0];
    let one = &settled("ring a, b\nrepeat n\na[n] down a[n-1], b[n-1]\nb[n] down a[n-1], b[n-1]\n").1.floors[0];
    assert!((three.found - one.found).abs() < 1e-3, "{three:?} {one:?}");
}

#[test]
fn the_word_fold_chooses_and_keeps_the_boxed_pose() {
    for (name, floor) in [("box-chain", 4.0542), ("byzantine-chain", 3.3402)] {
        let (weave, s) = settled(example(name));
        assert!((s.floors[0].found - floor).abs() < 1e-3, "{name}: {:?}", s.floors);
        assert!(s.broken.is_empty(), "{name}");
        let chosen = &s.poses[s.chosen];
        let back: Vec<&str> =
            chosen.folded.iter().flatten().map(|f| weave.pattern().families[*f].name.value.as_str()).collect();
        assert!(back.contains(&"c") && back.contains(&"d"), "{name}: {back:?}");
        // Drawn out it still lies so: the repeat is far shorter than that of the open chain.
        let open = settled(example("2-in-2-chain")).1;
        let length = |s: &Settled| s.natural.as_ref().unwrap()[0] / s.inner();
        let pairs = if name == "box-chain" { 1.0 } else { 1.5 };
        assert!(length(s) < 0.7 * pairs * length(open), "{name}: {} {}", length(s), length(open));
    }
}

/// In a Byzantine chain a pair goes between the rings of the pair that the one before it was folded along; nothing
/// of the open chain lies so.
#[test]
fn the_word_between_is_true_of_the_byzantine_pose_alone() {
    let between = example("byzantine-chain").lines().filter(|l| !l.contains("fold")).collect::<Vec<_>>().join("\n");
    let (_, s) = settled(&between);
    assert!((s.floors[0].found - 3.3402).abs() < 1e-3 && s.broken.is_empty(), "{:?}", s.floors);
    assert!(s.poses.iter().filter(|p| p.folded.as_ref().unwrap().is_empty()).all(|p| !p.allowed));
}

/// The turn of a spiral chooses between the locked pose and the loose one, and the mirror image turns the other way.
#[test]
fn the_hand_of_a_spiral_chooses_its_pose() {
    let spiral = |hand: &str, second: &str| {
        let text = format!("spiral {hand}\nring a\nrepeat n\na[n] down a[n-1], {second} a[n-2]\n");
        let s = settled(&text).1;
        (s.floors[0].found, s.poses[s.chosen].twist_deg.unwrap(), s.poses[s.chosen].allowed)
    };
    for (hand, second, floor, turn) in [
        ("right", "down", 2.7343, 1.0),
        ("left", "down", 3.4757, -1.0),
        ("left", "up", 2.7343, -1.0),
        ("right", "up", 3.4757, 1.0),
    ] {
        let (found, twist, allowed) = spiral(hand, second);
        assert!((found - floor).abs() < 1e-3 && twist * turn > 0.0 && allowed, "{hand} {second}: {found} {twist}");
    }
}
