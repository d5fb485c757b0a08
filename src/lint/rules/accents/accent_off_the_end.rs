use crate::lint::context::Context;
use crate::lint::rule::{Found, Rule};
use crate::report::Diagnostic;

/// An accent whose rings lie beyond the end.
pub struct AccentOffTheEnd;

impl Rule for AccentOffTheEnd {
    const NAME: &str = "accent-off-the-end";
    const PAGE: &str = include_str!("accent_off_the_end.md");
    const FOUND: Found = Found::InGraph(check);
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let (Some(piece), Some(_)) = (context.piece, context.weave.size_asked()) else { return };
    let mut told = vec![false; context.pattern.families.len()];
    for ring in piece.graph.node_indices() {
        let Some(weight) = piece.graph.node_weight(ring) else { continue };
        let number = weight.family as usize;
        let Some(accent) = context.pattern.families.get(number).and_then(|f| f.accent) else { continue };
        let (links, inside) = (piece.graph.edges(ring).count(), context.links_inside(weight).unwrap_or(0));
        let Some(slot) = told.get_mut(number).filter(|t| !**t && links < inside) else { continue };
        *slot = true;
        let name = piece.ring_name(context.pattern, ring);
        let end = context.end_name(piece, ring);
        let span = context.pattern.accents.get(accent).map_or(context.whole(), |a| a.span);
        let size = piece.size.words(context.pattern.lattice);
        let message =
            format!("{name} is past the end of {size}: {links} of the {inside} rings it should hold are there");
        findings.push(
            AccentOffTheEnd::at(span, message)
                .label("puts a ring past the end")
                .related(context.declared(number), "this ring")
                .help(format!("leave it out (`drop {end}` under `ends`), or make more or fewer repeats")),
        );
    }
}
