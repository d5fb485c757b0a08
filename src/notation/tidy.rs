//! Tree → the one canonical text.

use super::size::{Size, Unit};
use super::tree::{
    Act, Along, Anchor, Claim, Clause, KindPart, MakePart, Of, Place, Position, RingRef, State, Statement, Tree, What,
};
use crate::text::Spanned;
use std::fmt::Write as _;

/// The groups of a tidy file, in their order.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Group {
    Top,
    Rings,
    /// A repeat, an accent or the open top of a unit, in their order.
    Passes(usize),
    Ends,
    Lean,
    /// The rings without a name, then the named sets, in their order.
    Sizes(usize),
    Colours,
    Make,
    Claims,
}

/// The canonical text of a tree: sections in one order with one blank line between them, single
/// spaces, straight quotes, kind and state written out. Comments stay with the statement below or
/// before them. Reading the result and writing it again gives the same text.
pub fn tidy(tree: &Tree) -> String {
    let mut groups: Vec<(Group, Vec<&Statement>)> = Vec::new();
    let mut passes = 0;
    let mut sets: Vec<&str> = Vec::new();
    for (statement, set) in tree.with_sets() {
        if matches!(statement.what, What::Repeat(_) | What::Accent { .. }) {
            passes += 1;
        }
        let set = set.map_or(0, |name| {
            let known = sets.iter().position(|s| *s == name.value).unwrap_or_else(|| {
                sets.push(&name.value);
                sets.len() - 1
            });
            known + 1
        });
        let group = group_of(&statement.what, passes, set);
        match groups.iter_mut().find(|(g, _)| *g == group) {
            Some((_, members)) => members.push(statement),
            None => groups.push((group, vec![statement])),
        }
    }
    groups.sort_by_key(|(group, _)| *group);
    let mut out = String::new();
    write_comments(&mut out, "", &tree.opening);
    for (group, members) in groups {
        if !out.is_empty() {
            out.push('\n');
        }
        write_group(&mut out, group, &members);
    }
    if !tree.closing.is_empty() {
        if !out.is_empty() {
            out.push('\n');
        }
        write_comments(&mut out, "", &tree.closing);
    }
    out
}

fn group_of(what: &What, passes: usize, set: usize) -> Group {
    match what {
        What::Weave(_) | What::Base(_) | What::Mirrored | What::Spiral(_) | What::Gauges(_) => Group::Top,
        What::Ring { .. } => Group::Rings,
        What::Repeat(_) | What::Accent { .. } | What::Pass { .. } | What::Lay { .. } | What::Fold(..) => {
            Group::Passes(passes)
        }
        What::Ends | What::End(..) => Group::Ends,
        What::Lean(_) => Group::Lean,
        What::Rings(_) | What::Kind { .. } => Group::Sizes(set),
        What::Colours | What::Colour { .. } => Group::Colours,
        What::Make | What::MakePart(_) | What::Bag { .. } => Group::Make,
        What::Claim(..) => Group::Claims,
    }
}

/// The heading that a group must have, where it has one of its own.
fn heading(group: Group) -> Option<&'static str> {
    match group {
        Group::Ends => Some("ends"),
        Group::Sizes(_) => Some("rings"),
        Group::Colours => Some("colours"),
        Group::Make => Some("make"),
        Group::Top | Group::Rings | Group::Passes(_) | Group::Lean | Group::Claims => None,
    }
}

fn is_heading(what: &What) -> bool {
    matches!(what, What::Repeat(_) | What::Accent { .. } | What::Ends | What::Rings(_) | What::Colours | What::Make)
}

fn write_group(out: &mut String, group: Group, members: &[&Statement]) {
    let mut members = members.to_vec();
    let own = heading(group);
    if group == Group::Top {
        members.sort_by_key(|s| match s.what {
            What::Weave(_) => 0,
            What::Base(_) => 1,
            What::Mirrored => 2,
            What::Gauges(_) => 4,
            _ => 3,
        });
    } else if own.is_some() {
        // Several headings with one name become one, which comes first; bags come last.
        members.sort_by_key(|s| (!is_heading(&s.what), matches!(s.what, What::Bag { .. })));
    }
    let width = members.iter().map(|s| name_width(&s.what)).max().unwrap_or(0);
    let mut headed = false;
    if let Some(own) = own.filter(|_| !members.iter().any(|s| is_heading(&s.what))) {
        out.push_str(own);
        out.push('\n');
        headed = true;
    }
    for statement in members {
        let opens = is_heading(&statement.what);
        let indent = if opens || !headed { "" } else { "  " };
        write_comments(out, indent, &statement.above);
        if opens && headed && own.is_some() {
            // Of a heading written twice only the comments are kept.
            if let Some(behind) = &statement.behind {
                write_comments(out, "  ", std::slice::from_ref(behind));
            }
            continue;
        }
        out.push_str(indent);
        write_statement(out, &statement.what, width);
        if let Some(comment) = &statement.behind {
            out.push_str("  ");
            out.push_str(comment);
        }
        out.push('\n');
        headed |= opens;
    }
}

fn name_width(what: &What) -> usize {
    match what {
        What::Kind { name, .. } => name.value.chars().count(),
        What::Bag { name, .. } => name.value.chars().count() + 2,
        _ => 0,
    }
}

fn write_comments(out: &mut String, indent: &str, comments: &[String]) {
    for comment in comments {
        if comment.is_empty() {
            // Several blank lines become one.
            if !out.is_empty() && !out.ends_with("\n\n") {
                out.push('\n');
            }
        } else {
            let _ = writeln!(out, "{indent}{comment}");
        }
    }
}

fn write_statement(out: &mut String, what: &What, width: usize) {
    let text = match what {
        What::Weave(name) => format!("weave \"{}\"", name.value),
        What::Base(name) => format!("base \"{}\"", name.value),
        What::Mirrored => "mirrored".to_owned(),
        What::Spiral(None) => "spiral".to_owned(),
        What::Spiral(Some(hand)) => format!("spiral {}", hand.word()),
        What::Gauges(system) => format!("gauges {}", system.word()),
        What::Ring { names, kind, state } => format!(
            "ring {} {}, {}",
            list(names),
            kind.as_ref().map_or("main", |k| k.value.as_str()),
            state.unwrap_or(State::Open).word()
        ),
        What::Repeat(names) => match names.as_slice() {
            [row, column] => format!("repeat row {}, column {}", row.value, column.value),
            names => format!("repeat {}", list(names)),
        },
        What::Accent { every, from } => accent(every, from),
        What::Ends => "ends".to_owned(),
        What::Rings(None) => "rings".to_owned(),
        What::Rings(Some(name)) => format!("rings \"{}\"", name.value),
        What::Colours => "colours".to_owned(),
        What::Make => "make".to_owned(),
        What::Pass { ring, clauses } => {
            format!("{} {}", ring_text(ring), join(clauses.iter().map(clause)))
        }
        What::Lay { ring, behind, of } => {
            let word = if *behind { "behind" } else { "in front of" };
            format!("lay {} {word} {}", ring_text(ring), join(of.iter().map(ring_text)))
        }
        What::Fold(one, other) => format!("fold {}, {} back", ring_text(one), ring_text(other)),
        What::Lean(hand) => format!("lean {}", hand.word()),
        What::End(verb, rings) => format!("{} {}", verb.word(), join(rings.iter().map(ring_text))),
        What::Kind { name, parts } => {
            format!("{:width$}  {}", name.value, join(parts.iter().map(|p| kind_part(&p.value))))
        }
        What::Colour { family, by, colours } => {
            let by = match by {
                Some(Along::Row) => " by row",
                Some(Along::Column) => " by column",
                None => "",
            };
            format!("{}{by}: {}", family.value, join(colours.iter().map(|c| colour(c))))
        }
        What::MakePart(parts) => join(parts.iter().map(|p| make_part(&p.value))),
        What::Bag { name, rings, parts } => {
            let sets = rings.iter().map(|set| format!("rings \"{}\"", set.value));
            let parts = join(parts.iter().map(|p| make_part(&p.value)).chain(sets));
            let name = format!("\"{}\"", name.value);
            if parts.is_empty() { name } else { format!("{name:width$}  {parts}") }
        }
        What::Claim(said, Of::Piece) => format!("claim {}", claim(said)),
        What::Claim(said, Of::Bag(name)) => format!("claim {} in \"{}\"", claim(said), name.value),
        What::Claim(said, Of::All(_)) => format!("claim {} in all", claim(said)),
    };
    out.push_str(&text);
}

fn join(parts: impl Iterator<Item = String>) -> String {
    parts.collect::<Vec<_>>().join(", ")
}

fn list(names: &[Spanned<String>]) -> String {
    join(names.iter().map(|n| n.value.clone()))
}

fn accent(every: &[Spanned<u32>], from: &[Spanned<u32>]) -> String {
    let start = |i: usize| from.get(i).map_or(1, |n| n.value);
    match every {
        [rows, columns] => format!(
            "accent every {} rows, {} columns, from row {}, column {}",
            rows.value,
            columns.value,
            start(0),
            start(1)
        ),
        [every, ..] => format!("accent every {}, from {}", every.value, start(0)),
        [] => "accent every 1, from 1".to_owned(),
    }
}

/// A ring's name as it is written.
pub(super) fn ring_text(ring: &RingRef) -> String {
    let mut text = ring.family.value.clone();
    if !ring.index.is_empty() {
        let _ = write!(text, "[{}]", ring.index.iter().map(position).collect::<Vec<_>>().join(","));
    }
    text
}

fn position(at: &Position) -> String {
    let anchor = match &at.anchor {
        Anchor::Name(name) => name.clone(),
        Anchor::Last => "last".to_owned(),
        Anchor::All => "all".to_owned(),
        Anchor::Number(n) if n + at.step >= 0 => return (n + at.step).to_string(),
        Anchor::Number(n) => n.to_string(),
    };
    match at.step {
        0 => anchor,
        step => format!("{anchor}{step:+}"),
    }
}

fn clause(clause: &Clause) -> String {
    let places = |word: &str, places: &[Place]| format!("{word} {}", join(places.iter().map(place)));
    let rings = |word: &str, rings: &[RingRef]| format!("{word} {}", join(rings.iter().map(ring_text)));
    match &clause.act {
        Act::Through(eyes) => places("through", eyes),
        Act::Around(eyes) => places("around", eyes),
        Act::Down(at) => places("down", at),
        Act::Up(at) => places("up", at),
        Act::Over(of) => rings("over", of),
        Act::Under(of) => rings("under", of),
        Act::Between(one, other) => format!("between {}, {}", ring_text(one), ring_text(other)),
        Act::Side(side) => format!("{} side", side.word()),
    }
}

fn place(place: &Place) -> String {
    match place {
        Place::Ring(ring) => ring_text(ring),
        Place::Eye(one, other, _) => format!("eye({}, {})", ring_text(one), ring_text(other)),
    }
}

fn unit(unit: Option<&Spanned<Unit>>) -> String {
    unit.map(|u| format!(" {}", u.value.word())).unwrap_or_default()
}

fn kind_part(part: &KindPart) -> String {
    let again = |also: &Option<Size>| also.as_ref().map(|s| format!(" ({})", s.as_written())).unwrap_or_default();
    match part {
        KindPart::Wire(wire, also) => format!("wire {}{}", wire.as_written(), again(also)),
        KindPart::Inner(inner, also) => format!("inner {}{}", inner.as_written(), again(also)),
        KindPart::MeasuredWire(wire) => format!("measured wire {}", wire.as_written()),
        KindPart::MeasuredInner(inner) => format!("measured inner {}", inner.as_written()),
        KindPart::AspectRatio(number, with) => format!("AR {}{}", number.text, unit(with.as_ref())),
        KindPart::Colour(colour) => format!("\"{colour}\""),
        KindPart::Material(material) => material.clone(),
    }
}

fn make_part(part: &MakePart) -> String {
    match part {
        MakePart::Length(length) => format!("length {}", length.as_written()),
        MakePart::Clasp(clasp) => format!("clasp {}", clasp.as_written()),
        MakePart::Repeats(n) => format!("repeats {n}"),
        MakePart::Rows(n) => format!("rows {n}"),
        MakePart::Columns(n) => format!("columns {n}"),
        MakePart::Height(length) => format!("height {}", length.as_written()),
        MakePart::Width(length) => format!("width {}", length.as_written()),
        MakePart::Pieces(n) => format!("pieces {n}"),
        MakePart::Spares(n) => format!("spares {} %", n.text),
        MakePart::Measured(n, length) => format!("measured {n} repeats {}", length.as_written()),
    }
}

/// A colour as it is written: in quotes where it is more than one plain word.
fn colour(name: &str) -> String {
    let plain = !name.is_empty() && name.chars().all(|c| c.is_alphabetic() || c == '-');
    if plain { name.to_owned() } else { format!("\"{name}\"") }
}

fn claim(claim: &Claim) -> String {
    let named =
        |names: &[Spanned<String>]| if names.is_empty() { String::new() } else { format!(" for {}", list(names)) };
    match claim {
        Claim::Lean(hand, upright) => {
            format!("lean {}{}", hand.word(), if *upright { " held upright" } else { "" })
        }
        Claim::In { links, together, families } => {
            format!("{} in {}{}", links.value, together.value, named(families))
        }
        Claim::AspectRatio { number, unit: with, kinds } => {
            format!("AR {}{}{}", number.text, unit(with.as_ref()), named(kinds))
        }
        Claim::Rings { count, which } => match which {
            Some(which) => format!("{} {} rings", count.value, which.value),
            None => format!("{} rings", count.value),
        },
        Claim::Length(length) => format!("length {}", length.as_written()),
        Claim::Pitch(length) => format!("pitch {}", length.as_written()),
        Claim::Weight(number) => format!("weight {} g", number.text),
        Claim::Fits => "fits".to_owned(),
        Claim::Straight => "straight".to_owned(),
        Claim::Weave(name) => format!("weave \"{}\"", name.value),
    }
}
