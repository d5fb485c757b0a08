use crate::lint::{Context, Found, Rule};
use crate::notation::{Anchor, RingRef, What};
use crate::pattern::{FARTHEST, Lattice, Pattern};
use crate::report::Diagnostic;
use crate::text::{Span, nearest, plainly_meant};

/// A ring whose place in the repeat is impossible: no index or one too many, an unknown index, a number
/// inside a repeat, passes outside the repeat, rings too far apart.
pub struct WrongPlace;

impl Rule for WrongPlace {
    const NAME: &str = "wrong-place";
    const PAGE: &str = include_str!("wrong_place.md");
    const FOUND: Found = Found::InText(check);
    const BREAKS_GRAPH: bool = true;
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
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
                            WrongPlace::at(statement.span, "this line is not under a heading")
                                .label("which repeat?")
                                .help("move it below `repeat …` or `accent every …`"),
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
        let found = WrongPlace::at(
            ring.span,
            match (have, want) {
                (_, 0) => format!("`{words}` names a repeat; this piece does not repeat"),
                (0, _) => format!("`{words}` does not say which repeat"),
                (1, _) => format!("`{words}` has one index; in a sheet it needs a row and a column"),
                _ => format!("`{words}` has a row and a column; in a chain it needs one index"),
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
            WrongPlace::at(position.span, format!("there is no index `{said}` here; the index is `{name}`"))
                .fix(format!("write `{name}`"), position.span, stepped(name, position.step))
                // In a sheet row and column may be the wrong way about.
                .safe(want == 1),
        ),
        Anchor::Number(_) | Anchor::Last | Anchor::All => Some(
            WrongPlace::at(position.span, format!("inside a repeat, rings are counted from `{name}`, not by number"))
                .help(format!(
                    "write it like `{}{}`; under `ends` single rings have numbers",
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
    Some(WrongPlace::at(ring.span, message).help("name rings that are at most a few repeats apart"))
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
        Some(_) => "under `ends`, rings have numbers, not an index".to_owned(),
        None => format!("`{}` needs its place in the piece", ring.family.value),
    };
    let span: Span = named.map_or(ring.span, |p| p.span);
    let near = named.and_then(|p| match &p.anchor {
        Anchor::Name(name) => nearest(name, ["last", "all"])
            .map(|near| (stepped(near, p.step), plainly_meant(name, near, ["last", "all"]))),
        _ => None,
    });
    let found = WrongPlace::at(span, message);
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
    WrongPlace::at(span, format!("the base has another repeat: `{base}`")).fix(format!("write `{base}`"), span, base)
}

fn accent(lattice: Lattice, span: Span) -> Diagnostic {
    match lattice {
        Lattice::Unit => WrongPlace::at(span, "an accent is placed by repeats; this piece does not repeat")
            .help("let the ring pass rings of the unit, like the others"),
        Lattice::Chain => WrongPlace::at(span, "in a chain, an accent is placed by repeats, not by rows and columns")
            .help("write it like `accent every 3, from 2`"),
        Lattice::Sheet => WrongPlace::at(span, "in a sheet, an accent is placed by rows and columns")
            .help("write it like `accent every 2 rows, 3 columns, from row 1, column 2`"),
    }
}
