//! Counting rings by colour.

use crate::notation::{Along, State};
use crate::pattern::{ColourPattern, Family, FamilyId, Lattice, Pattern, PerFamily};
use crate::rings::Ring;
use std::collections::BTreeMap;

/// The rings of one colour and kind in one piece.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ColourCount {
    /// The colour; `None` where none is given.
    pub colour: Option<String>,
    /// The kind.
    pub kind: String,
    /// How many.
    pub rings: u32,
    /// How many of these are closed before weaving.
    pub closed: u32,
}

/// Rings by colour and kind: the `colours` of a family in turn, or else the colour of its kind, or else none. The
/// colours of each family are looked up once and then counted by number.
pub struct Colours<'p> {
    families: PerFamily<FamilyColours<'p>>,
}

struct FamilyColours<'p> {
    kind: &'p str,
    pattern: Option<&'p ColourPattern>,
    own: Option<&'p str>,
    lattice: Lattice,
    /// Rings so far, and how many in each colour of the pattern (or in the only colour): all, and closed ones.
    seen: usize,
    counts: Vec<[u32; 2]>,
}

impl<'p> FamilyColours<'p> {
    /// The colour with number `slot` of its pattern, or the only colour.
    fn colour(&self, slot: usize) -> Option<&'p str> {
        match self.pattern {
            Some(pattern) => pattern.colours.get(slot).map(String::as_str),
            None => self.own,
        }
    }
}

impl<'p> Colours<'p> {
    /// Nothing counted yet.
    pub fn new(pattern: &'p Pattern) -> Self {
        let of = |(id, family): (FamilyId, &'p Family)| {
            let colours = pattern.colours.iter().find(|c| c.family == id && !c.colours.is_empty());
            FamilyColours {
                kind: &family.kind,
                pattern: colours,
                own: pattern.kind(&family.kind).and_then(|k| k.colour.as_deref()),
                lattice: pattern.lattice,
                seen: 0,
                counts: vec![[0, 0]; colours.map_or(1, |c| c.colours.len())],
            }
        };
        Self { families: pattern.families.numbered().map(of).collect() }
    }

    /// Counts a ring and returns its colour, where it has one. The rings of a family must come in the order of its
    /// repeats, as in a piece, for its colours to follow in turn.
    pub fn add(&mut self, ring: &Ring) -> Option<&'p str> {
        let family = &mut self.families[ring.family];
        let turn = match (family.lattice, family.pattern.map(|p| p.by)) {
            (Lattice::Sheet, Some(Along::Row)) => i64::from(ring.at.row) - 1,
            (Lattice::Sheet, Some(Along::Column)) => i64::from(ring.at.column) - 1,
            _ => i64::try_from(family.seen).unwrap_or(0),
        };
        family.seen += 1;
        let slot = turn.rem_euclid(i64::try_from(family.counts.len()).unwrap_or(1).max(1));
        let slot = usize::try_from(slot).ok()?;
        if let Some(count) = family.counts.get_mut(slot) {
            count[0] += 1;
            count[1] += u32::from(ring.state == State::Closed);
        }
        family.colour(slot)
    }

    pub(super) fn counts(&self) -> Vec<ColourCount> {
        let mut all: Vec<ColourCount> = Vec::new();
        let mut slots: BTreeMap<(Option<&str>, &str), usize> = BTreeMap::new();
        for family in &self.families {
            for (number, [rings, closed]) in family.counts.iter().enumerate().filter(|(_, counts)| counts[0] > 0) {
                let colour = family.colour(number);
                let slot = *slots.entry((colour, family.kind)).or_insert(all.len());
                match all.get_mut(slot) {
                    Some(count) => {
                        count.rings += rings;
                        count.closed += closed;
                    }
                    None => all.push(ColourCount {
                        colour: colour.map(str::to_owned),
                        kind: family.kind.to_owned(),
                        rings: *rings,
                        closed: *closed,
                    }),
                }
            }
        }
        all
    }
}
