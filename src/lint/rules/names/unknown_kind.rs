use crate::lint::{Context, Found, Known, Rule};
use crate::notation::{Claim, What};
use crate::report::Diagnostic;
use crate::text::{Span, nearest};

/// A kind is named that has no line in `rings`.
pub struct UnknownKind;

impl Rule for UnknownKind {
    const NAME: &str = "unknown-kind";
    const PAGE: &str = include_str!("unknown_kind.md");
    const FOUND: Found = Found::InText(check);
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    // A line that could not be read may be the very one that is missed here.
    let all_read = context.weave.files().iter().all(|f| f.read_whole && f.base_fault.is_none());
    let kinds: Vec<&str> = context.pattern.kinds.iter().map(|k| k.name.as_str()).collect();
    if kinds.is_empty() || !all_read {
        return;
    }
    let mut told: Vec<&str> = Vec::new();
    for statement in &context.statements {
        let What::Ring { names, kind, .. } = &statement.what else { continue };
        let (name, span) = match kind {
            Some(kind) => (kind.value.as_str(), kind.span),
            None => ("main", names.first().map_or(statement.span, |n| n.span)),
        };
        if kinds.contains(&name) {
            continue;
        }
        let near = nearest(name, kinds.iter().copied()).filter(|_| kind.is_some() && span.source == 0);
        match near {
            Some(near) => findings.push(ring(name, span).fix(format!("write `{near}`"), span, near)),
            None if told.contains(&name) => {}
            None => {
                told.push(name);
                findings.push(without_size(context, name, span));
            }
        }
    }
    let known = Known::words(kinds.iter().copied());
    for claim in context.claims {
        let Claim::AspectRatio { kinds: named, .. } = &claim.value else { continue };
        for kind in named.iter().filter(|k| !kinds.contains(&k.value.as_str())) {
            let found = UnknownKind::at(kind.span, format!("no line of `rings` is called `{}`", kind.value))
                .label("this kind has no size");
            findings.push(known.suggest(found, kind, || format!("the kinds are {}", known.list())));
        }
    }
}

fn ring(name: &str, span: Span) -> Diagnostic {
    UnknownKind::warning(span, format!("rings of the kind `{name}` have no line in `rings`"))
        .label("no size and no material")
}

/// Rings of a base are shown at the `rings` of the file asked for, where the line is to be added.
fn without_size(context: &Context<'_>, name: &str, span: Span) -> Diagnostic {
    let own = context.weave.files().first().map(|f| f.tree.statements.as_slice()).unwrap_or_default();
    let heading = own.iter().find(|s| matches!(s.what, What::Rings(None))).filter(|_| span.source != 0);
    let found = match heading {
        Some(heading) => ring(name, heading.span).related(span, format!("a ring of the kind `{name}`")),
        None => ring(name, span),
    };
    found.help(format!("add a line under `rings`: {name}  wire 1.6 mm, inner 9.5 mm, copper"))
}
