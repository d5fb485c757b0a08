//! What is reported, against values known exactly.

use super::{CHAIN, JAPANESE_4, floor, settled};

/// Two linked rings: 1, the tight Hopf link (Cantarella, Kusner, Sullivan, Inventiones 150 (2002)).
#[test]
fn two_linked_rings() {
    let (_, s) = settled("ring a, b\nb down a\nrings\nmain wire 2 mm, inner 4 mm");
    assert!((s.floors[0].found - 1.0).abs() < 1e-4 && (s.floors[0].proved - 1.0).abs() < 1e-9);
    // Core radius 3 holds wire of 3.
    assert!((s.room().unwrap() - 0.5).abs() < 1e-4);
    assert_eq!((s.taut.as_ref().map(Vec::len), s.straight), (Some(0), None));
}

/// A simple chain closes from 2 on, each ring turned 90°, and drawn out has one inner diameter for each ring
/// (elementary), in mm as in inches, whatever the wire and however its signs are written.
#[test]
fn a_simple_chain_has_its_inner_diameter_for_each_ring() {
    for (passes, rings) in [
        (CHAIN, 2.0),
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
            assert!(s.pushed.as_ref().unwrap()[0] < 0.8 * taut);
            assert_eq!(s.straight, Some(true));
        }
    }
}

const JAPANESE_6: &str = "ring a, h, v, d\nrepeat row r, column c\nh[r,c] down a[r,c], up a[r,c+1]\n\
    v[r,c] down a[r,c], up a[r+1,c]\nd[r,c] down a[r,c], up a[r+1,c-1]\n";

/// Japanese 4-in-1: 1 + √2, the packing of four wires. Japanese 6-in-1: 3, the packing of six. Drawn out at their
/// floors flat rings are 4.82843 and 6 wires apart along rows and columns: paulbourke.net/geometry/chainmail
/// (2014), read with its R as outer radius, has the first.
#[test]
fn japanese_sheets() {
    for (text, ratio, spacing) in [(JAPANESE_4, 1.0 + 2_f64.sqrt(), 4.828_43), (JAPANESE_6, 3.0, 6.0)] {
        // Each upright ring is drawn against both flat ones: two inner diameters (elementary). So near the floor
        // that the rings can hardly move, pulling ends before that; a thousandth above it does not.
        for above in [0.001, 1.0] {
            let (_, s) = settled(&format!("{text}rings\nmain wire 1 mm, inner {:.6} mm", ratio + above));
            assert!((s.floors[0].found - ratio).abs() < 1e-4, "{}: {text}", s.floors[0].found);
            assert!((s.floors[0].proved - ratio).abs() < 1e-8);
            for taut in s.taut.as_ref().unwrap() {
                assert!((taut - 2.0 * above - spacing).abs() < 1e-4, "{taut} at {above} above the floor: {text}");
            }
        }
    }
}

/// A ring that joins two flat ones of Japanese 6-in-1 goes down one and comes up the other. Where three flat rings
/// meet there are three such: a circuit of six links whose signs have the product −1, however rings are turned
/// over. All passes downwards make the product +1: another weave, and not a flat one.
#[test]
fn six_in_one_all_downwards_is_another_weave() {
    let other = floor(&format!("{}rings\nmain wire 1 mm, inner 4 mm", JAPANESE_6.replace("up", "down")));
    assert!(other > 4.0, "{other}");
}
