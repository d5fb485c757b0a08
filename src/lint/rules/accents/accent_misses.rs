use crate::lint::{Context, Found, Rule};
use crate::pattern::Shift;
use crate::report::Diagnostic;
use crate::rings::gcd;

/// A pass of an accent that names a ring which is never there.
pub struct AccentMisses;

impl Rule for AccentMisses {
    const NAME: &str = "accent-misses";
    const PAGE: &str = include_str!("accent_misses.md");
    const FOUND: Found = Found::InGraph(check);
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let pattern = context.pattern;
    for link in &context.weave.links().links {
        let own = link.accent.and_then(|a| pattern.accents.get(a));
        let (Some(from), Some(to)) = (own, pattern.accent_of(link.to)) else { continue };
        // The two accents meet at this shift if some repeat is on both; worked out for rows and columns separately.
        let meets = [0, 1].into_iter().all(|way| {
            let get = |shift: Shift| i64::from(shift.along(way));
            let common = gcd(get(from.every), get(to.every)).max(1);
            (get(from.from) + get(link.offset) - get(to.from)).rem_euclid(common) == 0
        });
        if !meets {
            let name = context.words(link.span);
            findings.push(
                AccentMisses::at(
                    link.span,
                    format!("the ring {name} never exists: `{}` is on other repeats", context.family(link.to)),
                )
                .label("no ring at this place")
                .related(from.span, "this accent")
                .related(to.span, "the other accent is placed here")
                .help("count the shift in repeats of the base, or let both accents start at the same repeat"),
            );
        }
    }
}
