use crate::lint::{Context, Found, Known, Rule};
use crate::notation::{Of, What};
use crate::report::Diagnostic;

/// A claim is about a bag that the text does not have.
pub struct UnknownBag;

impl Rule for UnknownBag {
    const NAME: &str = "unknown-bag";
    const PAGE: &str = include_str!("unknown_bag.md");
    const FOUND: Found = Found::InText(check);
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let Some(own) = context.weave.files().first() else { return };
    let statements = &own.tree.statements;
    let bags = statements.iter().filter_map(|s| match &s.what {
        What::Bag { name, .. } => Some(name.value.as_str()),
        _ => None,
    });
    let bags: Vec<&str> = bags.collect();
    for statement in statements {
        let What::Claim(_, Of::Bag(name)) = &statement.what else { continue };
        if bags.contains(&name.value.as_str()) {
            continue;
        }
        let found = UnknownBag::at(name.span, format!("no line of `make` is called \"{}\"", name.value))
            .label("there is no such bag");
        let known = Known::quoted(bags.iter().copied());
        findings.push(known.suggest(found, name, || {
            if bags.is_empty() {
                format!("add a line under `make`: \"{}\"  length 190 mm", name.value)
            } else {
                format!("the bags are {}", known.list())
            }
        }));
    }
}
