//! How far a piece reaches, its end rings with it.

use crate::common::kept;
use byrnie::Weave;
use byrnie::count::{Counts, Edges, LengthCount, Reach};
use byrnie::pattern::Repeats;

const WIRE: f64 = 1.2;
const INNER: f64 = 9.6;

/// Pairs, folds, leans, spirals, accents, ends dropped, sheets straight and skew.
const MANY_SORTS: [&str; 11] = [
    "2-in-2 chain",
    "Byzantine chain",
    "half Persian 3-in-1",
    "half Persian 3-in-1, an accent through every second eye",
    "three-ring spiral",
    "European 4-in-1 strip",
    "European 4-in-1 sheet",
    "half Persian sheet",
    "Japanese 6-in-1 sheet",
    "European sheet in two sizes",
    "simple chain, every second link ringed",
];

/// A library weave with all rings of one size.
fn sized(name: &str) -> Weave {
    let bare = kept(Box::leak(format!("base \"{name}\"\n").into_boxed_str()));
    let kinds: std::collections::BTreeSet<&str> = bare.pattern().families.iter().map(|f| f.kind.as_str()).collect();
    bare.with_sizes(&kinds.into_iter().map(|kind| (kind, (WIRE, INNER))).collect::<Vec<_>>())
}

/// Elementary: the rings of a simple chain drawn out hang hole in hole, so n of them are n inner diameters from the edge of
/// the first hole to the edge of the last, and two wires more over all.
#[test]
fn a_simple_chain_is_its_inner_diameters() {
    let chain = sized("simple chain");
    let reach = Reach::of(chain.settled().unwrap()).unwrap();
    for n in [1, 2, 3, 7, 30, 1001] {
        let rings = f64::from(2 * n - 1);
        let Edges { outer_mm, inside_mm } = reach.edges(&chain, Repeats([n, 1]), 0).unwrap();
        assert!((inside_mm - rings * INNER).abs() < 1e-6 * rings, "{n}: {inside_mm}");
        assert!((outer_mm - rings * INNER - 2.0 * WIRE).abs() < 1e-6 * rings, "{n}: {outer_mm}");
    }
}

/// Of chains and sheets of all sorts: the hole's edges lie within the outer ones by about two wires at the most, a
/// piece grows by one repeat with every repeat (of a weave whose ends take turns by a whole turn of them), and the nearest
/// number of repeats is the nearest.
#[test]
fn a_piece_grows_by_its_repeats() {
    for name in MANY_SORTS {
        let weave = sized(name);
        let Ok(settled) = weave.settled() else { continue };
        let Some(reach) = Reach::of(settled) else { continue };
        for (way, pitch) in reach.pitch_mm.iter().enumerate() {
            let size = |n: u32| if way == 0 { Repeats([n, 12]) } else { Repeats([12, n]) };
            let edges = |n: u32| reach.edges(&weave, size(n), way).unwrap();
            let turn = settled.repeats.along(way).unsigned_abs();
            for n in [9, 10, 40] {
                let (one, more) = (edges(n), edges(n + turn));
                let by = f64::from(turn) * pitch;
                assert!((more.outer_mm - one.outer_mm - by).abs() < 1e-6, "{name} {n}: {one:?} {more:?} {by}");
                assert!((more.inside_mm - one.inside_mm - by).abs() < 1e-6, "{name} {n}");
                let between = one.outer_mm - one.inside_mm;
                assert!(between > 0.0 && between < 2.0 * WIRE + 1e-6, "{name} {n}: {one:?}");
            }
        }
    }
}

/// What is asked for is met by the number of repeats that comes nearest, with a clasp and without.
#[test]
fn the_nearest_number_of_repeats() {
    for name in ["simple chain", "half Persian 3-in-1", "2-in-2 chain", "box chain", "European 4-in-1 strip"] {
        for (asked, clasp) in [(60.0, ""), (190.0, ""), (191.3, ", clasp 14 mm"), (1000.0, ""), (3.0, "")] {
            let text = format!("base \"{name}\"\nmake\n  length {asked} mm{clasp}\n");
            let asked_for = kept(Box::leak(text.into_boxed_str())).pattern().make.clone();
            let weave = sized(name).with_make(asked_for);
            let size = weave.size_asked().unwrap();
            let off = |n: u32| (LengthCount::of(&weave, Repeats([n, 1])).unwrap().length_mm - asked).abs();
            let n = size.0[0];
            assert!(off(n) <= off(n + 1) + 1e-6 && (n == 1 || off(n) <= off(n - 1) + 1e-6), "{name} {asked}: {n}");
            let counts = Counts::of(&weave, &weave.piece(size).unwrap());
            assert_eq!(counts.length.unwrap().asked_mm, Some(asked));
        }
    }
}
