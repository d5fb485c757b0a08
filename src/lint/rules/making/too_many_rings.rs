//! A piece or a repeat too large to be worked out.

use crate::lint::Context;
use crate::pattern::{MOST_BAGS, MOST_EXTRAS, MOST_FAMILIES, MOST_SETS};
use crate::report::Diagnostic;
use crate::rings::MOST_RINGS;

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let pattern = context.pattern;
    let make = &pattern.make;
    let asked = [&make.repeats, &make.rows, &make.columns].into_iter().flatten().map(|n| n.span).next();
    if let Some(many) = context.too_many {
        let span = asked.or(pattern.ends.first().map(|e| e.span)).unwrap_or(context.whole());
        let message = format!("the piece would have {} rings; up to {MOST_RINGS} are worked out", many.rings);
        findings.push(
            Diagnostic::error("too-many-rings", span, message).help("make it smaller, or reckon one part and multiply"),
        );
    }
    if let Err(wide) = context.weave.cell() {
        let accents = pattern.accents.iter().map(|a| a.span);
        let span = accents.clone().next_back().unwrap_or(context.whole());
        let message = format!(
            "the accents come back to their start together only after {} rings; up to 20000 are worked out",
            wide.rings
        );
        let found = Diagnostic::error("too-many-rings", span, message)
            .help("choose periods that divide one another, such as 2 and 6");
        findings.push(accents.filter(|s| *s != span).fold(found, |f, s| f.related(s, "together with this accent")));
    }
    if pattern.accents.len() >= MOST_EXTRAS || pattern.ends.len() >= MOST_EXTRAS {
        let message = format!("more than {MOST_EXTRAS} accents or rings named in `ends`");
        findings.push(Diagnostic::error("too-many-rings", context.whole(), message));
    }
    if pattern.sets.len() > MOST_SETS {
        let message = format!("more than {MOST_SETS} sets of rings");
        findings.push(
            Diagnostic::error("too-many-rings", context.whole(), message)
                .help("put some of them in a file of their own"),
        );
    }
    if pattern.bags.len() > MOST_BAGS {
        let message = format!("more than {MOST_BAGS} bags");
        findings.push(
            Diagnostic::error("too-many-rings", context.whole(), message).help("`pieces` says how many bags are alike"),
        );
    } else {
        findings.extend(in_bags(context));
    }
    if pattern.families.len() >= MOST_FAMILIES {
        let message = format!("more than {MOST_FAMILIES} families of rings");
        findings.push(Diagnostic::error("too-many-rings", context.whole(), message));
    }
}

/// One piece of every bag together: reckoned, and none of them made.
fn in_bags(context: &Context<'_>) -> Option<Diagnostic> {
    let bags = context.pattern.bags.iter().zip(context.weave.bags());
    let families = context.pattern.families.len() as u64;
    let mut all = 0_u64;
    for (bag, own) in bags {
        let [rows, columns] = own.size().0.map(u64::from);
        all = all.saturating_add(families.saturating_mul(rows).saturating_mul(columns));
        if all > MOST_RINGS {
            let message =
                format!("with this bag one piece of each has some {all} rings; up to {MOST_RINGS} are worked out");
            return Some(
                Diagnostic::error("too-many-rings", bag.name.span, message)
                    .help("make it smaller, or write a file for each"),
            );
        }
    }
    None
}
