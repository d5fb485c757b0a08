//! The legend in words: what the text says of each family, and what the signs of the chart mean.

use super::goings::{Going, Name, by_family};
use crate::notation::{EndVerb, Hand, Side, State};
use crate::pattern::{Accent, End, EndPlace, FamilyId, Lattice, Lies, Pattern, Shift, Target};
use crate::text::Span;

/// The most families told in words, and the most things told of one.
const MOST_FAMILIES_TOLD: usize = 24;
const MOST_TOLD: usize = 12;
/// Longer names are cut.
const LONGEST_NAME: usize = 40;

/// A ring's name as in the text, cut if it is very long.
pub fn ring_name(pattern: &Pattern, name: Name) -> String {
    short_ring_name(pattern, name, LONGEST_NAME)
}

/// A ring's name with no more than so many letters of its family's name.
pub fn short_ring_name(pattern: &Pattern, name: Name, most: usize) -> String {
    let target = Target { family: name.0, offset: name.1, span: Span::new(0, 0, 0) };
    // Without spaces, so that a name never breaks over two lines.
    let whole = pattern.ring_name(&target).replace(' ', "");
    match whole.split_once('[') {
        Some((family, index)) => format!("{}[{}", cut(family, most), cut(index, LONGEST_NAME)),
        None => cut(&whole, most),
    }
}

/// A text cut to so many letters.
pub fn cut(text: &str, most: usize) -> String {
    if text.chars().count() <= most {
        return text.to_owned();
    }
    text.chars().take(most.saturating_sub(1)).chain(['…']).collect()
}

/// "a", "a and b", "a, b and c"; very long lists are cut short.
pub fn list(words: &[String]) -> String {
    match words {
        [] => String::new(),
        [one] => one.clone(),
        [most @ .., last] if words.len() <= MOST_TOLD => format!("{} and {last}", most.join(", ")),
        _ => {
            let told: Vec<&str> = words.iter().take(MOST_TOLD).map(String::as_str).collect();
            format!("{} and {} more", told.join(", "), words.len() - MOST_TOLD)
        }
    }
}

/// One sentence for each family, in the order they are declared.
pub fn families(pattern: &Pattern, goings: &[Going]) -> Vec<String> {
    let of = by_family(goings);
    let told = pattern.families.len().min(MOST_FAMILIES_TOLD);
    let mut sentences: Vec<String> = pattern
        .families
        .ids()
        .take(told)
        .map(|f| family(pattern, f, of.get(&f).map_or(&[][..], Vec::as_slice)))
        .collect();
    if pattern.families.len() > told {
        sentences.push(format!("And {} more families of rings.", pattern.families.len() - told));
    }
    sentences
}

fn family(pattern: &Pattern, id: FamilyId, goings: &[&Going]) -> String {
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
    // One after the other the same way is said once; an eye is said by itself.
    for same in goings.chunk_by(|a, b| a.down == b.down && a.through.len() == 1 && b.through.len() == 1) {
        let Some(first) = same.first() else { continue };
        let rings: Vec<String> = same.iter().flat_map(|g| &g.through).map(|n| ring_name(pattern, *n)).collect();
        let way = if first.down { "down" } else { "up" };
        let eye = if first.through.len() > 1 { "the eye of " } else { "" };
        ways.push(format!("{way} through {eye}{}", list(&rings)));
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

/// "down through the eye of a and b, then up through c": phrases that have an "and" of their own.
fn list_of_phrases(phrases: &[String]) -> String {
    if phrases.len() > MOST_TOLD {
        return format!(
            "{}, and {} more",
            phrases.iter().take(MOST_TOLD).cloned().collect::<Vec<_>>().join(", "),
            phrases.len() - MOST_TOLD
        );
    }
    phrases.join(", ")
}

/// What a statement says of a family's ring, said from that ring.
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

/// "on every 3rd repeat, from the 2nd".
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
            let does = match verb {
                EndVerb::Add => "is added",
                EndVerb::Drop => "is left out",
                EndVerb::Close => "is closed before weaving",
                EndVerb::Open => "is woven in open",
            };
            let does = if rings.len() > 1 { does.replacen("is ", "are ", 1) } else { does.to_owned() };
            sentences.push(format!("At the ends {} {does}.", list(&rings)));
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
        sentences.push("Part of the text could not be made sense of; the chart shows the rest.".to_owned());
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

/// Which edge is which, if any ring is said to lie on one.
pub fn has_sides(pattern: &Pattern) -> bool {
    pattern.lying.iter().any(|l| matches!(l.lies, Lies::On(_, Side::Far | Side::Near)))
}
