//! An accent whose rings lie beyond the end.

use crate::lint::Context;
use crate::report::Diagnostic;

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
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
        let message = format!("{name} falls off the end: of {inside} rings it holds only {links} are there in {size}");
        findings.push(
            Diagnostic::error("accent-off-the-end", span, message)
                .label("puts a ring past the end")
                .related(context.declared(number), "this ring")
                .help(format!("leave it out (`drop {end}` under `ends`), or make more or fewer repeats")),
        );
    }
}
