use crate::lint::{Context, Found, Rule};
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
    let mut told = context.pattern.families.map(|_| false);
    for ring in piece.graph.node_indices() {
        let Some(weight) = piece.graph.node_weight(ring) else { continue };
        let family = weight.family;
        let Some(accent) = context.pattern.accent_of(family) else { continue };
        let links = piece.graph.edges(ring).count();
        let Some(inside) = context.links_inside(weight).filter(|inside| links < *inside) else { continue };
        if std::mem::replace(&mut told[family], true) {
            continue;
        }
        let name = piece.ring_name(context.pattern, ring);
        let end = context.end_name(piece, ring);
        let size = piece.size.words(context.pattern.lattice);
        let message =
            format!("{name} is past the end of {size}: {links} of the {inside} rings it should hold are there");
        findings.push(
            AccentOffTheEnd::at(accent.span, message)
                .label("puts a ring past the end")
                .related(context.declared(family), "this ring")
                .help(format!("leave it out (`drop {end}` under `ends`), or make more or fewer repeats")),
        );
    }
}
