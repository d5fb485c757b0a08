use crate::lint::{Context, Found, Rule};
use crate::pattern::FamilyId;
use crate::report::Diagnostic;
use petgraph::graph::NodeIndex;
use petgraph::unionfind::UnionFind;
use petgraph::visit::EdgeRef;
use std::collections::BTreeMap;

/// A piece that falls into parts.
pub struct SeparateParts;

impl Rule for SeparateParts {
    const NAME: &str = "separate-parts";
    const PAGE: &str = include_str!("separate_parts.md");
    const FOUND: Found = Found::InGraph(check);
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let Some(piece) = context.piece else { return };
    // Repeats that do not join are a rule of their own, and every part would be named again here.
    if super::repeats_apart::apart(context).is_some() {
        return;
    }
    let mut joined = UnionFind::<usize>::new(piece.graph.node_count());
    for edge in piece.graph.edge_references() {
        joined.union(edge.source().index(), edge.target().index());
    }
    let mut parts: BTreeMap<usize, Vec<NodeIndex>> = BTreeMap::new();
    for ring in piece.graph.node_indices().filter(|r| piece.graph.neighbors(*r).next().is_some()) {
        parts.entry(joined.find(ring.index())).or_default().push(ring);
    }
    let mut parts: Vec<Vec<NodeIndex>> = parts.into_values().collect();
    parts.sort_by_key(|rings| std::cmp::Reverse(rings.len()));
    let Some(ring) = parts.get(1).and_then(|second| second.first()) else { return };
    let shown: Vec<String> = parts.iter().take(6).map(|rings| part(context, piece, rings)).collect();
    let more = parts.len().saturating_sub(shown.len());
    let rest = if more > 0 { format!("; and {more} more") } else { String::new() };
    findings.push(
        SeparateParts::at(
            context.declared(piece.graph[*ring].family),
            format!("the piece falls into {} parts: {}{rest}", parts.len(), shown.join("; ")),
        )
        .label("in a part of its own")
        .help("let a ring of one part pass a ring of the other"),
    );
}

/// A part in words: its families with how many rings, and where it lies if it is small.
fn part(context: &Context<'_>, piece: &crate::rings::Piece, rings: &[NodeIndex]) -> String {
    if rings.len() <= 4 {
        let names: Vec<String> = rings.iter().map(|r| piece.ring_name(context.pattern, *r)).collect();
        return names.join(", ");
    }
    let mut counts: BTreeMap<FamilyId, usize> = BTreeMap::new();
    for ring in rings.iter().filter_map(|r| piece.graph.node_weight(*r)) {
        *counts.entry(ring.family).or_default() += 1;
    }
    let families: Vec<String> = counts.iter().map(|(f, n)| format!("{n} of {}", context.family(*f))).collect();
    families.join(" and ")
}
