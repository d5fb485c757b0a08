//! Something is claimed of a bag that the text does not have.

use crate::lint::Context;
use crate::notation::{Of, What};
use crate::report::Diagnostic;
use crate::text::nearest;

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let Some(own) = context.weave.files().first() else { return };
    let statements = &own.tree.statements;
    let bags = || {
        statements.iter().filter_map(|s| match &s.what {
            What::Bag { name, .. } => Some(name.value.as_str()),
            _ => None,
        })
    };
    for statement in statements {
        let What::Claim(_, Of::Bag(name)) = &statement.what else { continue };
        if bags().any(|bag| bag == name.value) {
            continue;
        }
        let found =
            Diagnostic::error("unknown-bag", name.span, format!("no line of `make` is called \"{}\"", name.value))
                .label("nothing is made of this name");
        let names: Vec<String> = bags().take(12).map(|bag| format!("\"{bag}\"")).collect();
        findings.push(match nearest(&name.value, bags()) {
            Some(near) => found.fix(format!("write \"{near}\""), name.span, format!("\"{near}\"")),
            None if names.is_empty() => {
                found.help(format!("add a line under `make`: \"{}\"  length 190 mm", name.value))
            }
            None => found.help(format!("the bags are {}", names.join(", "))),
        });
    }
}
