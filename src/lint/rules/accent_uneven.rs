//! Accents that start at the first place there is and do not finish at the last.

use crate::lint::Context;
use crate::pattern::Lattice;
use crate::report::Diagnostic;

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let Some(size) = context.weave.size_asked().filter(|_| context.pattern.lattice != Lattice::Unit) else { return };
    let pattern = context.pattern;
    let ways: &[(usize, &str)] =
        if pattern.lattice == Lattice::Chain { &[(0, "repeats")] } else { &[(0, "rows"), (1, "columns")] };
    for (number, accent) in pattern.accents.iter().enumerate() {
        for (way, word) in ways {
            let (every, from, size) = (accent.every.along(*way), accent.from.along(*way), size.last().along(*way));
            // How far an accent reaches back and forth from its own repeat.
            let reaches = pattern
                .passes
                .iter()
                .filter(|p| p.accent == Some(number))
                .flat_map(|p| p.meets.iter().flat_map(|m| &m.at));
            let (mut back, mut forth) = (0, 0);
            for reach in reaches.map(|t| t.offset.along(*way)) {
                (back, forth) = (back.min(reach), forth.max(reach));
            }
            let (first, last) = (1 - back, size - forth);
            let over = (last - from).rem_euclid(every);
            if every < 2 || from != first || last < first || over == 0 {
                continue;
            }
            let last_accent = last - over;
            let (fewer, more) = (size - over, size - over + every);
            let fits: Vec<String> =
                [fewer, more].into_iter().filter(|n| *n - forth > from).map(|n| n.to_string()).collect();
            let message = format!(
                "accents meet the first place (repeat {first}) but not the last: with {size} {word} the last accent is at {last_accent}, and {over} more {} it",
                if over == 1 { "place follows" } else { "places follow" }
            );
            findings.push(
                Diagnostic::warning("accent-uneven", accent.span, message)
                    .label("starts at the edge, finishes inside")
                    .help(format!("{} {word} finish as they start", fits.join(" or "))),
            );
        }
    }
}
