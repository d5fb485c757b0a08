//! The ring graph: signs, ends, expansion, and what is printed of it.

use crate::common::{compile, examples, validator};
use byrnie::pattern::{Lattice, Repeats, Shift};
use byrnie::weave::{GraphJson, graph_dot, graph_json};
use petgraph::visit::EdgeRef;
use std::collections::BTreeSet;

fn links(text: &str, size: [u32; 2]) -> BTreeSet<String> {
    let weave = compile(text);
    let piece = weave.piece(Repeats(size)).unwrap();
    let name = |n| piece.ring_name(weave.pattern(), n);
    let links = piece.graph.edge_references();
    links
        .map(|e| {
            format!("{} {} {}", name(e.source()), if e.weight().sign > 0 { "down" } else { "up" }, name(e.target()))
        })
        .collect()
}

fn set(links: &[&str]) -> BTreeSet<String> {
    links.iter().map(|l| (*l).to_owned()).collect()
}

#[test]
fn through_and_around_mean_down_down_up() {
    // notation.md: `through eye(a2, a3), around eye(a1, a2)` means down a2, down a3, up a1.
    let text = "ring a, b\nrepeat n\nb[n] through eye(a[n], a[n+1]), around eye(a[n-1], a[n])";
    assert_eq!(
        links(text, [3, 1]),
        set(&[
            "b[1] down a[1]",
            "b[1] down a[2]",
            "b[2] up a[1]",
            "b[2] down a[2]",
            "b[2] down a[3]",
            "b[3] up a[2]",
            "b[3] down a[3]"
        ])
    );
    assert_eq!(
        links(&text.replace("repeat n", "mirrored\nrepeat n"), [2, 1]),
        set(&["b[1] up a[1]", "b[1] up a[2]", "b[2] down a[1]", "b[2] up a[2]"])
    );
}

#[test]
fn ends_add_drop_close_and_open() {
    let text = "ring a main, closed\nring b main\nrepeat n\nb[n] down a[n], a[n+1]\nends\nadd a[last+1], b[0]\ndrop b[1]\nclose b[last]\nopen a[1]";
    assert_eq!(
        links(text, [3, 1]),
        set(&["b[0] down a[1]", "b[2] down a[2]", "b[2] down a[3]", "b[3] down a[3]", "b[3] down a[4]"])
    );
    let weave = compile(text);
    let piece = weave.piece(Repeats([3, 1])).unwrap();
    let closed = |n: petgraph::graph::NodeIndex| piece.graph[n].state == byrnie::notation::State::Closed;
    let names: Vec<_> =
        piece.graph.node_indices().filter(|n| closed(*n)).map(|n| piece.ring_name(weave.pattern(), n)).collect();
    assert_eq!(names, ["a[2]", "a[3]", "a[4]", "b[3]"]);
}

#[test]
fn a_ring_inside_has_the_links_its_place_in_the_repeat_has() {
    for (name, text) in examples() {
        let weave = compile(text);
        let cell = weave.cell().unwrap();
        let reach: i32 = weave.links().links.iter().flat_map(|l| l.offset.to_array()).map(i32::abs).max().unwrap_or(0);
        let n = u32::try_from(2 * reach + 9).unwrap();
        let size = match weave.pattern().lattice {
            Lattice::Unit => [1, 1],
            Lattice::Chain => [n, 1],
            Lattice::Sheet => [n, n],
        };
        let piece = weave.piece(Repeats(size)).unwrap();
        let mut inside = 0;
        for ring in piece.graph.node_indices() {
            let weight = piece.graph[ring];
            let deep =
                |i: usize| size[i] == 1 || (reach + 2..size[i].cast_signed() - reach).contains(&weight.at.along(i));
            // Accents start somewhere; before their first repeat the base is bare.
            let started = weave
                .pattern()
                .accents
                .iter()
                .all(|a| (0..2).all(|i| size[i] == 1 || weight.at.along(i) >= a.from.along(i) + reach));
            if deep(0) && deep(1) && started {
                let place = cell.ring(weight.family, weight.at - Shift::ONE).unwrap();
                assert_eq!(piece.graph.edges(ring).count(), cell.degree(place), "{name}: {weight:?}");
                inside += 1;
            }
        }
        assert!(inside > 0, "{name}");
    }
}

#[test]
fn the_printed_graph_keeps_to_its_schema() {
    let validator = validator::<GraphJson<'_>>();
    for (name, text) in examples() {
        let weave = compile(text);
        let piece = weave.piece(weave.size()).unwrap();
        for printed in [graph_json(&weave, None), graph_json(&weave, Some(&piece))] {
            let value: serde_json::Value = serde_json::from_str(&printed).unwrap();
            let faults: Vec<String> = validator.iter_errors(&value).map(|e| e.to_string()).collect();
            assert!(faults.is_empty(), "{name}: {faults:?}");
        }
        let value: serde_json::Value = serde_json::from_str(&graph_json(&weave, Some(&piece))).unwrap();
        assert_eq!(value["rings"].as_array().unwrap().len(), piece.graph.node_count());
        assert_eq!(value["links"].as_array().unwrap().len(), piece.graph.edge_count());
    }
    let printed: serde_json::Value = serde_json::from_str(&graph_json(&compile(examples()[0].1), None)).unwrap();
    assert!(validator.is_valid(&printed));
    for (pointer, key) in [("/links/0", "sign"), ("/rings/0", "state"), ("", "lattice"), ("/families/0", "accent")] {
        for (misspelled, word) in [(format!("{key}s"), 1), (key.to_owned(), 2)] {
            let mut wrong = printed.clone();
            wrong.pointer_mut(pointer).unwrap()[misspelled] = word.into();
            assert!(!validator.is_valid(&wrong), "the schema can fail: {pointer}/{key}");
        }
    }
}

#[test]
fn dot_names_every_ring_and_link() {
    let weave = compile("weave \"a \\\"b\"\nring a main, closed\nring b\nrepeat n\nb[n] down a[n], up a[n+1]");
    insta::assert_snapshot!("dot_repeat", graph_dot(&weave, None));
    let piece = weave.piece(Repeats([2, 1])).unwrap();
    insta::assert_snapshot!("dot_piece", graph_dot(&weave, Some(&piece)));
}

#[test]
fn accents_stand_on_every_third_repeat_and_the_repeat_grows_with_them() {
    let text = "base \"half Persian 3-in-1\"\nring c accent\naccent every 3, from 2\nc[n] around eye(a[n], a[n+1])";
    let weave = compile(text);
    let cell = weave.cell().unwrap();
    assert_eq!((cell.period, cell.graph.node_count()), (Shift::new(3, 1), 7));
    let piece = weave.piece(Repeats([10, 1])).unwrap();
    let accent = weave.pattern().family("c").unwrap();
    let at: Vec<i32> = piece.graph.node_weights().filter(|r| r.family == accent).map(|r| r.at.row).collect();
    assert_eq!(at, [2, 5, 8]);
}

#[test]
fn too_large_a_piece_is_refused() {
    let weave = compile("ring a\nrepeat row r, column c\na[r,c] down a[r-1,c]");
    assert!(weave.piece(Repeats([2_000_000, 1])).is_ok());
    assert!(weave.piece(Repeats([2_000, 1_001])).is_err());
    assert!(weave.piece(Repeats([u32::MAX, u32::MAX])).is_err());
    let far = compile("ring a\nrepeat n\na[n] down a[n-1]\nends\nadd a[9999999]");
    assert!(far.piece(Repeats([3, 1])).is_err());
}
