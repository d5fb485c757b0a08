use crate::lint::{Context, Found, Rule};
use crate::notation::State;
use crate::pattern::FamilyId;
use crate::report::Diagnostic;

/// Rings with no link at all.
pub struct HeldByNothing;

impl Rule for HeldByNothing {
    const NAME: &str = "held-by-nothing";
    const PAGE: &str = include_str!("held_by_nothing.md");
    const FOUND: Found = Found::InGraph(check);
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let nowhere: Vec<FamilyId> = context.unlinked().collect();
    let named = nowhere.iter().filter(|f| context.is_named(**f)).map(|f| &context.pattern.families[*f]);
    for family in named.filter(|f| f.state == State::Open) {
        let name = &family.name.value;
        findings.push(
            HeldByNothing::at(family.name.span, format!("{name} passes no ring, and no ring passes it"))
                .label("held by nothing")
                .help(format!("write what {name} passes: `{name} down …`")),
        );
    }
    let Some(piece) = context.piece else { return };
    let mut told = context.pattern.families.map(|_| false);
    for ring in piece.graph.node_indices().filter(|r| piece.graph.neighbors(*r).next().is_none()) {
        let family = piece.graph[ring].family;
        if nowhere.contains(&family) || std::mem::replace(&mut told[family], true) {
            continue;
        }
        let name = piece.ring_name(context.pattern, ring);
        findings.push(
            HeldByNothing::at(
                context.declared(family),
                format!("nothing holds {name}: every ring it would pass is past the end"),
            )
            .label("the family it belongs to")
            .help(format!("leave it out: `drop {}` under `ends`", context.end_name(piece, ring))),
        );
    }
}
