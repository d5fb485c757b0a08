use crate::lint::{Context, Found, Rule};
use crate::report::{Diagnostic, Severity};
use crate::text::nearest;

/// A line of `rings` gives a size that no ring has.
pub struct UnusedKind;

impl Rule for UnusedKind {
    const NAME: &str = "unused-kind";
    const PAGE: &str = include_str!("unused_kind.md");
    const SEVERITY: Severity = Severity::Warning;
    const FOUND: Found = Found::InGraph(check);
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let pattern = context.pattern;
    let kinds = || pattern.kinds.iter().map(|k| k.name.as_str());
    // A ring whose kind is misspelled has its own finding; the kind it means is not unused.
    let meant: Vec<&str> = pattern
        .families
        .iter()
        .filter(|f| pattern.kind(&f.kind).is_none())
        .filter_map(|f| nearest(&f.kind, kinds()))
        .collect();
    for kind in &pattern.kinds {
        let Some(span) = kind.span.filter(|s| s.source == 0) else { continue };
        if pattern.families.iter().any(|f| f.kind == kind.name) || meant.contains(&kind.name.as_str()) {
            continue;
        }
        let mut used: Vec<&str> = pattern.families.iter().map(|f| f.kind.as_str()).collect();
        used.sort_unstable();
        used.dedup();
        findings.push(
            UnusedKind::at(span, format!("no ring is of the kind `{}`", kind.name))
                .label("no ring has this size")
                .help(format!(
                    "leave this line out, or give a ring this kind; the kinds in use are {}",
                    used.join(", ")
                )),
        );
    }
}
