//! A kit or a class: bags, each with pieces of its own, and their totals.

use super::colours::ColourCount;
use super::counts::{Counts, KindCount, SizeFrom};
use super::sold::size_cells;
use super::table::notes;
use super::wants::{Want, wants};
use crate::rings::{MOST_RINGS, TooMany};
use crate::text::{Grid, Layout, UNKNOWN, count, fixed, half_up};
use crate::weave::Weave;
use std::fmt::Write as _;

/// How tables show rings without a colour.
pub(crate) const NO_COLOUR: &str = "not given";

/// A bag: what is packed for one student, or for several pieces of one size.
#[derive(Clone, Debug, PartialEq)]
pub struct BagCount {
    /// Its name; `None` where the text has no bags and this is everything that is made.
    pub name: Option<String>,
    /// The set of rings it is made of, where that has a name.
    pub rings: Option<String>,
    /// The rings of one piece, and how many pieces (and bags) there are.
    pub counts: Counts,
}

impl BagCount {
    /// How many rings of a kind and colour are packed for all its pieces, spares included and rounded up for each bag.
    pub fn packed(&self, colour: &ColourCount) -> u64 {
        match self.name {
            Some(_) => self.counts.packed(colour.rings) * u64::from(self.counts.pieces),
            None => self.counts.at_hand(colour.rings),
        }
    }
}

/// Everything that a text asks to be made.
#[derive(Clone, Debug, PartialEq)]
pub struct Class {
    /// The name of the weave.
    pub name: String,
    /// Its bags, at least one.
    pub bags: Vec<BagCount>,
}

impl Class {
    /// Counts every bag, or the piece of a text without bags. Chains with sizes in mm are settled for their length,
    /// once for each set of rings.
    ///
    /// # Errors
    /// [`TooMany`], where one piece of each bag together have too many rings.
    pub fn of(weave: &Weave) -> Result<Self, TooMany> {
        Self::counted(weave, Counts::of)
    }

    /// The same without lengths; the weave is settled only where a piece is asked for by its length.
    ///
    /// # Errors
    /// [`TooMany`], where one piece of each bag together have too many rings.
    pub fn without_length(weave: &Weave) -> Result<Self, TooMany> {
        Self::counted(weave, Counts::without_length)
    }

    fn counted(weave: &Weave, how: fn(&Weave, &crate::rings::Piece) -> Counts) -> Result<Self, TooMany> {
        let mut all = 0;
        let mut counts = |weave: &Weave| {
            let counts = how(weave, &weave.piece(weave.size())?);
            all += u64::from(counts.rings());
            if all > MOST_RINGS { Err(TooMany { rings: all }) } else { Ok(counts) }
        };
        let name = weave.name().to_owned();
        if weave.pattern().bags.is_empty() {
            return Ok(Self { name, bags: vec![BagCount { name: None, rings: None, counts: counts(weave)? }] });
        }
        let bags = weave.pattern().bags.iter().zip(weave.bags()).map(|(bag, own)| {
            let known = bag.rings.as_ref().filter(|set| weave.in_rings(&set.value).is_some());
            Ok(BagCount {
                name: Some(bag.name.value.clone()),
                rings: known.map(|set| set.value.clone()),
                counts: counts(&own)?,
            })
        });
        Ok(Self { name, bags: bags.collect::<Result<_, _>>()? })
    }

    /// Whether the text gives the size of every bag's piece.
    pub fn size_asked(&self) -> bool {
        self.bags.iter().all(|b| b.counts.size_from == SizeFrom::Text)
    }

    /// The number of all pieces.
    pub fn pieces(&self) -> u64 {
        self.bags.iter().map(|b| u64::from(b.counts.pieces)).sum()
    }

    /// The sum over all pieces of a number of rings in one.
    pub fn sum(&self, rings: impl Fn(&Counts) -> u32) -> u64 {
        self.bags.iter().map(|b| u64::from(rings(&b.counts)) * u64::from(b.counts.pieces)).sum()
    }

    /// Weight of all pieces, g, without clasps and spares; `None` where a kind's weight is not known.
    pub fn grams(&self) -> Option<f64> {
        self.bags.iter().map(|b| Some(b.counts.grams()? * f64::from(b.counts.pieces))).sum()
    }

    /// The class for people: its bags, what goes into each, and what to have at hand; for a text without bags the
    /// counts of its piece.
    pub fn table(&self, layout: Layout) -> String {
        if let [BagCount { name: None, counts, .. }] = self.bags.as_slice() {
            return counts.table(layout);
        }
        let sorts = if self.bags.len() == 1 { "bags of one sort" } else { "bags of several sorts" };
        let mut out = layout.heading(&format!("{}: {} in {sorts}", self.name, count(self.pieces(), "piece")));
        out += &self.bags_table(layout);
        out += &layout.heading("Packed in one bag");
        out += &self.packing_table(layout);
        out += &layout.heading("Have at hand for all bags; each line is one product");
        out += &self.wants_table(layout);
        out + &layout.lines(&self.words())
    }

    fn bags_table(&self, layout: Layout) -> String {
        let sets = self.bags.iter().any(|b| b.rings.is_some());
        let mut grid = Grid::new(layout).words(["bag"]).words(sets.then_some("rings")).words(["one piece"]).numbers([
            "pieces",
            "length",
            "rings",
            "open",
            "closed first",
            "g a piece",
        ]);
        for bag in &self.bags {
            let counts = &bag.counts;
            let set = sets.then(|| bag.rings.clone().unwrap_or_else(|| "–".to_owned()));
            let size = counts.size.words(counts.lattice);
            let example = if counts.size_from == SizeFrom::Example { " (as an example)" } else { "" };
            let words = std::iter::once(bag.name.clone().unwrap_or_default()).chain(set);
            grid.row(words.chain([
                format!("{size}{example}"),
                counts.pieces.to_string(),
                counts.reach_words(),
                counts.rings().to_string(),
                counts.open().to_string(),
                counts.closed().to_string(),
                fixed(counts.grams(), 1),
            ]));
        }
        grid.text()
    }

    fn packing_table(&self, layout: Layout) -> String {
        let spares = self.bags.iter().any(|b| b.counts.spares.is_some());
        let coloured = self.coloured();
        let mut grid = Grid::new(layout)
            .words(["bag", "kind"])
            .words(coloured.then_some("colour"))
            .words(["wire", "inner", "material"])
            .numbers(["rings", "closed first"])
            .numbers(spares.then_some("with spares"));
        for bag in &self.bags {
            for colour in &bag.counts.colours {
                let kind = bag.counts.kinds.iter().find(|k| k.name == colour.kind);
                let [wire, inner] = size_cells(kind);
                let mut cells = vec![bag.name.clone().unwrap_or_default(), colour.kind.clone()];
                cells.extend(coloured.then(|| colour.colour.clone().unwrap_or_else(|| NO_COLOUR.to_owned())));
                cells.extend([wire, inner, kind.map(KindCount::material_words).unwrap_or_default()]);
                cells.extend([colour.rings.to_string(), colour.closed.to_string()]);
                cells.extend(spares.then(|| bag.counts.packed(colour.rings).to_string()));
                grid.row(cells);
            }
        }
        grid.text()
    }

    fn wants_table(&self, layout: Layout) -> String {
        let coloured = self.coloured();
        let mut grid = Grid::new(layout)
            .words(["wire", "inner", "material"])
            .words(coloured.then_some("colour"))
            .words(["for"])
            .numbers(["rings", "g"]);
        for want in wants(self) {
            let mut cells = want.words.to_vec();
            cells.push(want.material.clone().unwrap_or_else(|| UNKNOWN.to_owned()));
            cells.extend(coloured.then(|| want.colour.clone().unwrap_or_else(|| NO_COLOUR.to_owned())));
            cells.extend([want.kinds.join(", "), want.rings.to_string(), fixed(want.grams(), 1)]);
            grid.row(cells);
        }
        grid.text()
    }

    /// Whether any ring has a colour.
    fn coloured(&self) -> bool {
        self.bags.iter().flat_map(|b| &b.counts.colours).any(|c| c.colour.is_some())
    }

    fn words(&self) -> String {
        let mut out = String::new();
        let grams = self.grams().map_or(String::new(), |g| format!(", {:.1} g without clasps", half_up(g, 1)));
        let _ = writeln!(
            out,
            "In all {} in {}: {} open, {} closed before you start{grams}.",
            count(self.sum(Counts::rings), "ring"),
            count(self.pieces(), "piece"),
            self.sum(Counts::open),
            self.sum(Counts::closed)
        );
        if self.bags.iter().any(|b| b.counts.spares.is_some()) {
            let packed: u64 = wants(self).iter().map(|w: &Want| w.rings).sum();
            let _ = writeln!(
                out,
                "Spares are rounded up for each bag, kind and colour: {} with spares.",
                count(packed, "ring")
            );
        }
        let clasp = self.bags.iter().filter_map(|b| b.counts.length).any(|l| l.clasp_mm > 0.0);
        let how = if clasp { "with the clasp, which hangs in the end rings" } else { "from outer edge to outer edge" };
        if self.bags.iter().any(|b| b.counts.length.is_some()) {
            let _ = writeln!(out, "Lengths are {how}.");
        }
        out + &notes(self.bags.iter().flat_map(|b| &b.counts.kinds))
    }
}
