//! What the text says of each family and of the whole piece, in sentences.

use super::threadings::{Name, Threading, by_family};
use crate::notation::{EndVerb, Hand, Side, State};
use crate::pattern::{Accent, End, EndPlace, FamilyId, Lattice, Lies, Pattern, Shift, Target};
use crate::text::{self, Span};

/// The most families that have a sentence, and the most things in a list.
const MOST_SENTENCES: usize = 24;
const MOST_LISTED: usize = 12;
/// A longer name is cut, characters.
const LONGEST_NAME: usize = 40;

/// A ring's name as in the text, cut if it is very long.
pub fn ring_name(pattern: &Pattern, name: Name) -> String {
    short_ring_name(pattern, name, LONGEST_NAME)
}

/// A ring's name with at most `most` characters of its family's name.
pub fn short_ring_name(pattern: &Pattern, name: Name, most: usize) -> String {
    let target = Target { family: name.0, offset: name.1, span: Span::new(0, 0, 0) };
    // Without spaces a name never breaks over two lines.
    let whole = pattern.ring_name(&target).replace(' ', "");
    match whole.split_once('[') {
        Some((family, index)) => format!("{}[{}", cut(family, most), cut(index, LONGEST_NAME)),
        None => cut(&whole, most),
    }
}

/// A text cut to at most `most` characters.
pub fn cut(text: &str, most: usize) -> String {
    if text.chars().count() <= most {
        return text.to_owned();
    }
    text.chars().take(most.saturating_sub(1)).chain(['…']).collect()
}

/// "a, b and c"; a long list ends in "and 3 more".
fn list(words: &[String]) -> String {
    if words.len() <= MOST_LISTED {
        return text::list(words, "and");
    }
    let (listed, more) = words.split_at(MOST_LISTED);
    format!("{} and {} more", listed.join(", "), more.len())
}

/// One sentence for each family, in the order they are declared.
pub fn families(pattern: &Pattern, threadings: &[Threading]) -> Vec<String> {
    let of = by_family(threadings);
    let told = pattern.families.len().min(MOST_SENTENCES);
    let families = pattern.families.ids().take(told);
    let mut sentences: Vec<String> =
        families.map(|f| family(pattern, f, of.get(&f).map_or(&[][..], Vec::as_slice))).collect();
    if pattern.families.len() > told {
        sentences.push(format!("And {} more families of rings.", pattern.families.len() - told));
    }
    sentences
}

fn family(pattern: &Pattern, id: FamilyId, threadings: &[&Threading]) -> String {
    let family = &pattern.families[id];
    let mut parts = Vec::new();
    if let Some(accent) = pattern.accent_of(id) {
        parts.push(every(pattern.lattice, accent));
    }
    parts.push(match family.state {
        State::Closed => "closed before weaving".to_owned(),
        State::Open => "woven in open, then closed".to_owned(),
    });
    let mut ways = Vec::new();
    // Rings that are passed the same way one after another share a phrase; an eye has its own.
    for same in threadings.chunk_by(|a, b| a.way == b.way && a.through.len() == 1 && b.through.len() == 1) {
        let Some(first) = same.first() else { continue };
        let rings: Vec<String> = same.iter().flat_map(|g| &g.through).map(|n| ring_name(pattern, *n)).collect();
        let eye = if first.through.len() > 1 { "the eye of " } else { "" };
        ways.push(format!("{} through {eye}{}", first.way.word(), list(&rings)));
    }
    if !ways.is_empty() {
        parts.push(format!("goes {}", list_of_phrases(&ways)));
    }
    let lies: Vec<String> = pattern.lying.iter().filter_map(|l| lying(pattern, id, &l.lies)).collect();
    if !lies.is_empty() {
        parts.push(format!("lies {}", list(&lies)));
    }
    format!("{}: {}.", ring_name(pattern, (id, Shift::ZERO)), parts.join("; "))
}

/// "down through the eye of a and b, up through c": the phrases have an "and" of their own.
fn list_of_phrases(phrases: &[String]) -> String {
    if phrases.len() <= MOST_LISTED {
        return phrases.join(", ");
    }
    let (listed, more) = phrases.split_at(MOST_LISTED);
    format!("{}, and {} more", listed.join(", "), more.len())
}

/// What a statement says of where a family's ring lies; none where it is about other rings.
fn lying(pattern: &Pattern, family: FamilyId, lies: &Lies<Target>) -> Option<String> {
    let from = |ring: &Target, other: &Target| {
        let offset = other.offset - ring.offset;
        ring_name(pattern, (other.family, offset))
    };
    let (subject, words) = match lies {
        Lies::Behind(ring, other) if ring.family == family => (ring, format!("behind {}", from(ring, other))),
        Lies::Behind(other, ring) => (ring, format!("in front of {}", from(ring, other))),
        Lies::Over(ring, other) if ring.family == family => (ring, format!("over {}", from(ring, other))),
        Lies::Over(other, ring) => (ring, format!("under {}", from(ring, other))),
        Lies::Between(ring, one, other) => (ring, format!("between {} and {}", from(ring, one), from(ring, other))),
        Lies::Folded(ring, other) => (ring, format!("folded back together with {}", from(ring, other))),
        Lies::On(ring, side) => (ring, format!("on the {} side", side.word())),
        Lies::Turning(_) => return None,
    };
    (subject.family == family).then_some(words)
}

/// "accent, on every 3rd repeat from the 2nd on".
pub fn every(lattice: Lattice, accent: &Accent) -> String {
    let one = |every: i32, from: i32, what: &str| {
        let every = if every == 1 { format!("every {what}") } else { format!("every {} {what}", ordinal(every)) };
        if from == 1 { every } else { format!("{every} from the {} on", ordinal(from)) }
    };
    match lattice {
        Lattice::Sheet => format!(
            "accent, in {} and in {}",
            one(accent.every.row, accent.from.row, "row"),
            one(accent.every.column, accent.from.column, "column")
        ),
        _ => format!("accent, on {}", one(accent.every.row, accent.from.row, "repeat")),
    }
}

fn ordinal(n: i32) -> String {
    let ending = match (n % 10, n % 100) {
        (_, 11..=13) => "th",
        (1, _) => "st",
        (2, _) => "nd",
        (3, _) => "rd",
        _ => "th",
    };
    format!("{n}{ending}")
}

/// How the piece starts and finishes, which way it leans and turns.
pub fn whole(pattern: &Pattern) -> Vec<String> {
    let mut sentences = Vec::new();
    for verb in [EndVerb::Add, EndVerb::Drop, EndVerb::Close, EndVerb::Open] {
        let rings: Vec<String> = pattern.ends.iter().filter(|e| e.verb == verb).map(|e| end_name(pattern, e)).collect();
        if !rings.is_empty() {
            let done = match verb {
                EndVerb::Add => "added",
                EndVerb::Drop => "left out",
                EndVerb::Close => "closed before weaving",
                EndVerb::Open => "woven in open",
            };
            let is = if rings.len() > 1 { "are" } else { "is" };
            sentences.push(format!("At the ends {} {is} {done}.", list(&rings)));
        }
    }
    if let Some(hand) = pattern.stated_lean() {
        let slant = if hand == Hand::Left { "\\" } else { "/" };
        sentences.push(format!(
            "Leans {}: the upper ends of the eyes tip to the {} ({slant}). The chart draws them upright.",
            hand.word(),
            hand.word()
        ));
    }
    if pattern.spiral {
        let turning = pattern.lying.iter().find_map(|l| match l.lies {
            Lies::Turning(Hand::Left) => Some("is turned anticlockwise"),
            Lies::Turning(Hand::Right) => Some("is turned clockwise"),
            _ => None,
        });
        sentences.push(format!("Spiral: each repeat {} about the length of the chain.", turning.unwrap_or("may turn")));
    }
    if !pattern.whole {
        sentences.push("Part of the text is unclear; the chart shows the rest.".to_owned());
    }
    sentences
}

fn end_name(pattern: &Pattern, end: &End) -> String {
    let family = pattern.family_name(end.family);
    let place = |p: &EndPlace| match p {
        EndPlace::At(n) => n.to_string(),
        EndPlace::Last(0) => "last".to_owned(),
        EndPlace::Last(n) => format!("last{n:+}"),
        EndPlace::All => "all".to_owned(),
    };
    let index: Vec<String> = end.at.iter().map(place).collect();
    cut(&format!("{family}[{}]", index.join(",")), LONGEST_NAME)
}

/// Whether the text puts a ring on the far or the near side.
pub fn has_sides(pattern: &Pattern) -> bool {
    pattern.lying.iter().any(|l| matches!(l.lies, Lies::On(_, Side::Far | Side::Near)))
}
