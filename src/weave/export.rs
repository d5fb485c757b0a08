//! The ring graph for other programs: JSON and DOT.
//!
//! Rings and links are written one a line and straight to text: a sheet of a million rings needs no
//! more memory than its output.

use crate::notation::{Hand, State};
use crate::pattern::{Accent, Lattice, Lies, Pattern, Shift, Target};
use crate::rings::{Cell, Piece};
use crate::weave::Weave;
use petgraph::graph::NodeIndex;
use petgraph::visit::EdgeRef;
use schemars::JsonSchema;
use serde::Serialize;
use serde_json::{Value, json};
use std::fmt::Write as _;

/// The signed ring graph of a weave, as `byrnie graph` prints it: of the whole piece, or of one repeat.
#[derive(Serialize, JsonSchema)]
#[schemars(title = "Ring graph")]
pub struct GraphJson<'w> {
    #[serde(flatten)]
    head: Head<'w>,
    of: Of,
    /// Repeats of the base: in the piece, or in one repeat with all its accents.
    #[schemars(length(max = 2))]
    size: Vec<i32>,
    rings: Vec<Ring<'w>>,
    links: Vec<Link>,
}

#[derive(Serialize, JsonSchema)]
struct Head<'w> {
    name: &'w str,
    lattice: Lattice,
    /// Whether repeats may turn about the length of the chain.
    spiral: bool,
    /// The lean the text states.
    lean: Option<Hand>,
    /// The short name of the weave, the same for every text of it; null where one repeat is too large to compare.
    #[schemars(regex(pattern = "^[0-9a-f]{4}(-[0-9a-f]{4}){3}$"))]
    fingerprint: Option<String>,
    /// The same of its mirror image.
    #[schemars(regex(pattern = "^[0-9a-f]{4}(-[0-9a-f]{4}){3}$"))]
    mirror_fingerprint: Option<String>,
    families: Vec<Family<'w>>,
    /// How rings lie, with rings named as in the repeat.
    lying: Vec<Lying>,
}

#[derive(Serialize, JsonSchema)]
struct Family<'w> {
    name: &'w str,
    kind: &'w str,
    state: State,
    /// Null for rings of the base.
    accent: Option<On>,
}

/// On which repeats an accent stands.
#[derive(Serialize, JsonSchema)]
struct On {
    #[schemars(length(max = 2))]
    every: Vec<i32>,
    #[schemars(length(max = 2))]
    from: Vec<i32>,
}

#[derive(Serialize, JsonSchema)]
struct Lying {
    #[schemars(extend("enum" = [
        "behind", "over", "between", "folded back", "far side", "near side", "turns left", "turns right"
    ]))]
    says: String,
    #[schemars(length(max = 3))]
    rings: Vec<String>,
}

#[derive(Clone, Copy, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
enum Of {
    /// The whole piece.
    Piece,
    /// One repeat.
    Repeat,
}

#[derive(Serialize, JsonSchema)]
struct Ring<'w> {
    ring: String,
    family: &'w str,
    /// Its repeat, from 1: of a chain one number, of a sheet row and column.
    #[schemars(length(max = 2))]
    at: Vec<i32>,
    state: State,
}

#[derive(Serialize, JsonSchema)]
struct Link {
    /// The ring that passes.
    from: String,
    /// The ring it passes.
    to: String,
    /// How many whole repeats lie between them; in the graph of one repeat.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schemars(with = "Vec<i32>", length(max = 2))]
    shift: Option<Vec<i32>>,
    /// 1: down, from front to back; -1: up, from back to front. The linking number, with each ring's front the side from
    /// which its path runs clockwise.
    #[schemars(extend("enum" = [1, -1]))]
    sign: i8,
}

/// The ring graph as JSON: of the piece, or of one repeat where there is none.
pub fn graph_json(weave: &Weave, piece: Option<&Piece>) -> String {
    let mut out = String::from("{\n");
    if let Value::Object(head) = json!(Head::of(weave)) {
        for (key, value) in head {
            match value {
                Value::Array(items) => list(&mut out, &key, items.iter().map(Value::to_string), ","),
                // Writing to a string cannot fail.
                value => _ = writeln!(out, "  \"{key}\": {value},"),
            }
        }
    }
    match (piece, weave.cell()) {
        (Some(piece), _) => write_piece(&mut out, weave.pattern(), piece),
        (None, Ok(cell)) => write_repeat(&mut out, weave.pattern(), cell),
        (None, Err(_)) => write(&mut out, Of::Repeat, &[], [].into_iter(), [].into_iter()),
    }
    out.push_str("}\n");
    out
}

fn write<'w>(
    out: &mut String,
    of: Of,
    size: &[i32],
    rings: impl Iterator<Item = Ring<'w>>,
    links: impl Iterator<Item = Link>,
) {
    let _ = writeln!(out, "  \"of\": {},\n  \"size\": {},", json!(of), json!(size));
    list(out, "rings", rings.map(|ring| line(&ring)), ",");
    list(out, "links", links.map(|link| line(&link)), "");
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

/// An object in one line, with room between its parts.
fn line(item: &impl Serialize) -> String {
    let Value::Object(fields) = json!(item) else { return String::new() };
    let fields: Vec<String> = fields.iter().map(|(key, value)| format!("\"{key}\": {value}")).collect();
    format!("{{ {} }}", fields.join(", "))
}

fn cut(shift: Shift, pattern: &Pattern) -> Vec<i32> {
    shift.to_array().into_iter().take(pattern.lattice.dimensions()).collect()
}

impl<'w> Head<'w> {
    fn of(weave: &'w Weave) -> Self {
        let pattern = weave.pattern();
        let (fingerprint, mirror_fingerprint) = weave.fingerprint().map(|f| (f.weave, f.mirror)).unzip();
        let on = |a: &Accent| On { every: cut(a.every, pattern), from: cut(a.from, pattern) };
        let families = pattern.families.iter().map(|f| Family {
            name: &f.name.value,
            kind: &f.kind,
            state: f.state,
            accent: f.accent.and_then(|a| pattern.accents.get(a)).map(on),
        });
        Self {
            name: weave.name(),
            lattice: pattern.lattice,
            spiral: pattern.spiral,
            lean: pattern.stated_lean(),
            fingerprint,
            mirror_fingerprint,
            families: families.collect(),
            lying: pattern.lying.iter().map(|l| Lying::of(pattern, &l.lies)).collect(),
        }
    }
}

impl Lying {
    fn of(pattern: &Pattern, lies: &Lies<Target>) -> Self {
        let says = match lies {
            Lies::Behind(..) => "behind".to_owned(),
            Lies::Over(..) => "over".to_owned(),
            Lies::Between(..) => "between".to_owned(),
            Lies::Folded(..) => "folded back".to_owned(),
            Lies::Turning(hand) => format!("turns {}", hand.word()),
            Lies::On(_, side) => format!("{} side", side.word()),
        };
        Self { says, rings: lies.rings().into_iter().map(|ring| pattern.ring_name(ring)).collect() }
    }
}

fn write_piece(out: &mut String, pattern: &Pattern, piece: &Piece) {
    let rings = piece.graph.node_indices().filter_map(|n| {
        let ring = piece.graph.node_weight(n)?;
        let family = pattern.family_name(ring.family);
        Some(Ring { ring: piece.ring_name(pattern, n), family, at: cut(ring.at, pattern), state: ring.state })
    });
    let links = piece.graph.edge_references().map(|e| Link {
        from: piece.ring_name(pattern, e.source()),
        to: piece.ring_name(pattern, e.target()),
        shift: None,
        sign: e.weight().sign,
    });
    let [rows, columns] = piece.size.0.map(u32::cast_signed);
    write(out, Of::Piece, &cut(Shift::new(rows, columns), pattern), rings, links);
}

fn write_repeat(out: &mut String, pattern: &Pattern, cell: &Cell) {
    let rings = cell.graph.node_indices().filter_map(|n| {
        let ring = cell.graph.node_weight(n)?;
        let family = &pattern.families[ring.family];
        let at = cut(ring.phase + Shift::ONE, pattern);
        Some(Ring { ring: name_in(pattern, cell, n)?, family: &family.name.value, at, state: family.state })
    });
    let links = cell.graph.edge_references().filter_map(|e| {
        let (from, to) = (name_in(pattern, cell, e.source())?, name_in(pattern, cell, e.target())?);
        Some(Link { from, to, shift: Some(cut(e.weight().shift, pattern)), sign: e.weight().sign })
    });
    write(out, Of::Repeat, &cut(cell.period, pattern), rings, links);
}

/// What a ring of one repeat is called: its family and its place, from 1.
fn name_in(pattern: &Pattern, cell: &Cell, ring: NodeIndex) -> Option<String> {
    let ring = cell.graph.node_weight(ring)?;
    let family = pattern.family_name(ring.family);
    let at: Vec<String> = cut(ring.phase, pattern).iter().map(|p| (p + 1).to_string()).collect();
    Some(if at.is_empty() { family.to_owned() } else { format!("{family}[{}]", at.join(",")) })
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
        let pattern = weave.pattern();
        let closed = |n: NodeIndex| {
            let ring = cell.graph.node_weight(n);
            ring.is_some_and(|r| pattern.families[r.family].state == State::Closed)
        };
        let names = |n: NodeIndex| name_in(pattern, cell, n);
        for n in cell.graph.node_indices() {
            if let Some(name) = names(n) {
                ring(&name, closed(n));
            }
        }
        for e in cell.graph.edge_references() {
            let Some((from, to)) = names(e.source()).zip(names(e.target())) else { continue };
            let shift: Vec<String> = cut(e.weight().shift, pattern).iter().map(|s| format!("{s:+}")).collect();
            let (from, to) = (quote(&from), quote(&to));
            let label = format!("{} {}", sign(e.weight().sign), shift.join(","));
            let _ = writeln!(out, "  {from} -- {to} [label=\"{}\"];", label.trim_end());
        }
    }
    out.push_str("}\n");
    out
}
