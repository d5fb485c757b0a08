use crate::lint::{Context, Found, Rule};
use crate::pattern::{Accent, Lattice};
use crate::report::{Diagnostic, Severity};
use crate::text::{count, list};

/// Accents that start at the first possible place and do not finish at the last.
pub struct AccentUneven;

impl Rule for AccentUneven {
    const NAME: &str = "accent-uneven";
    const PAGE: &str = include_str!("accent_uneven.md");
    const SEVERITY: Severity = Severity::Warning;
    const FOUND: Found = Found::InGraph(check);
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let along: &[(usize, &str)] = match context.pattern.lattice {
        Lattice::Unit => return,
        Lattice::Chain => &[(0, "repeat")],
        Lattice::Sheet => &[(0, "row"), (1, "column")],
    };
    for (number, accent) in context.pattern.accents.iter().enumerate() {
        for (axis, unit) in along {
            findings.extend(uneven(context, (number, accent), *axis, unit));
        }
    }
}

/// The finding on one accent along rows, columns or the repeats of a chain.
fn uneven(context: &Context<'_>, (number, accent): (usize, &Accent), axis: usize, unit: &str) -> Option<Diagnostic> {
    let size = context.weave.size_asked()?.last().along(axis);
    let (every, from) = (accent.every.along(axis), accent.from.along(axis));
    let passes = context.pattern.passes.iter().filter(|p| p.accent == Some(number));
    let targets = passes.flat_map(|p| p.meets.iter().flat_map(|m| &m.at));
    // How far an accent reaches back and forth from its own repeat.
    let reaches = targets.map(|t| t.offset.along(axis));
    let (back, forth) = reaches.fold((0, 0), |(back, forth), reach| (back.min(reach), forth.max(reach)));
    let (first, last) = (1 - back, size - forth);
    let over = (last - from).rem_euclid(every);
    if every < 2 || from != first || last < first || over == 0 {
        return None;
    }
    let even = [size - over, size - over + every].into_iter().filter(|n| *n - forth > from);
    let even: Vec<String> = even.map(|n| n.to_string()).collect();
    let message = format!(
        "the accents start at the first place ({unit} {first}) but stop {} before the last",
        count(u64::from(over.unsigned_abs()), unit)
    );
    let label = format!("the last accent of {size} {unit}s is at {}", last - over);
    let help = format!("make {} {unit}s: both ends are then alike", list(&even, "or"));
    Some(AccentUneven::at(accent.span, message).label(label).help(help))
}
