//! Colours in written instructions: how many rings of each, and which ring has which.

use super::words::ring_name;
use crate::count::Colours;
use crate::notation::{Along, State};
use crate::pattern::{ColourPattern, FamilyId, Lattice, Pattern, Shift};
use crate::rings::{Piece, Ring};
use crate::text::list;

/// More rings than this in a run of one colour are told by the first and the last.
const MOST_NAMED: usize = 3;

/// The rings of a piece with their colours, where those are known.
pub struct RingColours<'p> {
    pattern: &'p Pattern,
    rings: Vec<(&'p Ring, &'p str)>,
}

impl<'p> RingColours<'p> {
    /// Looks up the colour of every ring.
    pub fn of(pattern: &'p Pattern, piece: &'p Piece) -> Self {
        let mut colours = Colours::new(pattern);
        let rings = piece.graph.node_weights().filter_map(|ring| Some((ring, colours.add(ring)?))).collect();
        Self { pattern, rings }
    }

    /// "10 teal and 4 silver": the rings of a letter, closed or open; the colour alone where all have one.
    pub fn told(&self, letter: &str, state: State) -> Option<String> {
        let mut counts: Vec<(&str, usize)> = Vec::new();
        let own = |ring: &Ring| ring.state == state && self.pattern.family_name(ring.family) == letter;
        for (_, colour) in self.rings.iter().filter(|(ring, _)| own(ring)) {
            match counts.iter_mut().find(|(known, _)| known == colour) {
                Some((_, count)) => *count += 1,
                None => counts.push((colour, 1)),
            }
        }
        match counts.as_slice() {
            [] => None,
            [(colour, _)] => Some(quoted(colour)),
            several => Some(list(
                &several.iter().map(|(c, count)| format!("{count} {}", quoted(c))).collect::<Vec<_>>(),
                "and",
            )),
        }
    }

    /// "Sort rings b by colour: b1 and b2 are teal, b3 is silver, and so on.", where a family has several colours.
    fn sorted(&self, colours: &ColourPattern) -> Option<String> {
        let own: Vec<(Shift, &str)> =
            self.rings.iter().filter(|(r, _)| r.family == colours.family).map(|(r, colour)| (r.at, *colour)).collect();
        let turn = colours.colours.len();
        let (places, goes_on) = match (self.pattern.lattice, colours.by) {
            (Lattice::Sheet, along) => {
                let mut lines = lines(&own, along);
                let goes_on = lines.len() > turn;
                lines.truncate(turn);
                (lines, goes_on)
            }
            _ => (in_turn(self.pattern, colours.family, own.get(..turn).unwrap_or(&own)), own.len() > turn),
        };
        let several = own.iter().any(|(_, colour)| own.first().is_some_and(|(_, first)| first != colour));
        let told = |(places, verb, colour): &(String, &str, &str)| format!("{places} {verb} {}", quoted(colour));
        let words = places.iter().map(told).collect::<Vec<_>>().join(", ");
        let letter = self.pattern.family_name(colours.family);
        let more = if goes_on { ", and so on" } else { "" };
        several.then(|| format!("Sort rings {letter} by colour: {words}{more}."))
    }
}

/// The sentences on colours before the work begins: one for each family with several colours.
pub fn sorting(pattern: &Pattern, piece: &Piece) -> Vec<String> {
    let colours = RingColours::of(pattern, piece);
    pattern.colours.iter().filter_map(|own| colours.sorted(own)).collect()
}

/// Rings one after another, as runs of one colour: their names, "is" or "are", the colour.
fn in_turn<'p>(
    pattern: &Pattern,
    family: FamilyId,
    rings: &[(Shift, &'p str)],
) -> Vec<(String, &'static str, &'p str)> {
    let runs = rings.chunk_by(|one, other| one.1 == other.1);
    let told = runs.filter_map(|run| {
        let names: Vec<String> = run.iter().map(|(at, _)| ring_name(pattern, family, *at)).collect();
        let (first, last) = (names.first()?, names.last()?);
        let names = if names.len() > MOST_NAMED { format!("{first} to {last}") } else { list(&names, "and") };
        Some((names, if run.len() == 1 { "is" } else { "are" }, run.first()?.1))
    });
    told.collect()
}

/// Rows or columns of a sheet: "row 1", "is", the colour.
fn lines<'p>(rings: &[(Shift, &'p str)], along: Along) -> Vec<(String, &'static str, &'p str)> {
    let (word, line): (_, fn(Shift) -> i32) = match along {
        Along::Row => ("row", |at| at.row),
        Along::Column => ("column", |at| at.column),
    };
    let mut lines: Vec<(i32, &str)> = rings.iter().map(|(at, colour)| (line(*at), *colour)).collect();
    lines.sort_unstable();
    lines.dedup();
    lines.into_iter().map(|(line, colour)| (format!("{word} {line}"), "is", colour)).collect()
}

/// Puts a colour of more than letters, digits and hyphens in quotation marks, so that it is read back whole.
fn quoted(colour: &str) -> String {
    let plain = |c: char| c.is_alphanumeric() || matches!(c, ' ' | '-' | '\'');
    if colour.chars().all(plain) { colour.to_owned() } else { format!("“{colour}”") }
}
