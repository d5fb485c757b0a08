//! Sizes as unknowns: the smallest rings of one kind, the others as they are.

use super::{HALF_PERSIAN, settled};

/// Of one kind the smallest rings are as large as the floor says.
#[test]
fn of_one_kind_it_is_the_floor() {
    for inner in ["inner 6 mm", "inner 9.5 mm"] {
        let (weave, s) = settled(&format!("{HALF_PERSIAN}rings\nmain wire 1.6 mm, {inner}"));
        let smallest = s.smallest_inner(weave.pattern(), "main").unwrap();
        assert!((smallest / 1.6 - s.floors[0].found).abs() < 1e-4, "{}", smallest / 1.6);
    }
}

const SHEET: &str = "ring a main\nring h, v link\nrepeat row r, column c\nh[r,c] down a[r,c], a[r,c+1]\nv[r,c] down a[r,c], a[r+1,c]\nrings\nmain wire 1 mm, inner 5 mm\nlink wire 0.8 mm, inner 3 mm\n";

/// The smallest rings of a kind, the other held, have room for the wires side by side in their holes (packing),
/// and leave no room when they are taken.
fn leaves_no_room(kind: &str, given: f64, packed: f64) {
    let (weave, s) = settled(SHEET);
    let smallest = s.smallest_inner(weave.pattern(), kind).unwrap();
    assert!(smallest > packed - 1e-6 && smallest < given, "{kind}: {smallest}");
    let (_, taken) = settled(&SHEET.replace(&format!("inner {given} mm"), &format!("inner {smallest:.6} mm")));
    assert!(taken.room().unwrap().abs() < 1e-4, "{kind}: {smallest} leaves {:?}", taken.room());
}

/// Two wires of 1 mm.
#[test]
fn of_the_joining_rings_it_leaves_no_room() {
    leaves_no_room("link", 3.0, 2.0);
}

/// Four wires of 0.8 mm.
#[test]
fn of_the_joined_rings_it_leaves_no_room() {
    leaves_no_room("main", 5.0, 0.8 * (1.0 + 2_f64.sqrt()));
}

/// Without sizes in mm there is no smallest inner diameter in mm.
#[test]
fn without_sizes_there_is_none() {
    for sizes in ["", "rings\nmain AR 5"] {
        let (weave, s) = settled(&format!("{HALF_PERSIAN}{sizes}"));
        assert_eq!(s.smallest_inner(weave.pattern(), "main"), None);
    }
}
