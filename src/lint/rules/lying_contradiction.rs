//! Lying statements that cannot both be.

use crate::lint::Context;
use crate::pattern::{FamilyId, Lies, Shift, Target};
use crate::report::Diagnostic;
use crate::text::Span;
use std::collections::BTreeMap;

/// Which relation, from which family to which, at which shift.
type Said = (bool, FamilyId, FamilyId, Shift);

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
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
                        format!("{a} cannot lie behind {b} and in front of it")
                    } else {
                        format!("{a} cannot lie over {b} and under it")
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
                            format!("{name} cannot lie on the far side and on the near side"),
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
            findings.push(found(lean.span, first.span, "the weave cannot lean left and right".to_owned()));
        }
    }
}

fn key(behind: bool, one: &Target, other: &Target) -> Said {
    let step = other.offset - one.offset;
    (behind, one.family, other.family, step)
}

fn found(span: Span, first: Span, message: String) -> Diagnostic {
    let found = Diagnostic::error("lying-contradiction", span, message).label("against what is said before");
    let found = if first == span { found } else { found.related(first, "said here") };
    found.help("keep the one that is so; in every repeat the same words hold, so a[n] behind a[n-1] also says a[n+1] behind a[n]")
}
