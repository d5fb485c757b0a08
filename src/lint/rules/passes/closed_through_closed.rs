use crate::lint::{Context, Found, Rule};
use crate::notation::State;
use crate::report::Diagnostic;
use petgraph::visit::EdgeRef;
use std::collections::BTreeSet;

/// Two closed rings passed through each other.
pub struct ClosedThroughClosed;

impl Rule for ClosedThroughClosed {
    const NAME: &str = "closed-through-closed";
    const PAGE: &str = include_str!("closed_through_closed.md");
    const FOUND: Found = Found::InGraph(check);
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let Some(piece) = context.piece else { return };
    let mut told = BTreeSet::new();
    for edge in piece.graph.edge_references() {
        let state = |ring| piece.graph.node_weight(ring).map(|r| r.state);
        if state(edge.source()) != Some(State::Closed) || state(edge.target()) != Some(State::Closed) {
            continue;
        }
        let Some(link) = context.weave.links().links.get(edge.weight().link as usize) else { continue };
        if !told.insert((link.from, link.to)) {
            continue;
        }
        let (one, other) =
            (piece.ring_name(context.pattern, edge.source()), piece.ring_name(context.pattern, edge.target()));
        findings.push(
            ClosedThroughClosed::at(
                link.span,
                format!("{one} and {other} are both closed, and closed rings cannot pass through each other"),
            )
            .label("one of the two rings must be open")
            .related(context.declared(link.from), format!("{} is declared here", context.family(link.from)))
            .help(format!("declare {} or {} open", context.family(link.from), context.family(link.to))),
        );
    }
}
