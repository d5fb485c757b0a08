use crate::lint::{Context, Found, Rule};
use crate::pattern::{MOST_BAGS, MOST_EXTRAS, MOST_FAMILIES, MOST_SETS};
use crate::report::Diagnostic;
use crate::rings::{MOST_IN_REPEAT, MOST_RINGS};

/// A piece or a repeat too large to work out.
pub struct TooManyRings;

impl Rule for TooManyRings {
    const NAME: &str = "too-many-rings";
    const PAGE: &str = include_str!("too_many_rings.md");
    const FOUND: Found = Found::InText(check);
    const BREAKS_GRAPH: bool = true;
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let pattern = context.pattern;
    let make = &pattern.make;
    let asked = [&make.repeats, &make.rows, &make.columns].into_iter().flatten().map(|n| n.span).next();
    if let Some(many) = context.too_many {
        let span = asked.or(pattern.ends.first().map(|e| e.span)).unwrap_or(context.whole());
        let message = format!("the piece would have {} rings; the limit is {MOST_RINGS}", many.rings);
        findings.push(TooManyRings::at(span, message).help("make it smaller, or count one part and multiply"));
    }
    if let Err(wide) = context.weave.cell() {
        let accents = pattern.accents.iter().map(|a| a.span);
        let span = accents.clone().next_back().unwrap_or(context.whole());
        let message =
            format!("the accents repeat together only after {} rings; the limit is {MOST_IN_REPEAT}", wide.rings);
        let found =
            TooManyRings::at(span, message).help("choose periods of which one divides the other, such as 2 and 6");
        findings.push(accents.filter(|s| *s != span).fold(found, |f, s| f.related(s, "together with this accent")));
    }
    if pattern.accents.len() > MOST_EXTRAS || pattern.ends.len() > MOST_EXTRAS {
        let message = format!("more than {MOST_EXTRAS} accents or rings named in `ends`");
        findings.push(TooManyRings::at(context.whole(), message));
    }
    if pattern.sets.len() > MOST_SETS {
        let message = format!("more than {MOST_SETS} sets of rings");
        findings.push(TooManyRings::at(context.whole(), message).help("move some of them to another file"));
    }
    if pattern.bags.len() > MOST_BAGS {
        let message = format!("more than {MOST_BAGS} bags");
        findings.push(TooManyRings::at(context.whole(), message).help("use `pieces` for bags that are alike"));
    } else {
        findings.extend(in_bags(context));
    }
    if pattern.families.len() > MOST_FAMILIES {
        let message = format!("more than {MOST_FAMILIES} families of rings");
        findings.push(TooManyRings::at(context.whole(), message));
    }
}

/// One piece of every bag together: estimated, without making any.
fn in_bags(context: &Context<'_>) -> Option<Diagnostic> {
    let bags = context.pattern.bags.iter().zip(context.weave.bags());
    let families = context.pattern.families.len() as u64;
    let mut all = 0_u64;
    for (bag, own) in bags {
        let [rows, columns] = own.size().0.map(u64::from);
        all = all.saturating_add(families.saturating_mul(rows).saturating_mul(columns));
        if all > MOST_RINGS {
            let message = format!(
                "with this bag, one piece of each bag has about {all} rings together; the limit is {MOST_RINGS}"
            );
            return Some(TooManyRings::at(bag.name.span, message).help("make it smaller, or write a file for each"));
        }
    }
    None
}
