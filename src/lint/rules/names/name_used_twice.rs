use crate::lint::{Context, Found, Rule};
use crate::notation::What;
use crate::report::Diagnostic;
use crate::text::{Span, Spanned};
use std::collections::BTreeMap;

/// Two rings, or two kinds, of one name.
pub struct NameUsedTwice;

impl Rule for NameUsedTwice {
    const NAME: &str = "name-used-twice";
    const PAGE: &str = include_str!("name_used_twice.md");
    const FOUND: Found = Found::InText(check);
    const BREAKS_GRAPH: bool = true;
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    // Bases are read after the file that stands on them, and declare first.
    let mut rings: BTreeMap<&str, Span> = BTreeMap::new();
    for file in context.weave.files().iter().rev() {
        // A kind has one line in each set of rings.
        let mut kinds: BTreeMap<Option<&str>, BTreeMap<&str, Span>> = BTreeMap::new();
        for (statement, set) in file.tree.with_sets() {
            match &statement.what {
                What::Ring { names, .. } => {
                    for name in names {
                        report(findings, &mut rings, name, "ring");
                    }
                }
                What::Kind { name, .. } => {
                    report(findings, kinds.entry(set.map(|s| s.value.as_str())).or_default(), name, "kind");
                }
                _ => {}
            }
        }
    }
}

fn report<'t>(
    findings: &mut Vec<Diagnostic>,
    before: &mut BTreeMap<&'t str, Span>,
    name: &'t Spanned<String>,
    what: &str,
) {
    let Some(first) = before.get(name.value.as_str()).copied() else {
        before.insert(&name.value, name.span);
        return;
    };
    findings.push(
        NameUsedTwice::at(name.span, format!("there is already a {what} called `{}`", name.value))
            .label("used again here")
            .related(first, "first used here")
            .help(format!("give one of the two {what}s another name")),
    );
}
