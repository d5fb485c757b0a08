//! A pass of an accent that names a ring which is never there.

use crate::lint::Context;
use crate::pattern::Shift;
use crate::report::Diagnostic;
use crate::rings::gcd;

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let pattern = context.pattern;
    for link in &context.weave.links().links {
        let own = link.accent.and_then(|a| pattern.accents.get(a));
        let (Some(from), Some(to)) = (own, pattern.accent_of(link.to)) else { continue };
        // The two accents meet at this shift if some repeat is on both; reckoned for each way by itself.
        let meets = [0, 1].into_iter().all(|way| {
            let get = |shift: Shift| i64::from(shift.along(way));
            let common = gcd(get(from.every), get(to.every)).max(1);
            (get(from.from) + get(link.offset) - get(to.from)).rem_euclid(common) == 0
        });
        if !meets {
            let name = context.words(link.span);
            findings.push(
                Diagnostic::error(
                    "accent-misses",
                    link.span,
                    format!("{name} is never there: {} stands on other repeats", context.family(link.to)),
                )
                .label("no ring at this place")
                .related(from.span, "this accent")
                .related(to.span, "stands by this one")
                .help("count the shift in repeats of the base, or let both accents start together"),
            );
        }
    }
}
