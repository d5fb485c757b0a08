//! The order of work: every ring is woven in once, holds on to the work, and what goes on alike is told once.

mod english;
mod mutations;
mod round;
mod tutorials;

use crate::common::{compile, examples, page_fences};
use byrnie::notation::State;
use byrnie::pattern::Repeats;
use byrnie::rings::Piece;
use byrnie::steps::{Order, Part};
use byrnie::{Weave, lint};
use petgraph::graph::NodeIndex;
use petgraph::visit::EdgeRef;
use std::collections::BTreeSet;
use std::fmt::Write as _;

fn example(name: &str) -> Weave {
    compile(examples().into_iter().find(|(n, _)| *n == name).unwrap().1)
}

fn order(weave: &Weave, size: Repeats) -> (Piece, Order) {
    let piece = weave.piece(size).unwrap();
    let order = Order::of(weave.pattern(), &piece).unwrap();
    (piece, order)
}

/// The size asked for where that needs no settling, else some repeats.
fn sizes(weave: &Weave) -> Vec<Repeats> {
    let make = &weave.pattern().make;
    let asked = make.repeats.as_ref().map(|n| Repeats([n.value, 1]));
    [Some(Repeats([7, 6])), asked].into_iter().flatten().collect()
}

/// The work as lines: what is done, and what over and over.
fn told(weave: &Weave, piece: &Piece, order: &Order) -> String {
    let name = |ring: NodeIndex| piece.ring_name(weave.pattern(), ring);
    let mut out = String::new();
    let names = |rings: &[NodeIndex]| rings.iter().map(|r| name(*r)).collect::<Vec<_>>().join(" ");
    let _ = writeln!(out, "closed {}, begin with {}", order.closed.len(), names(&order.start()));
    for part in &order.parts {
        tell(weave, order, &name, part, 0, &mut out);
    }
    out
}

fn tell(weave: &Weave, order: &Order, name: &dyn Fn(NodeIndex) -> String, part: &Part, deep: usize, out: &mut String) {
    let indent = "  ".repeat(deep);
    if part.times > 1 {
        let _ = writeln!(out, "{indent}{} times, from step {}, {} each:", part.times, part.first + 1, part.steps);
        for part in &part.round {
            tell(weave, order, name, part, deep + 1, out);
        }
        return;
    }
    let step = &order.steps[part.first];
    let passes: Vec<String> = step
        .passes
        .iter()
        .map(|p| {
            format!("{}{}{}", if p.sign > 0 { "↓" } else { "↑" }, name(p.ring), if p.picked_up { "+" } else { "" })
        })
        .collect();
    let lying = |statement: usize| {
        let span = weave.pattern().lying[statement].span;
        weave.sources().get(span.source).unwrap().text()[span.start as usize..span.end as usize].to_owned()
    };
    let stays: Vec<String> =
        step.stays.iter().map(|s| format!("; {} ({:?})", lying(s.statement), s.at.to_array())).collect();
    let _ = writeln!(out, "{indent}{} {}{}", name(step.ring), passes.join(" "), stays.concat());
}

#[test]
fn the_work_of_some_weaves() {
    for (name, size) in [
        ("half-persian-3-in-1", [9, 1]),
        ("tideline-bracelet", [12, 1]),
        ("byzantine-chain", [5, 1]),
        ("european-4-in-1-sheet", [6, 8]),
        ("simple-chain", [7, 1]),
        ("rosette-of-four", [1, 1]),
    ] {
        let weave = example(name);
        let (piece, order) = order(&weave, Repeats(size));
        insta::assert_snapshot!(format!("work_{name}"), told(&weave, &piece, &order));
    }
}

/// What must hold of any order of work.
fn sound(weave: &Weave, piece: &Piece, order: &Order) {
    let name = weave.name();
    let state = |ring: NodeIndex| piece.graph[ring].state;
    let accent = |ring: NodeIndex| weave.pattern().families[piece.graph[ring].family].accent;
    let mut there: BTreeSet<NodeIndex> = BTreeSet::new();
    let mut links = BTreeSet::new();
    for (number, step) in order.steps.iter().enumerate() {
        assert_eq!(state(step.ring), State::Open, "{name}");
        for pass in &step.passes {
            // What is passed is there, or is a closed ring picked up now.
            assert_eq!(pass.picked_up, !there.contains(&pass.ring), "{name}, step {number}");
            assert!(!pass.picked_up || state(pass.ring) == State::Closed, "{name}, step {number}");
            let (from, to) = (step.ring.min(pass.ring), step.ring.max(pass.ring));
            assert!(links.insert((from, to, pass.sign)), "{name}, step {number}");
        }
        // A base is finished before its accents.
        if step.accent.is_none() {
            assert!(order.steps.iter().take(number).all(|s| s.accent.is_none()), "{name}, step {number}");
        }
        assert_eq!(step.accent, accent(step.ring));
        assert!(there.insert(step.ring), "{name}: twice");
        there.extend(step.passes.iter().map(|p| p.ring));
    }
    // Every ring and every link of the piece, and no other.
    let open = piece.graph.node_indices().filter(|r| state(*r) == State::Open).count();
    assert_eq!((order.steps.len(), order.steps.len() + order.closed.len()), (open, piece.graph.node_count()), "{name}");
    let all = piece.graph.edge_references().map(|e| {
        let (from, to) = (e.source().min(e.target()), e.source().max(e.target()));
        (from, to, e.weight().sign)
    });
    assert_eq!(links, all.collect(), "{name}");
    for ring in &order.left_over {
        assert!(piece.graph.neighbors(*ring).next().is_none(), "{name}");
    }
    // The parts are the steps, one after another.
    let mut next = 0;
    for part in &order.parts {
        covers(part, &mut next);
    }
    assert_eq!(next, order.steps.len(), "{name}");
}

fn covers(part: &Part, next: &mut usize) {
    assert_eq!(part.first, *next);
    if part.times > 1 {
        let mut within = *next;
        part.round.iter().for_each(|p| covers(p, &mut within));
        assert_eq!(within, *next + part.steps);
    } else {
        assert_eq!((part.steps, part.round.len()), (1, 0));
    }
    *next += part.steps * part.times;
}

#[test]
fn every_ring_is_woven_in_once_and_holds_on_to_the_work() {
    for (name, text) in examples() {
        let weave = compile(text);
        for size in sizes(&weave) {
            let size = match weave.pattern().lattice {
                byrnie::pattern::Lattice::Sheet => size,
                byrnie::pattern::Lattice::Chain => Repeats([size.0[0], 1]),
                byrnie::pattern::Lattice::Unit => Repeats([1, 1]),
            };
            let (piece, order) = order(&weave, size);
            sound(&weave, &piece, &order);
            assert_eq!(order.left_over, [], "{name}");
            let begun = order.steps.iter().filter(|s| s.passes.iter().all(|p| p.picked_up)).count();
            assert_eq!(begun, 1, "{name} is begun once, and then goes on");
        }
    }
}

/// A chain of a hundred repeats is told in few words, and so is a sheet.
#[test]
fn what_goes_on_alike_is_told_once() {
    fn lines(parts: &[Part]) -> usize {
        parts.iter().map(|p| 1 + lines(&p.round)).sum()
    }
    for (name, text) in examples() {
        let weave = compile(text);
        let size = match weave.pattern().lattice {
            byrnie::pattern::Lattice::Sheet => Repeats([30, 31]),
            byrnie::pattern::Lattice::Chain => Repeats([120, 1]),
            byrnie::pattern::Lattice::Unit => continue,
        };
        let (piece, order) = order(&weave, size);
        sound(&weave, &piece, &order);
        let lines = lines(&order.parts);
        assert!(lines <= 60 && lines * 4 < order.steps.len(), "{name}: {lines} of {}", order.steps.len());
    }
}

/// Two rings are closed before the first ring of half Persian goes in; a knot of open rings begins with one.
#[test]
fn the_least_that_is_closed_beforehand() {
    for (name, least) in
        [("half-persian-3-in-1", 2), ("half-persian-4-in-1", 2), ("rosette-of-three", 1), ("byzantine-chain", 2)]
    {
        let weave = example(name);
        assert_eq!(order(&weave, Repeats([6, 1])).1.least_closed(), least, "{name}");
    }
}

/// There is no order of work just where the linter says that closed rings are linked.
#[test]
fn no_order_of_work_is_an_error_of_the_linter() {
    let mut without = 0;
    let texts = examples().into_iter().map(|(_, t)| t.to_owned()).chain(page_fences());
    let ends = "ring a closed\nring b open\nrepeat n\nb[n] down a[n], a[n+1]\nends\nclose b[1]\n".to_owned();
    for text in texts.chain([ends]) {
        let weave = compile(&text);
        if lint::graph_broken(&weave).is_some() {
            continue;
        }
        let Ok(piece) = weave.piece(Repeats([5, if weave.pattern().lattice.dimensions() == 2 { 5 } else { 1 }])) else {
            continue;
        };
        let findings = lint::check_up_to(&weave, lint::Needs::Graph);
        let said = findings.iter().any(|f| f.rule == "closed-through-closed");
        let made = Order::of(weave.pattern(), &piece);
        assert_eq!(made.is_err(), said, "{text}");
        without += usize::from(said);
        if let Ok(order) = made {
            sound(&weave, &piece, &order);
        }
    }
    assert!(without >= 2, "{without}");
}

/// A ring of an accent that is closed beforehand is picked up by the ring of the base that passes it.
#[test]
fn closed_accents_come_in_with_the_base() {
    let weave =
        compile("ring a open\nring c closed\nrepeat n\na[n] down a[n-1]\naccent every 2, from 2\nc[n] down a[n]\n");
    let (piece, order) = order(&weave, Repeats([6, 1]));
    sound(&weave, &piece, &order);
    insta::assert_snapshot!("work_closed_accents", told(&weave, &piece, &order));
}
