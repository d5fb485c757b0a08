//! Counts for people: tables, and the totals in words.

use super::class::NO_COLOUR;
use super::counts::{Counts, KindCount, SizeFrom};
use super::sold::size_cells;
use crate::pattern::Lattice;
use crate::text::{Grid, Layout, UNKNOWN, count, fixed, half_up, singular_or_plural};
use std::fmt::Write as _;

impl Counts {
    /// The counts for people: families, kinds, colours, then totals in words.
    pub fn table(&self, layout: Layout) -> String {
        let size = self.size.words(self.lattice);
        let example = match self.size_from {
            SizeFrom::Example => ", as an example: the file does not say how many to make",
            SizeFrom::Text | SizeFrom::Chosen => "",
        };
        let mut out = layout.heading(&format!("{}: {size}{example}", self.name));
        out += &self.families_table(layout);
        if self.kinds.iter().any(|k| k.size.is_some()) {
            out += &self.kinds_table(layout);
        }
        if self.spares.is_some() || self.colours.iter().any(|c| c.colour.is_some()) {
            out += &self.colours_table(layout);
        }
        out + &layout.lines(&self.words())
    }

    fn families_table(&self, layout: Layout) -> String {
        let all = self.for_all("rings");
        let mut grid = Grid::new(layout)
            .words(["family", "kind", ""])
            .numbers(["rings", "closed", "open", "end rings"])
            .numbers(&all);
        for f in &self.families {
            let ends = f.end_rings.map_or(UNKNOWN.to_owned(), |e| e.to_string());
            let accent = if f.accent { "accent" } else { "" };
            let words = [f.name.clone(), f.kind.clone(), accent.to_owned()];
            let numbers = [f.rings().to_string(), f.closed.to_string(), f.open.to_string(), ends];
            grid.row(words.into_iter().chain(numbers).chain(all.iter().map(|_| self.times(f.rings()))));
        }
        grid.text()
    }

    fn kinds_table(&self, layout: Layout) -> String {
        let all = [self.for_all("rings"), self.for_all("g")].concat();
        let mut grid = Grid::new(layout)
            .words(["kind", "wire", "inner", "material"])
            .numbers(["AR", "rings", "g a ring", "g a piece"])
            .numbers(&all);
        for k in &self.kinds {
            let [wire, inner] = size_cells(Some(k));
            let ratio = k.size.as_ref().and_then(|s| s.aspect_ratio);
            let words = [k.name.clone(), wire, inner, k.material_words()];
            let numbers = [fixed(ratio, 2), k.rings().to_string(), fixed(k.ring_grams, 4), fixed(k.grams(), 1)];
            let grams = fixed(k.grams().map(|g| g * f64::from(self.pieces)), 1);
            let all = [self.times(k.rings()), grams].into_iter().take(all.len());
            grid.row(words.into_iter().chain(numbers).chain(all));
        }
        grid.text()
    }

    fn colours_table(&self, layout: Layout) -> String {
        let spares = self.spares.map(|s| format!("with {s} % to spare"));
        let all: Vec<String> = self.for_all("rings").into_iter().chain(spares).collect();
        let mut grid = Grid::new(layout).words(["colour", "kind"]).numbers(["rings", "closed", "open"]).numbers(&all);
        for c in &self.colours {
            let colour = c.colour.clone().unwrap_or_else(|| NO_COLOUR.to_owned());
            let (more, all) = (self.spares.map(|_| self.at_hand(c.rings).to_string()), self.times(c.rings));
            let all = (self.pieces > 1).then_some(all);
            let counts = [c.rings, c.closed, c.rings - c.closed].map(|n| n.to_string());
            grid.row([colour, c.kind.clone()].into_iter().chain(counts).chain(all).chain(more));
        }
        grid.text()
    }

    /// The length of a chain, or the height and width of a sheet; [`UNKNOWN`] where that is not known.
    pub(crate) fn reach_words(&self) -> String {
        match (&self.length, &self.extent, self.lattice) {
            (Some(length), ..) => format!("{:.1} mm", half_up(length.length_mm, 1)),
            (_, Some(extent), _) => format!("{:.1} × {:.1} mm", half_up(extent.mm[0], 1), half_up(extent.mm[1], 1)),
            (_, _, Lattice::Unit) => "–".to_owned(),
            _ => UNKNOWN.to_owned(),
        }
    }

    /// The heading of a column for all pieces, where there are several.
    fn for_all(&self, what: &str) -> Vec<String> {
        if self.pieces > 1 { vec![format!("{what} for {}", self.pieces)] } else { Vec::new() }
    }

    fn times(&self, rings: u32) -> String {
        (u64::from(rings) * u64::from(self.pieces)).to_string()
    }

    /// Totals, length, and what to take care of.
    fn words(&self) -> String {
        let mut out = self.total("", 1);
        let _ = writeln!(out);
        if self.pieces > 1 {
            let _ = writeln!(out, "{}", self.total(&format!("For {} pieces ", self.pieces), self.pieces));
        }
        if let Some(spares) = self.spares {
            let _ = writeln!(
                out,
                "With {spares} % to spare, rounded up for each kind and colour, have {} at hand.",
                count(self.colours.iter().map(|c| self.at_hand(c.rings)).sum::<u64>(), "ring")
            );
        }
        if self.accents() > 0 {
            let _ = writeln!(
                out,
                "{} of {} {} accents.",
                self.accents(),
                self.rings(),
                singular_or_plural(self.accents(), "is", "are")
            );
        }
        let sized = self.kinds.iter().any(|k| k.size.is_some());
        for kind in self.kinds.iter().filter(|k| sized && k.ring_grams.is_none() && k.rings() > 0) {
            let _ = writeln!(out, "No weight for `{}`: {}.", kind.name, missing(kind));
        }
        if let Some(length) = &self.length {
            out += &length.words();
        }
        if let Some(extent) = &self.extent {
            out += &extent.words();
        }
        out + &notes(self.kinds.iter())
    }

    fn total(&self, start: &str, pieces: u32) -> String {
        let grams = self.grams().filter(|_| self.rings() > 0).map(|g| g * f64::from(pieces));
        let all = |rings: u32| u64::from(rings) * u64::from(pieces);
        let weight = grams.map_or(String::new(), |g| format!(", {:.1} g without clasp", half_up(g, 1)));
        format!(
            "{start}{}: {} open, {} closed before you start{weight}.",
            count(all(self.rings()), "ring"),
            all(self.open()),
            all(self.closed())
        )
    }
}

impl KindCount {
    /// Its material for a table.
    pub(crate) fn material_words(&self) -> String {
        self.material.clone().unwrap_or_else(|| UNKNOWN.to_owned())
    }
}

/// Where weights come from, and what to take care of with these materials; a line each.
pub(super) fn notes<'k>(kinds: impl Iterator<Item = &'k KindCount>) -> String {
    let known: Vec<&KindCount> = kinds.collect();
    let mut out = String::new();
    let mut weighed: Vec<_> = known.iter().filter(|k| k.ring_grams.is_some()).filter_map(|k| k.known).collect();
    weighed.sort_unstable_by_key(|m| m.name);
    weighed.dedup();
    let densities: Vec<_> = weighed.iter().map(|m| format!("{} {} ({})", m.name, m.density, m.source)).collect();
    if !densities.is_empty() {
        let _ = writeln!(out, "Densities in g/cm³: {}.", densities.join(", "));
    }
    let mut cares: Vec<_> = known.iter().filter_map(|k| k.known.and_then(|m| Some((m.name, m.care?)))).collect();
    cares.sort_unstable();
    cares.dedup();
    for (name, care) in &cares {
        let _ = writeln!(out, "{name}: {care}.");
    }
    if !cares.is_empty() {
        let _ = writeln!(out, "Local codes and licensed practice come first.");
    }
    out
}

/// Why a kind has no weight.
fn missing(kind: &KindCount) -> String {
    let size = kind.size.as_ref();
    let sized = size.is_some_and(|s| s.wire_mm.is_some() && s.inner_mm.is_some());
    match (&kind.material, kind.known) {
        _ if size.is_none() => "it has no line in `rings`".to_owned(),
        (None, _) if sized => "no material is given".to_owned(),
        (Some(material), None) if sized => format!("the density of {material} is not known"),
        _ => "its wire and inner diameter are not both known".to_owned(),
    }
}
