//! Rings with no link at all.

use crate::lint::Context;
use crate::notation::State;
use crate::pattern::FamilyId;
use crate::report::Diagnostic;

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let nowhere: Vec<FamilyId> = context.unlinked().collect();
    let named = nowhere.iter().filter(|f| context.is_named(**f)).map(|f| &context.pattern.families[*f]);
    for family in named.filter(|f| f.state == State::Open) {
        let name = &family.name.value;
        findings.push(
            Diagnostic::error(
                "held-by-nothing",
                family.name.span,
                format!("{name} passes no ring and no ring passes it"),
            )
            .label("held by nothing")
            .help(format!("say what {name} passes: `{name} down …`")),
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
            Diagnostic::error(
                "held-by-nothing",
                context.declared(family),
                format!("{name} is held by nothing: every ring it would pass lies beyond the end"),
            )
            .label("the family it belongs to")
            .help(format!("leave it out: `drop {}` under `ends`", context.end_name(piece, ring))),
        );
    }
}
