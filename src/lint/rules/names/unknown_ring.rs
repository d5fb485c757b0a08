//! A statement names a ring that no `ring` line declares.

use crate::lint::Context;
use crate::notation::What;
use crate::report::Diagnostic;
use crate::text::{Spanned, nearest};
use std::collections::{BTreeMap, BTreeSet};

/// A text with more unknown names than this is about something else.
const MOST_NAMES: usize = 200;
/// How many places one unknown name is pointed out at.
const MOST_TIMES: usize = 20;

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let declared: BTreeSet<&str> = context.pattern.families.iter().map(|f| f.name.value.as_str()).collect();
    let mut told: BTreeMap<&str, usize> = BTreeMap::new();
    for statement in context.statements() {
        let mut names: Vec<_> = statement.rings().into_iter().map(|r| &r.family).collect();
        if let What::Colour { family, .. } = &statement.what {
            names.push(family);
        }
        for name in names {
            if declared.contains(name.value.as_str()) || told.len() >= MOST_NAMES {
                continue;
            }
            let times = told.entry(&name.value).or_default();
            *times += 1;
            if *times <= MOST_TIMES {
                findings.push(unknown(name, &declared));
            }
        }
    }
}

fn unknown(name: &Spanned<String>, declared: &BTreeSet<&str>) -> Diagnostic {
    let found = Diagnostic::error("unknown-ring", name.span, format!("no ring is called `{}`", name.value))
        .label("not declared");
    let family = name.value.trim_end_matches(|c: char| c.is_ascii_digit());
    if family != name.value && declared.contains(family) {
        return found.help(format!(
            "a ring of {family} is named from the repeat's index: {family}[n], {family}[n+1]; by number only in `ends`: {family}[1]"
        ));
    }
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
