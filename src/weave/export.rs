//! The ring graph for other programs: JSON (with a published schema) and DOT.
//!
//! Rings and links are written one a line and straight to text: a sheet of a million rings needs no
//! more memory than its output.

use crate::notation::State;
use crate::pattern::{Lies, Shift, Target};
use crate::rings::Piece;
use crate::weave::Weave;
use petgraph::graph::NodeIndex;
use petgraph::visit::EdgeRef;
use serde_json::{Value, json};
use std::fmt::Write as _;

/// The JSON Schema (draft 2020-12) of [`graph_json`].
pub const GRAPH_SCHEMA: &str = include_str!("../../grammar/graph.schema.json");

/// The ring graph as JSON: of the piece, or of one repeat where there is none.
pub fn graph_json(weave: &Weave, piece: Option<&Piece>) -> String {
    let pattern = weave.pattern();
    let dimensions = pattern.lattice.dimensions();
    let fingerprint = weave.fingerprint();
    let families: Vec<Value> = pattern
        .families
        .iter()
        .map(|f| {
            let accent = f.accent.and_then(|a| pattern.accents.get(a));
            let accent = accent.map(|a| json!({ "every": cut(a.every, dimensions), "from": cut(a.from, dimensions) }));
            json!({ "name": f.name.value, "kind": f.kind, "state": f.state.word(), "accent": accent })
        })
        .collect();
    let lying: Vec<Value> = pattern.lying.iter().map(|l| lies(weave, &l.lies)).collect();
    let head = [
        ("name", json!(weave.name())),
        ("lattice", json!(pattern.lattice.word())),
        ("spiral", json!(pattern.spiral)),
        ("lean", json!(pattern.stated_lean().map(crate::notation::Hand::word))),
        ("fingerprint", json!(fingerprint.as_ref().map(|f| &f.weave))),
        ("mirror_fingerprint", json!(fingerprint.as_ref().map(|f| &f.mirror))),
    ];
    let mut out = String::from("{\n");
    // Writing to a string cannot fail.
    for (key, value) in head {
        let _ = writeln!(out, "  \"{key}\": {value},");
    }
    list(&mut out, "families", families.iter().map(Value::to_string), ",");
    list(&mut out, "lying", lying.iter().map(Value::to_string), ",");
    match piece {
        Some(piece) => write_piece(&mut out, weave, piece),
        None => write_repeat(&mut out, weave),
    }
    out.push_str("}\n");
    out
}

fn cut(pair: Shift, dimensions: usize) -> Value {
    json!(pair.to_array().iter().take(dimensions).collect::<Vec<_>>())
}

fn list(out: &mut String, key: &str, items: impl Iterator<Item = String>, after: &str) {
    let _ = write!(out, "  \"{key}\": [");
    let mut first = true;
    for item in items {
        out.push_str(if first { "\n    " } else { ",\n    " });
        out.push_str(&item);
        first = false;
    }
    let _ = writeln!(out, "{}]{after}", if first { "" } else { "\n  " });
}

fn lies(weave: &Weave, lies: &Lies<Target>) -> Value {
    let says = match lies {
        Lies::Behind(..) => "behind".to_owned(),
        Lies::Over(..) => "over".to_owned(),
        Lies::Between(..) => "between".to_owned(),
        Lies::Folded(..) => "folded back".to_owned(),
        Lies::Turning(hand) => format!("turns {}", hand.word()),
        Lies::On(_, side) => format!("{} side", side.word()),
    };
    let rings: Vec<String> = lies.rings().into_iter().map(|ring| weave.pattern().ring_name(ring)).collect();
    json!({ "says": says, "rings": rings })
}

fn write_piece(out: &mut String, weave: &Weave, piece: &Piece) {
    let pattern = weave.pattern();
    let dimensions = pattern.lattice.dimensions();
    let size: Vec<u32> = piece.size.0.into_iter().take(dimensions).collect();
    let _ = writeln!(out, "  \"of\": \"piece\",\n  \"size\": {},", json!(size));
    let rings = piece.graph.node_indices().filter_map(|n| {
        let ring = piece.graph.node_weight(n)?;
        let state = if ring.state == State::Closed { "closed" } else { "open" };
        Some(format!(
            "{{ \"ring\": {}, \"family\": {}, \"at\": {}, \"state\": \"{state}\" }}",
            json!(piece.ring_name(pattern, n)),
            json!(pattern.family_name(ring.family)),
            cut(ring.at, dimensions)
        ))
    });
    list(out, "rings", rings, ",");
    let links = piece.graph.edge_references().map(|e| {
        let (from, to) = (piece.ring_name(pattern, e.source()), piece.ring_name(pattern, e.target()));
        format!("{{ \"from\": {}, \"to\": {}, \"sign\": {} }}", json!(from), json!(to), e.weight().sign)
    });
    list(out, "links", links, "");
}

fn write_repeat(out: &mut String, weave: &Weave) {
    let dimensions = weave.pattern().lattice.dimensions();
    let Ok(cell) = weave.cell() else {
        out.push_str("  \"of\": \"repeat\",\n  \"size\": [],\n  \"rings\": [],\n  \"links\": []\n");
        return;
    };
    let _ = writeln!(out, "  \"of\": \"repeat\",\n  \"size\": {},", cut(cell.period, dimensions));
    let name = |n: NodeIndex| {
        let ring = cell.graph.node_weight(n)?;
        let family = weave.pattern().family_name(ring.family);
        let at: Vec<String> = ring.phase.to_array().iter().take(dimensions).map(|p| (p + 1).to_string()).collect();
        Some(if at.is_empty() { family.to_owned() } else { format!("{family}[{}]", at.join(",")) })
    };
    let rings = cell.graph.node_indices().filter_map(|n| {
        let ring = cell.graph.node_weight(n)?;
        let family = &weave.pattern().families[ring.family];
        let at = cut(ring.phase + Shift::ONE, dimensions);
        Some(format!(
            "{{ \"ring\": {}, \"family\": {}, \"at\": {at}, \"state\": \"{}\" }}",
            json!(name(n)?),
            json!(family.name.value),
            family.state.word()
        ))
    });
    list(out, "rings", rings, ",");
    let links = cell.graph.edge_references().filter_map(|e| {
        let weight = e.weight();
        let (from, to) = (json!(name(e.source())?), json!(name(e.target())?));
        let shift = cut(weight.shift, dimensions);
        Some(format!("{{ \"from\": {from}, \"to\": {to}, \"shift\": {shift}, \"sign\": {} }}", weight.sign))
    });
    list(out, "links", links, "");
}

/// The ring graph in DOT, the plain text language for drawing graphs: closed rings doubly circled, links
/// marked with their sign, and with their shift where the graph is of one repeat.
pub fn graph_dot(weave: &Weave, piece: Option<&Piece>) -> String {
    let quote = |text: &str| format!("\"{}\"", text.replace('\\', "\\\\").replace('"', "\\\""));
    let mut out = format!("graph {} {{\n  node [shape=circle];\n", quote(weave.name()));
    let sign = |s: i8| if s > 0 { "+" } else { "-" };
    let mut ring = |name: &str, closed: bool| {
        let _ = writeln!(out, "  {}{};", quote(name), if closed { " [shape=doublecircle]" } else { "" });
    };
    if let Some(piece) = piece {
        let name = |n: NodeIndex| piece.ring_name(weave.pattern(), n);
        for n in piece.graph.node_indices() {
            ring(&name(n), piece.graph.node_weight(n).is_some_and(|r| r.state == State::Closed));
        }
        for e in piece.graph.edge_references() {
            let (from, to) = (quote(&name(e.source())), quote(&name(e.target())));
            let _ = writeln!(out, "  {from} -- {to} [label=\"{}\"];", sign(e.weight().sign));
        }
    } else if let Ok(cell) = weave.cell() {
        let dimensions = weave.pattern().lattice.dimensions();
        let name = |n: NodeIndex| {
            let ring = cell.graph.node_weight(n);
            let family = ring.map_or("?", |r| weave.pattern().family_name(r.family));
            let at: Vec<String> =
                ring.iter().flat_map(|r| r.phase.to_array()).take(dimensions).map(|p| (p + 1).to_string()).collect();
            if at.is_empty() { family.to_owned() } else { format!("{family}[{}]", at.join(",")) }
        };
        let closed = |n: NodeIndex| {
            cell.graph.node_weight(n).is_some_and(|r| weave.pattern().families[r.family].state == State::Closed)
        };
        for n in cell.graph.node_indices() {
            ring(&name(n), closed(n));
        }
        for e in cell.graph.edge_references() {
            let shift: Vec<String> =
                e.weight().shift.to_array().iter().take(dimensions).map(|s| format!("{s:+}")).collect();
            let (from, to) = (quote(&name(e.source())), quote(&name(e.target())));
            let label = format!("{} {}", sign(e.weight().sign), shift.join(","));
            let _ = writeln!(out, "  {from} -- {to} [label=\"{}\"];", label.trim_end());
        }
    }
    out.push_str("}\n");
    out
}
