//! A ring whose place in the repeat cannot be: no index or one too many, an unknown index, a number
//! inside a repeat, passes outside the repeat, rings too far apart.

use crate::lint::Context;
use crate::notation::{Anchor, RingRef, What};
use crate::pattern::{FARTHEST, Lattice, Pattern};
use crate::report::Diagnostic;
use crate::text::{Span, nearest, plainly_meant};

const RULE: &str = "wrong-place";

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let pattern = context.pattern;
    for file in context.weave.files() {
        let mut headed = false;
        for statement in &file.tree.statements {
            match &statement.what {
                What::Repeat(names) => {
                    headed = true;
                    let own: Vec<&str> = names.iter().map(|n| n.value.as_str()).collect();
                    if own != pattern.indices && file.base.is_some() {
                        let both_chains = own.len() == 1 && pattern.lattice == Lattice::Chain;
                        findings.push(other_repeat(pattern, statement.span).safe(both_chains));
                    }
                }
                What::Accent { every, from } => {
                    headed = true;
                    let dimensions = pattern.lattice.dimensions();
                    if every.len() != dimensions || !(from.is_empty() || from.len() == dimensions) {
                        findings.push(accent(pattern.lattice, statement.span));
                    }
                }
                What::Pass { .. } | What::Lay { .. } | What::Fold(..) => {
                    if !headed && pattern.lattice != Lattice::Unit {
                        findings.push(
                            Diagnostic::error(RULE, statement.span, "this stands under no heading")
                                .label("which repeat is meant?")
                                .help("put it below `repeat …` or `accent every …`"),
                        );
                        continue;
                    }
                    let rings = statement.rings();
                    let bad = rings.iter().filter_map(|r| inside(context, r)).collect::<Vec<_>>();
                    if bad.is_empty() {
                        findings.extend(too_far(context, &rings));
                    }
                    findings.extend(bad);
                }
                What::End(_, rings) => findings.extend(rings.iter().filter_map(|r| at_the_end(pattern, r))),
                _ => {}
            }
        }
    }
}

fn index_words(pattern: &Pattern) -> String {
    format!("[{}]", pattern.indices.join(","))
}

/// A ring named inside a repeat, an accent or a unit.
fn inside(context: &Context<'_>, ring: &RingRef) -> Option<Diagnostic> {
    let pattern = context.pattern;
    // A ring nobody declares has a finding of its own.
    pattern.family(&ring.family.value)?;
    let (have, want) = (ring.index.len(), pattern.lattice.dimensions());
    let words = context.words(ring.span);
    if have != want {
        let found = Diagnostic::error(
            RULE,
            ring.span,
            match (have, want) {
                (_, 0) => format!("`{words}` counts repeats, but this piece does not repeat"),
                (0, _) => format!("`{words}` does not say which repeat's ring is meant"),
                (1, _) => format!("`{words}` has one place; in a sheet it needs a row and a column"),
                _ => format!("`{words}` has a row and a column; in a chain it needs one place"),
            },
        );
        return Some(match (have, want) {
            (_, 0) => found.help("add a line `repeat n`, or name the rings of a unit one by one"),
            (0, _) => {
                let with = format!("{}{}", ring.family.value, index_words(pattern));
                found.fix(format!("write `{with}`"), ring.span, with)
            }
            _ => found.help(format!("write it like `{}{}`", ring.family.value, index_words(pattern))),
        });
    }
    ring.index.iter().zip(&pattern.indices).find_map(|(position, name)| match &position.anchor {
        Anchor::Name(said) if said == name => None,
        Anchor::Name(said) => Some(
            Diagnostic::error(
                RULE,
                position.span,
                format!("there is no index `{said}` here; this place counts by `{name}`"),
            )
            .fix(format!("write `{name}`"), position.span, stepped(name, position.step))
            // In a sheet row and column may be the wrong way about.
            .safe(want == 1),
        ),
        Anchor::Number(_) | Anchor::Last | Anchor::All => Some(
            Diagnostic::error(
                RULE,
                position.span,
                format!("inside a repeat rings are counted from `{name}`, not by number"),
            )
            .help(format!(
                "write it like `{}{}`; single rings can be named in `ends`",
                ring.family.value,
                index_words(pattern)
            )),
        ),
    })
}

fn stepped(name: &str, step: i32) -> String {
    if step == 0 { name.to_owned() } else { format!("{name}{step:+}") }
}

/// Rings of one statement that no ring could reach.
fn too_far(context: &Context<'_>, rings: &[&RingRef]) -> Option<Diagnostic> {
    let first = rings.first()?;
    let far = |r: &&&RingRef| {
        r.index
            .iter()
            .zip(&first.index)
            .any(|(a, b)| a.step.abs() > FARTHEST || (a.step.saturating_sub(b.step)).abs() > FARTHEST)
    };
    let ring = rings.iter().find(far)?;
    let message =
        format!("`{}` is more than {FARTHEST} repeats from `{}`", context.words(ring.span), context.words(first.span));
    Some(Diagnostic::error(RULE, ring.span, message).help("rings that meet are a few repeats apart at most"))
}

fn at_the_end(pattern: &Pattern, ring: &RingRef) -> Option<Diagnostic> {
    pattern.family(&ring.family.value)?;
    let want = pattern.lattice.dimensions();
    let example = match want {
        0 => String::new(),
        1 => "[last]".to_owned(),
        _ => "[last,all]".to_owned(),
    };
    let named = ring.index.iter().find(|p| matches!(p.anchor, Anchor::Name(_)));
    if ring.index.len() == want && named.is_none() {
        return None;
    }
    let message = match named {
        Some(_) => "in `ends` rings have numbers, not an index".to_owned(),
        None => format!("`{}` needs its place at the end", ring.family.value),
    };
    let span: Span = named.map_or(ring.span, |p| p.span);
    let near = named.and_then(|p| match &p.anchor {
        Anchor::Name(name) => nearest(name, ["last", "all"])
            .map(|near| (stepped(near, p.step), plainly_meant(name, near, ["last", "all"]))),
        _ => None,
    });
    let found = Diagnostic::error(RULE, span, message);
    Some(match near {
        Some((near, plain)) => found.fix(format!("write `{near}`"), span, near).safe(plain),
        None => found.help(format!("write it like `{}{example}`", ring.family.value)),
    })
}

fn other_repeat(pattern: &Pattern, span: Span) -> Diagnostic {
    let base = match pattern.indices.as_slice() {
        [row, column] => format!("repeat row {row}, column {column}"),
        [one] => format!("repeat {one}"),
        _ => "no repeat".to_owned(),
    };
    Diagnostic::error(RULE, span, format!("the base repeats otherwise: `{base}`")).fix(
        format!("write `{base}`"),
        span,
        base,
    )
}

fn accent(lattice: Lattice, span: Span) -> Diagnostic {
    match lattice {
        Lattice::Unit => {
            Diagnostic::error(RULE, span, "an accent stands on every so many repeats, but this piece does not repeat")
                .help("pass the ring through the unit like its other rings")
        }
        Lattice::Chain => Diagnostic::error(RULE, span, "in a chain an accent counts repeats, not rows and columns")
            .help("write it like `accent every 3, from 2`"),
        Lattice::Sheet => Diagnostic::error(RULE, span, "in a sheet an accent counts rows and columns")
            .help("write it like `accent every 2 rows, 3 columns, from row 1, column 2`"),
    }
}
