use crate::lint::{Context, Found, Rule};
use crate::pattern::{FamilyId, Shift};
use crate::report::{Diagnostic, Severity};
use crate::rings::Piece;
use petgraph::graph::NodeIndex;
use std::collections::BTreeMap;

/// A ring at an end that hangs by one link.
pub struct DanglingEnd;

impl Rule for DanglingEnd {
    const NAME: &str = "dangling-end";
    const PAGE: &str = include_str!("dangling_end.md");
    const SEVERITY: Severity = Severity::Warning;
    const FOUND: Found = Found::InGraph(check);
}

/// A ring that inside the piece has this many links or more dangles when it is left with one. A ring of
/// a plain chain has two, and its last one is simply the end of the chain.
const HELD_WELL: usize = 3;
/// The most rings named in one finding.
const MOST_NAMED: usize = 8;

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let Some(piece) = context.piece else { return };
    // Of each family its rings, and how many links the first of them would have inside the piece.
    let mut dangling: BTreeMap<FamilyId, (usize, Vec<NodeIndex>)> = BTreeMap::new();
    for ring in piece.graph.node_indices() {
        let mut links = piece.graph.edges(ring);
        let (Some(_), None) = (links.next(), links.next()) else { continue };
        let Some(weight) = piece.graph.node_weight(ring) else { continue };
        if let Some(inside) = context.links_inside(weight).filter(|inside| *inside >= HELD_WELL) {
            dangling.entry(weight.family).or_insert((inside, Vec::new())).1.push(ring);
        }
    }
    for (family, (inside, rings)) in dangling {
        findings.push(found(context, piece, (family, inside), &rings));
    }
}

fn found(context: &Context<'_>, piece: &Piece, (family, inside): (FamilyId, usize), rings: &[NodeIndex]) -> Diagnostic {
    let shown = rings.get(..MOST_NAMED).unwrap_or(rings);
    let names = shown.iter().map(|r| piece.ring_name(context.pattern, *r)).collect::<Vec<_>>().join(", ");
    let more = match rings.len() - shown.len() {
        0 => String::new(),
        n => format!(" and {n} more"),
    };
    let (verb, each) = if rings.len() == 1 { ("dangles", "it has") } else { ("dangle", "each has") };
    let message = format!("{names}{more} {verb}: {each} 1 link here and {inside} inside the piece");
    let drop = shown.iter().map(|r| context.end_name(piece, *r)).collect::<Vec<_>>().join(", ");
    let mut holders: Vec<String> = shown.iter().filter_map(|r| holder(context, piece, *r)).collect();
    holders.dedup();
    let help = if holders.is_empty() {
        format!("leave out what dangles (`drop {drop}` under `ends`), or let another ring pass it")
    } else {
        let add = holders.join(", ");
        format!("leave out what dangles (`drop {drop}` under `ends`), or add a ring that holds it (`add {add}`)")
    };
    DanglingEnd::at(context.declared(family), message).label("the family it belongs to").help(help)
}

/// A ring just beyond the end that would pass the dangling ring and hold at least one other.
fn holder(context: &Context<'_>, piece: &Piece, ring: NodeIndex) -> Option<String> {
    let cell = context.cell?;
    let weight = piece.graph.node_weight(ring)?;
    let mut missing: Vec<(usize, FamilyId, Shift)> = Vec::new();
    for link in &context.weave.links().links {
        let family = weight.family;
        for (own, other, away) in [(link.from, link.to, link.offset), (link.to, link.from, -link.offset)] {
            let at = weight.at + away;
            let there = piece
                .graph
                .neighbors(ring)
                .any(|n| piece.graph.node_weight(n).is_some_and(|r| r.family == other && r.at == at));
            if own == family && !there && cell.ring(other, at - Shift::ONE).is_some() {
                missing.push((held(context, piece, other, at), other, at));
            }
        }
    }
    let (_, family, at) = missing
        .into_iter()
        .filter(|(held, ..)| *held > 1)
        .max_by_key(|(held, f, at)| (*held, std::cmp::Reverse((*f, *at))))?;
    Some(context.end_place(piece, family, at))
}

/// How many rings of the piece a ring at a place would be linked with.
fn held(context: &Context<'_>, piece: &Piece, family: FamilyId, at: Shift) -> usize {
    let inside = |family: FamilyId, at: Shift| {
        let last = piece.size.last();
        let within = (1..=last.row).contains(&at.row) && (1..=last.column).contains(&at.column);
        within && context.pattern.families[family].accent.is_none()
    };
    let links = &context.weave.links().links;
    let there = links.iter().filter(|l| l.from == family && inside(l.to, at + l.offset)).count();
    let back = links.iter().filter(|l| l.to == family && inside(l.from, at - l.offset)).count();
    there + back
}
