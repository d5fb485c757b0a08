use crate::lint::{Context, Found, Known, Rule};
use crate::notation::What;
use crate::report::Diagnostic;

/// A bag uses a set of rings that the text does not have.
pub struct UnknownRingSet;

impl Rule for UnknownRingSet {
    const NAME: &str = "unknown-rings";
    const PAGE: &str = include_str!("unknown_ring_set.md");
    const FOUND: Found = Found::InText(check);
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    // Sets of a variant are its own, and it has none.
    let Some(own) = context.weave.files().first().filter(|_| !context.pattern.bags.is_empty()) else { return };
    let sets: Vec<&str> = context.pattern.sets.iter().map(|s| s.name.value.as_str()).collect();
    let known = Known::quoted(sets.iter().copied());
    let named = own.tree.statements.iter().filter_map(|s| match &s.what {
        What::Bag { rings, .. } => Some(rings),
        _ => None,
    });
    for name in named.flatten().filter(|name| !sets.contains(&name.value.as_str())) {
        let found = UnknownRingSet::at(name.span, format!("no set of rings is called \"{}\"", name.value))
            .label("these rings have no sizes");
        findings.push(known.suggest(found, name, || {
            if sets.is_empty() {
                format!(
                    "add a heading `rings \"{}\"`, and under it a line such as main  wire 1.2 mm, inner 5 mm",
                    name.value
                )
            } else {
                format!("the sets are {}", known.list())
            }
        }));
    }
}
