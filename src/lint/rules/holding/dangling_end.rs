use crate::lint::context::Context;
use crate::lint::rule::{Found, Rule};
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
    let mut dangling: BTreeMap<u32, (usize, Vec<NodeIndex>)> = BTreeMap::new();
    for ring in piece.graph.node_indices() {
        let mut links = piece.graph.edges(ring);
        let (Some(_), None) = (links.next(), links.next()) else { continue };
        let Some(weight) = piece.graph.node_weight(ring) else { continue };
        if let Some(inside) = context.links_inside(weight).filter(|inside| *inside >= HELD_WELL) {
            dangling.entry(weight.family).or_insert((inside, Vec::new())).1.push(ring);
        }
    }
    for (family, (inside, rings)) in dangling {
        findings.push(found(context, piece, (family as usize, inside), &rings));
    }
}

fn found(context: &Context<'_>, piece: &Piece, (family, inside): (usize, usize), rings: &[NodeIndex]) -> Diagnostic {
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
    let mut missing: Vec<(usize, usize, [i32; 2])> = Vec::new();
    for link in &context.weave.links().links {
        let family = weight.family as usize;
        for (own, other, sign) in [(link.from, link.to, 1), (link.to, link.from, -1)] {
            let at = [weight.at[0] + sign * link.offset[0], weight.at[1] + sign * link.offset[1]];
            let there = piece
                .graph
                .neighbors(ring)
                .any(|n| piece.graph.node_weight(n).is_some_and(|r| r.family as usize == other && r.at == at));
            if own == family && !there && cell.ring(other, [at[0] - 1, at[1] - 1]).is_some() {
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
fn held(context: &Context<'_>, piece: &Piece, family: usize, at: [i32; 2]) -> usize {
    let inside = |f: usize, p: [i32; 2]| {
        let size = piece.size.0.map(|n| i32::try_from(n).unwrap_or(i32::MAX));
        let accent = context.pattern.families.get(f).and_then(|f| f.accent);
        accent.is_none() && p.iter().zip(size).all(|(p, last)| *p >= 1 && *p <= last)
    };
    let links = &context.weave.links().links;
    let there =
        links.iter().filter(|l| l.from == family && inside(l.to, [at[0] + l.offset[0], at[1] + l.offset[1]])).count();
    let back =
        links.iter().filter(|l| l.to == family && inside(l.from, [at[0] - l.offset[0], at[1] - l.offset[1]])).count();
    there + back
}
