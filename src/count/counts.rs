//! How many rings of each sort a piece takes, and their weight.

use super::colours::{ColourCount, Colours};
use super::extent::Extent;
use super::length::LengthCount;
use crate::measure::ring_grams;
use crate::measure::{Material, material};
use crate::notation::{Size, State};
use crate::pattern::{KindSize, Lattice, Pattern, PerFamily, Repeats, Shift};
use crate::rings::{Cell, Piece, Ring};
use crate::weave::Weave;
use petgraph::graph::NodeIndex;

/// The rings of one family in one piece.
#[derive(Clone, Debug, PartialEq)]
pub struct FamilyCount {
    /// The family.
    pub name: String,
    /// Its kind.
    pub kind: String,
    /// Whether it is an accent.
    pub accent: bool,
    /// Closed before weaving.
    pub closed: u32,
    /// Woven in open.
    pub open: u32,
    /// Rings with fewer links than those of the family inside the piece, at the same place of the repeat; `None` where
    /// the repeat is too large to tell.
    pub end_rings: Option<u32>,
}

impl FamilyCount {
    /// All of them.
    pub fn rings(&self) -> u32 {
        self.closed + self.open
    }
}

/// The rings of one kind in one piece.
#[derive(Clone, Debug, PartialEq)]
pub struct KindCount {
    /// The kind.
    pub name: String,
    /// Closed before weaving.
    pub closed: u32,
    /// Woven in open.
    pub open: u32,
    /// Its size, as far as it is known.
    pub size: Option<KindSize>,
    /// Wire and inner diameter as written.
    pub written: [Option<Size>; 2],
    /// Wire and inner diameter as measured.
    pub measured: [Option<Size>; 2],
    /// Its material as written.
    pub material: Option<String>,
    /// The material, where it is known.
    pub known: Option<&'static Material>,
    /// Weight of one ring, g, where wire, inner diameter and material are known.
    pub ring_grams: Option<f64>,
}

impl KindCount {
    /// All of them.
    pub fn rings(&self) -> u32 {
        self.closed + self.open
    }

    /// Weight of all of them in one piece, g.
    pub fn grams(&self) -> Option<f64> {
        self.ring_grams.map(|g| g * f64::from(self.rings()))
    }
}

/// Where the size of a piece comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SizeFrom {
    /// The text asks for it.
    Text,
    /// Whoever counts asks for it.
    Chosen,
    /// Nobody asks for it: it shows how the piece goes on.
    Example,
}

/// The rings of one piece, counted in every way; and how many pieces there are to be.
#[derive(Clone, Debug, PartialEq)]
pub struct Counts {
    /// The name of the weave.
    pub name: String,
    /// Unit, chain or sheet.
    pub lattice: Lattice,
    /// How many repeats one piece has.
    pub size: Repeats,
    /// Where that size comes from.
    pub size_from: SizeFrom,
    /// How many pieces alike, at least 1.
    pub pieces: u32,
    /// By family, in the order they are declared.
    pub families: PerFamily<FamilyCount>,
    /// By kind, in the order their first family is declared.
    pub kinds: Vec<KindCount>,
    /// The colours of each kind, in the order of the families.
    pub colours: Vec<ColourCount>,
    /// Length of one piece, where it is known.
    pub length: Option<LengthCount>,
    /// Height and width of a sheet, where they are known.
    pub extent: Option<Extent>,
    /// Spare rings, percent of those of the pieces, where they are asked for.
    pub spares: Option<f64>,
}

impl Counts {
    /// Counts the rings of a piece of a weave. Time grows with the number of rings and links; where sizes are in mm the
    /// weave is settled for the length of the piece.
    pub fn of(weave: &Weave, piece: &Piece) -> Self {
        Self {
            length: LengthCount::of(weave, piece.size),
            extent: Extent::of(weave, piece.size),
            ..Self::without_length(weave, piece)
        }
    }

    /// Counts the rings without the length of the piece; nothing is settled.
    pub fn without_length(weave: &Weave, piece: &Piece) -> Self {
        let pattern = weave.pattern();
        let mut families = families(pattern, weave.cell().is_ok());
        let inside = weave.cell().as_ref().ok().map(|cell| Inside::of(pattern, cell));
        let mut colours = Colours::new(pattern);
        for number in piece.graph.node_indices() {
            let Some(ring) = piece.graph.node_weight(number) else { continue };
            let count = &mut families[ring.family];
            match ring.state {
                State::Closed => count.closed += 1,
                State::Open => count.open += 1,
            }
            let short = inside.as_ref().is_some_and(|i| is_end(i, piece, number, ring));
            if let Some(ends) = count.end_rings.as_mut().filter(|_| short) {
                *ends += 1;
            }
            colours.add(ring);
        }
        let kinds = kinds(pattern, &families);
        Self {
            name: weave.name().to_owned(),
            lattice: pattern.lattice,
            size: piece.size,
            size_from: match weave.size_asked() {
                Some(size) if size == piece.size => SizeFrom::Text,
                Some(_) => SizeFrom::Chosen,
                None => SizeFrom::Example,
            },
            pieces: pattern.make.pieces.as_ref().map_or(1, |p| p.value.max(1)),
            colours: colours.counts(),
            length: None,
            extent: None,
            spares: pattern.make.spares,
            families,
            kinds,
        }
    }

    /// The same, where whoever counts asked for this size.
    #[must_use]
    pub fn of_chosen_size(mut self) -> Self {
        if self.size_from == SizeFrom::Example {
            self.size_from = SizeFrom::Chosen;
        }
        self
    }

    /// All rings of one piece.
    pub fn rings(&self) -> u32 {
        self.closed() + self.open()
    }

    /// Rings closed before weaving.
    pub fn closed(&self) -> u32 {
        self.families.iter().map(|f| f.closed).sum()
    }

    /// Rings woven in open.
    pub fn open(&self) -> u32 {
        self.families.iter().map(|f| f.open).sum()
    }

    /// The rings to have at hand, spares included and rounded up, where one piece has `rings` of them.
    pub fn at_hand(&self, rings: u32) -> u64 {
        with_spares(f64::from(rings) * f64::from(self.pieces), self.spares)
    }

    /// The rings to pack for one piece, spares included and rounded up, where it has `rings` of them.
    pub fn packed(&self, rings: u32) -> u64 {
        with_spares(f64::from(rings), self.spares)
    }

    /// Rings of accents.
    pub fn accents(&self) -> u32 {
        self.families.iter().filter(|f| f.accent).map(FamilyCount::rings).sum()
    }

    /// Weight of one piece without clasp, g; `None` where a kind's weight is not known.
    pub fn grams(&self) -> Option<f64> {
        self.kinds.iter().map(KindCount::grams).sum()
    }
}

fn with_spares(rings: f64, percent: Option<f64>) -> u64 {
    // A hair less, since 1.05 cannot be written in binary and 20 × 1.05 comes out a hair more than 21.
    let more = rings * (1.0 + percent.unwrap_or(0.0) / 100.0) * (1.0 - 1e-12);
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // Not negative, and far below what a u64 holds.
    let more = libm::ceil(more) as u64;
    more
}

fn families(pattern: &Pattern, ends_known: bool) -> PerFamily<FamilyCount> {
    let count = |f: &crate::pattern::Family| FamilyCount {
        name: f.name.value.clone(),
        kind: f.kind.clone(),
        accent: f.accent.is_some(),
        closed: 0,
        open: 0,
        end_rings: ends_known.then_some(0),
    };
    pattern.families.map(count)
}

fn kinds(pattern: &Pattern, families: &PerFamily<FamilyCount>) -> Vec<KindCount> {
    let mut kinds: Vec<KindCount> = Vec::new();
    for family in families {
        if let Some(kind) = kinds.iter_mut().find(|k| k.name == family.kind) {
            kind.closed += family.closed;
            kind.open += family.open;
            continue;
        }
        let kind = pattern.kind(&family.kind);
        let size = kind.map(KindSize::of);
        let words = kind.and_then(|k| k.material.as_ref()).map(|m| m.value.clone());
        let known = words.as_deref().and_then(material);
        let ring_grams = size
            .as_ref()
            .and_then(|s| s.wire_mm.zip(s.inner_mm))
            .zip(known)
            .map(|((wire, inner), m)| ring_grams(m.density, wire, inner));
        kinds.push(KindCount {
            name: family.kind.clone(),
            closed: family.closed,
            open: family.open,
            size,
            written: kind.map_or([None, None], |k| [&k.wire, &k.inner].map(|s| s.as_ref().map(|s| s.0.clone()))),
            measured: kind.map_or([None, None], |k| [k.measured_wire.clone(), k.measured_inner.clone()]),
            material: words,
            known,
            ring_grams,
        });
    }
    kinds
}

/// How many links the rings of each family have inside a piece, at each place of the repeat.
struct Inside {
    period: Shift,
    links: PerFamily<Vec<usize>>,
}

impl Inside {
    fn of(pattern: &Pattern, cell: &Cell) -> Self {
        let Shift { row, column } = cell.period;
        let places = usize::try_from(i64::from(row) * i64::from(column)).unwrap_or(0);
        let mut inside = Self { period: cell.period, links: pattern.families.map(|_| vec![0; places]) };
        for number in cell.graph.node_indices() {
            let Some(ring) = cell.graph.node_weight(number) else { continue };
            let place = inside.place(ring.phase);
            if let Some(links) = inside.links[ring.family].get_mut(place) {
                *links = cell.degree(number);
            }
        }
        inside
    }

    /// The place in the repeat of a repeat counted from 0.
    fn place(&self, at: Shift) -> usize {
        let Shift { row, column } = at.fold(self.period).0;
        usize::try_from(row * self.period.column + column).unwrap_or(usize::MAX)
    }
}

fn is_end(inside: &Inside, piece: &Piece, number: NodeIndex, ring: &Ring) -> bool {
    let place = inside.place(ring.at - Shift::ONE);
    let links = inside.links[ring.family].get(place).copied().unwrap_or(0);
    piece.graph.edges(number).count() < links
}
