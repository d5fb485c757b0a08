//! An accent whose rings lie beyond the end.

use crate::lint::Context;
use crate::report::Diagnostic;

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let (Some(piece), Some(_)) = (context.piece, context.weave.size_asked()) else { return };
    let mut told = context.pattern.families.map(|_| false);
    for ring in piece.graph.node_indices() {
        let Some(weight) = piece.graph.node_weight(ring) else { continue };
        let family = weight.family;
        let Some(accent) = context.pattern.accent_of(family) else { continue };
        let (links, inside) = (piece.graph.edges(ring).count(), context.links_inside(weight).unwrap_or(0));
        if links >= inside || std::mem::replace(&mut told[family], true) {
            continue;
        }
        let name = piece.ring_name(context.pattern, ring);
        let end = context.end_name(piece, ring);
        let size = piece.size.words(context.pattern.lattice);
        let message = format!("{name} falls off the end: of {inside} rings it holds only {links} are there in {size}");
        findings.push(
            Diagnostic::error("accent-off-the-end", accent.span, message)
                .label("puts a ring past the end")
                .related(context.declared(family), "this ring")
                .help(format!("leave it out (`drop {end}` under `ends`), or make more or fewer repeats")),
        );
    }
}
