//! The same piece in several sets of rings, side by side.

use super::counts::{Counts, SizeFrom};
use super::sold::size_cells;
use crate::Weave;
use crate::pattern::FamilyId;
use crate::rings::TooMany;
use crate::settle::{HOLDS, Hold, LITTLE_ROOM, Word};
use crate::text::{Grid, Layout, UNKNOWN, fixed, half_up};

/// A piece in one set of rings.
#[derive(Clone, Debug, PartialEq)]
pub struct Gauge {
    /// The name of the set; `None` for the rings without a name.
    pub set: Option<String>,
    /// The rings of the piece.
    pub counts: Counts,
    /// How much thicker all wires could be, as a part of their thickness; below 0 where the rings do not close; `None`
    /// where that is not known.
    pub room: Option<f64>,
    /// How each accent sits, by the name of its family.
    pub sits: Vec<(String, Word)>,
}

/// The piece of a text in the rings without a name and in each of its sets, each settled once. Empty where the text has
/// only one set of rings.
///
/// # Errors
/// [`TooMany`], where one of them has too many rings.
pub fn gauges(weave: &Weave) -> Result<Vec<Gauge>, TooMany> {
    let sets = weave.pattern().sets.iter().map(|s| s.name.value.as_str());
    let sets = sets.filter_map(|name| Some((Some(name.to_owned()), weave.in_rings(name)?)));
    // Without lines under `rings` there are no rings without a name.
    let unnamed = (!weave.pattern().kinds.is_empty()).then(|| (None, weave.clone()));
    let all: Vec<(Option<String>, Weave)> = unnamed.into_iter().chain(sets).collect();
    // A single set has nothing beside it.
    if all.len() < 2 {
        return Ok(Vec::new());
    }
    all.into_iter().map(|(set, own)| Gauge::of(set, &own)).collect()
}

impl Gauge {
    fn of(set: Option<String>, weave: &Weave) -> Result<Self, TooMany> {
        let counts = Counts::of(weave, &weave.piece(weave.size())?);
        let stretches = crate::pattern::some_stretch(weave.pattern());
        let settled = weave.settled().ok().filter(|_| !stretches);
        let name = |family: FamilyId| weave.pattern().family_name(family);
        let closes = settled.is_some_and(|s| s.closes() == Some(true));
        Ok(Self {
            set,
            counts,
            room: settled.and_then(crate::settle::Settled::room),
            sits: settled
                .filter(|_| closes)
                .map(|s| s.sits.iter().map(|s| (name(s.family).to_owned(), s.word)).collect())
                .unwrap_or_default(),
        })
    }

    /// How its rings lie, in a word, or that they do not close.
    pub(super) fn lies(&self) -> &'static str {
        match self.room {
            None => UNKNOWN,
            Some(room) if room < 0.0 => "does not close",
            Some(room) if room < LITTLE_ROOM => "dense, little room",
            Some(room) => Hold::of(room).word(),
        }
    }

    fn worst(&self) -> Option<Word> {
        [Word::Loose, Word::Askew, Word::Straight].into_iter().find(|word| self.sits.iter().any(|(_, w)| w == word))
    }
}

/// The table, as a tutorial would print it: sizes and aspect ratios of each kind, room, how accents sit, repeats,
/// length, rings, weight. Empty for no sets.
pub fn gauges_table(gauges: &[Gauge], layout: Layout) -> String {
    let Some(first) = gauges.first() else { return String::new() };
    let mut grid = Grid::new(layout).words(["rings"]);
    for kind in &first.counts.kinds {
        grid = grid.words([&kind.name]).numbers(["AR"]);
    }
    let sits = gauges.iter().any(|g| !g.sits.is_empty());
    grid = grid.numbers(["room"]).words(sits.then_some("sits")).words(["lies", "piece"]);
    grid = grid.numbers(["length", "rings", "g"]);
    for gauge in gauges {
        let counts = &gauge.counts;
        let mut cells = vec![gauge.set.clone().unwrap_or_else(|| "–".to_owned())];
        for kind in &counts.kinds {
            let [wire, inner] = size_cells(Some(kind));
            cells.extend([format!("{wire} × {inner}"), fixed(kind.size.as_ref().and_then(|s| s.aspect_ratio), 2)]);
        }
        cells.push(gauge.room.map_or(UNKNOWN.to_owned(), |r| format!("{:.1} %", half_up(100.0 * r, 1))));
        if sits {
            cells.push(gauge.worst().map_or("–", Word::word).to_owned());
        }
        let example = if counts.size_from == SizeFrom::Example { " (as an example)" } else { "" };
        cells.extend([
            gauge.lies().to_owned(),
            format!("{}{example}", counts.size.words(counts.lattice)),
            counts.reach_words(),
            counts.rings().to_string(),
            fixed(counts.grams(), 1),
        ]);
        grid.row(cells);
    }
    layout.heading("The same piece in several gauges") + &grid.text() + &layout.lines(&format!("{HOLDS}\n"))
}
