//! A statement names a ring that no `ring` line declares.

use crate::lint::Context;
use crate::notation::What;
use crate::report::Diagnostic;
use crate::text::{Spanned, nearest};

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let declared: Vec<&str> = context.pattern.families.iter().map(|f| f.name.value.as_str()).collect();
    for statement in context.statements() {
        let mut names: Vec<_> = statement.rings().into_iter().map(|r| &r.family).collect();
        if let What::Colour { family, .. } = &statement.what {
            names.push(family);
        }
        for name in names {
            if !declared.contains(&name.value.as_str()) {
                findings.push(unknown(name, &declared));
            }
        }
    }
}

fn unknown(name: &Spanned<String>, declared: &[&str]) -> Diagnostic {
    let found = Diagnostic::error("unknown-ring", name.span, format!("no ring is called `{}`", name.value))
        .label("not declared");
    match nearest(&name.value, declared.iter().copied()) {
        Some(near) => found.fix(format!("write `{near}`"), name.span, near),
        None if declared.is_empty() => found.help(format!("declare it: ring {} main, open", name.value)),
        None => found.help(format!(
            "the rings are {}; or declare it: ring {} main, open",
            declared.iter().take(12).copied().collect::<Vec<_>>().join(", "),
            name.value
        )),
    }
}
