use crate::lint::{Context, Found, Rule};
use crate::pattern::{FamilyId, Lies, Shift, Target};
use crate::report::Diagnostic;
use crate::text::Span;
use std::collections::BTreeMap;

/// Lying statements that cannot both be.
pub struct LyingContradiction;

impl Rule for LyingContradiction {
    const NAME: &str = "lying-contradiction";
    const PAGE: &str = include_str!("lying_contradiction.md");
    const FOUND: Found = Found::InGraph(check);
}

/// Which relation, from which family to which, at which shift.
type Said = (bool, FamilyId, FamilyId, Shift);

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let mut said: BTreeMap<Said, Span> = BTreeMap::new();
    let mut sides: BTreeMap<FamilyId, (crate::notation::Side, Span)> = BTreeMap::new();
    for lying in &context.pattern.lying {
        match &lying.lies {
            Lies::Behind(one, other) | Lies::Over(one, other) => {
                let behind = matches!(lying.lies, Lies::Behind(..));
                let key = key(behind, one, other);
                let back = (behind, key.2, key.1, -key.3);
                let (a, b) = (context.pattern.ring_name(one), context.pattern.ring_name(other));
                if one.family == other.family && one.offset == other.offset {
                    let word = if behind { "behind" } else { "over" };
                    findings.push(found(lying.span, lying.span, format!("{a} cannot lie {word} itself")));
                } else if let Some(first) = said.get(&back) {
                    let message = if behind {
                        format!("{a} cannot lie both behind {b} and in front of it")
                    } else {
                        format!("{a} cannot lie both over {b} and under it")
                    };
                    findings.push(found(lying.span, *first, message));
                }
                said.entry(key).or_insert(lying.span);
            }
            Lies::On(ring, side) => {
                let name = context.pattern.ring_name(ring);
                match sides.get(&ring.family) {
                    Some((other, first)) if other != side => {
                        findings.push(found(
                            lying.span,
                            *first,
                            format!("{name} cannot lie on both the far side and the near side"),
                        ));
                    }
                    _ => drop(sides.entry(ring.family).or_insert((*side, lying.span))),
                }
            }
            Lies::Between(..) | Lies::Folded(..) | Lies::Turning(_) => {}
        }
    }
    if let [first, rest @ ..] = context.pattern.lean.as_slice() {
        for lean in rest.iter().filter(|l| l.value != first.value) {
            findings.push(found(lean.span, first.span, "the weave cannot lean both left and right".to_owned()));
        }
    }
}

fn key(behind: bool, one: &Target, other: &Target) -> Said {
    let step = other.offset - one.offset;
    (behind, one.family, other.family, step)
}

fn found(span: Span, first: Span, message: String) -> Diagnostic {
    let found = LyingContradiction::at(span, message).label("contradicts the line above");
    let found = if first == span { found } else { found.related(first, "this line") };
    found.help("keep the one that is true; each line holds for every repeat, so `lay a[n] behind a[n-1]` also puts a[n+1] behind a[n]")
}
