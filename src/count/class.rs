//! A kit or a class: bags, each with pieces of its own, and what they come to in all.

use super::colours::ColourCount;
use super::counts::{Counts, KindCount, SizeFrom};
use super::sold::sold_and_measured;
use super::table::notes;
use super::wants::{Want, wants};
use crate::rings::{MOST_RINGS, TooMany};
use crate::text::{Grid, Layout, count, fixed, half_up};
use crate::weave::Weave;
use std::fmt::Write as _;

/// Where no colour is said.
pub(crate) const NOT_SAID: &str = "not said";

/// A bag: what is packed for one student, or for pieces alike.
#[derive(Clone, Debug, PartialEq)]
pub struct BagCount {
    /// Its name; `None` where the text has no bags and this is all that is made.
    pub name: Option<String>,
    /// The set of rings it is made of, where it is not the one without a name.
    pub rings: Option<String>,
    /// The rings of one piece. Of each bag there are as many as pieces.
    pub counts: Counts,
}

impl BagCount {
    /// Rings of a kind and colour that are packed for all its pieces, spares with them: bag by bag where there are bags.
    pub fn packed(&self, colour: &ColourCount) -> u64 {
        match self.name {
            Some(_) => self.counts.packed(colour.rings) * u64::from(self.counts.pieces),
            None => self.counts.at_hand(colour.rings),
        }
    }
}

/// All that a text has made.
#[derive(Clone, Debug, PartialEq)]
pub struct Class {
    /// What is made.
    pub name: String,
    /// Its bags, at least one.
    pub bags: Vec<BagCount>,
}

impl Class {
    /// Counts every bag; of a text without bags its piece. Chains with sizes in mm are settled for their length, once for
    /// each set of rings.
    ///
    /// # Errors
    /// [`TooMany`], where one piece of every bag together have too many rings.
    pub fn of(weave: &Weave) -> Result<Self, TooMany> {
        Self::counted(weave, Counts::of)
    }

    /// The same without lengths; the weave is settled only where a length says how large a piece is.
    ///
    /// # Errors
    /// [`TooMany`], where one piece of every bag together have too many rings.
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

    /// Whether the text says how many are made of every bag.
    pub fn size_asked(&self) -> bool {
        self.bags.iter().all(|b| b.counts.size_from == SizeFrom::Text)
    }

    /// Pieces in all.
    pub fn pieces(&self) -> u64 {
        self.bags.iter().map(|b| u64::from(b.counts.pieces)).sum()
    }

    /// A number of rings of one piece, over all pieces.
    pub fn sum(&self, rings: impl Fn(&Counts) -> u32) -> u64 {
        self.bags.iter().map(|b| u64::from(rings(&b.counts)) * u64::from(b.counts.pieces)).sum()
    }

    /// Weight of all pieces without clasps, g, spares left out; `None` where a kind's weight is not known.
    pub fn grams(&self) -> Option<f64> {
        self.bags.iter().map(|b| Some(b.counts.grams()? * f64::from(b.counts.pieces))).sum()
    }

    /// The class for people: of a text without bags the counts of its piece; else its bags, what goes into each, and what to have at hand.
    pub fn table(&self, layout: Layout) -> String {
        if let [BagCount { name: None, counts, .. }] = self.bags.as_slice() {
            return counts.table(layout);
        }
        let sorts = if self.bags.len() == 1 { "bags of one sort" } else { "bags of several sorts" };
        let mut out = layout.heading(&format!("{}: {} in {sorts}", self.name, count(self.pieces(), "piece")));
        out += &self.bags_table(layout);
        out += &layout.heading("Packed in one bag");
        out += &self.packing_table(layout);
        out += &layout.heading("Have at hand for all bags; a line is sold as one");
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
                let [wire, inner] = kind.map(sold_and_measured).unwrap_or_default();
                let mut cells = vec![bag.name.clone().unwrap_or_default(), colour.kind.clone()];
                cells.extend(coloured.then(|| colour.colour.clone().unwrap_or_else(|| NOT_SAID.to_owned())));
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
            cells.push(want.material.clone().unwrap_or_else(|| "?".to_owned()));
            cells.extend(coloured.then(|| want.colour.clone().unwrap_or_else(|| NOT_SAID.to_owned())));
            cells.extend([want.kinds.join(", "), want.rings.to_string(), fixed(want.grams(), 1)]);
            grid.row(cells);
        }
        grid.text()
    }

    /// Whether any colour is said.
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
                "Spares are rounded up bag by bag, of each kind and colour: {} with them.",
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
