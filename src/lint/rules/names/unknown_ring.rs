use crate::lint::{Context, Found, Known, Rule};
use crate::notation::What;
use crate::report::Diagnostic;
use crate::text::Spanned;
use std::collections::{BTreeMap, BTreeSet};

/// A statement names a ring that no `ring` line declares.
pub struct UnknownRing;

impl Rule for UnknownRing {
    const NAME: &str = "unknown-ring";
    const PAGE: &str = include_str!("unknown_ring.md");
    const FOUND: Found = Found::InText(check);
    const BREAKS_GRAPH: bool = true;
}

/// A text with more unknown names than this is about something else.
const MOST_NAMES: usize = 200;
/// How many places one unknown name is pointed out at.
const MOST_TIMES: usize = 20;

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let declared: BTreeSet<&str> = context.pattern.families.iter().map(|f| f.name.value.as_str()).collect();
    let mut told: BTreeMap<&str, usize> = BTreeMap::new();
    for statement in &context.statements {
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
    let found = UnknownRing::at(name.span, format!("no ring is called `{}`", name.value)).label("not declared");
    let family = name.value.trim_end_matches(|c: char| c.is_ascii_digit());
    if family != name.value && declared.contains(family) {
        return found.help(format!(
            "name a ring {family} from the index of the repeat: {family}[n], {family}[n+1]; only `ends` uses numbers: {family}[1]"
        ));
    }
    let known = Known::words(declared.iter().copied());
    known.suggest(found, name, || {
        if declared.is_empty() {
            format!("declare it: ring {} main, open", name.value)
        } else {
            format!("the rings are {}; or declare it: ring {} main, open", known.list(), name.value)
        }
    })
}
