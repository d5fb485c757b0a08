//! Counts for other programs.

use super::class::{BagCount, Class};
use super::colours::ColourCount;
use super::counts::{Counts, FamilyCount, KindCount, SizeFrom};
use super::extent::Extent;
use super::length::LengthCount;
use super::sets::Gauge;
use super::wants::Want;
use crate::pattern::Lattice;
use crate::settle::Word;
use crate::text::Rounded;
use schemars::JsonSchema;
use serde::Serialize;

/// One piece; all counts and weights but those of `total` are of one.
#[derive(Serialize, JsonSchema)]
#[schemars(rename = "Piece")]
pub struct PieceJson<'c> {
    weave: &'c str,
    lattice: Lattice,
    /// Of a chain.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schemars(with = "u32")]
    repeats: Option<u32>,
    /// Of a sheet.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schemars(with = "u32")]
    rows: Option<u32>,
    /// Of a sheet.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schemars(with = "u32")]
    columns: Option<u32>,
    /// False where the text does not ask for this size.
    size_asked: bool,
    /// How many are made alike.
    #[schemars(range(min = 1))]
    pieces: u32,
    rings: u32,
    /// Closed before weaving.
    closed: u32,
    /// Woven in open.
    open: u32,
    /// Rings that are accents.
    accents: u32,
    #[schemars(range(min = 0))]
    grams: Option<Rounded<4>>,
    families: Vec<Family<'c>>,
    kinds: Vec<Kind<'c>>,
    colours: Vec<Colour<'c>>,
    /// Of a chain.
    length: Option<Length>,
    /// Of a sheet, from outer edge to outer edge.
    extent: Option<Size>,
    /// Rings to have at hand beyond those of the pieces.
    #[schemars(range(min = 0))]
    spares_percent: Option<f64>,
    /// Over all pieces, spares left out.
    total: Total,
}

#[derive(Serialize, JsonSchema)]
struct Family<'c> {
    family: &'c str,
    kind: &'c str,
    accent: bool,
    rings: u32,
    closed: u32,
    open: u32,
    /// Rings with fewer links than inside; null where the repeat is too large to say.
    end_rings: Option<u32>,
}

#[derive(Serialize, JsonSchema)]
struct Kind<'c> {
    kind: &'c str,
    rings: u32,
    closed: u32,
    open: u32,
    /// As measured, or else nominal.
    #[schemars(extend("exclusiveMinimum" = 0))]
    wire_mm: Option<Rounded<4>>,
    /// As measured, or else nominal.
    #[schemars(extend("exclusiveMinimum" = 0))]
    inner_mm: Option<Rounded<4>>,
    /// The wire diameter that rings are sold by.
    #[schemars(extend("exclusiveMinimum" = 0))]
    nominal_wire_mm: Option<Rounded<4>>,
    /// The inner diameter that rings are sold by.
    #[schemars(extend("exclusiveMinimum" = 0))]
    nominal_inner_mm: Option<Rounded<4>>,
    /// `inner_mm` by `wire_mm`.
    #[schemars(extend("exclusiveMinimum" = 0))]
    aspect_ratio: Option<Rounded<4>>,
    /// As written.
    material: Option<&'c str>,
    /// The material that is meant, where it is known.
    known_material: Option<&'c str>,
    /// Of the known material, g/cm³.
    density: Option<f64>,
    density_source: Option<&'c str>,
    /// What to mind at work.
    care: Option<&'c str>,
    #[schemars(range(min = 0))]
    ring_grams: Option<Rounded<6>>,
    #[schemars(range(min = 0))]
    grams: Option<Rounded<4>>,
}

#[derive(Serialize, JsonSchema)]
struct Colour<'c> {
    /// Null where none is given.
    colour: Option<&'c str>,
    kind: &'c str,
    rings: u32,
    closed: u32,
    open: u32,
    /// For all pieces, with spares.
    at_hand: u64,
}

/// Whose length of a repeat counts.
#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
enum By {
    /// The maker's own.
    Measured,
    /// Where rigid rings lie drawn out.
    Computed,
}

#[derive(Serialize, JsonSchema)]
struct Length {
    by: By,
    measured_repeats: Option<u32>,
    /// Length of the repeats that were measured.
    #[schemars(extend("exclusiveMinimum" = 0))]
    measured_mm: Option<Rounded<4>>,
    /// Length of one repeat as computed.
    #[schemars(extend("exclusiveMinimum" = 0))]
    computed_pitch_mm: Option<Rounded<4>>,
    /// Length of one repeat: the one that counts.
    #[schemars(extend("exclusiveMinimum" = 0))]
    pitch_mm: Rounded<4>,
    /// What the end rings add to whole repeats: below 0 where rings are left out.
    ends_mm: Option<Rounded<4>>,
    /// From the inside of its one loop to the inside of its other; 0 without a clasp.
    #[schemars(range(min = 0))]
    clasp_mm: Rounded<4>,
    /// The length that was asked for.
    #[schemars(extend("exclusiveMinimum" = 0))]
    asked_mm: Option<Rounded<4>>,
    /// Of the piece with its clasp.
    #[schemars(extend("exclusiveMinimum" = 0))]
    length_mm: Rounded<4>,
}

#[derive(Serialize, JsonSchema)]
struct Size {
    /// Down its rows.
    #[schemars(extend("exclusiveMinimum" = 0))]
    height_mm: Rounded<4>,
    /// Across its columns.
    #[schemars(extend("exclusiveMinimum" = 0))]
    width_mm: Rounded<4>,
    /// Length of one repeat down the rows.
    #[schemars(extend("exclusiveMinimum" = 0))]
    row_mm: Rounded<4>,
    /// Length of one repeat across the columns.
    #[schemars(extend("exclusiveMinimum" = 0))]
    column_mm: Rounded<4>,
    #[schemars(extend("exclusiveMinimum" = 0))]
    asked_height_mm: Option<Rounded<4>>,
    #[schemars(extend("exclusiveMinimum" = 0))]
    asked_width_mm: Option<Rounded<4>>,
}

#[derive(Serialize, JsonSchema)]
struct Total {
    /// Of a kit or class.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schemars(with = "u64")]
    pieces: Option<u64>,
    rings: u64,
    closed: u64,
    open: u64,
    #[schemars(range(min = 0))]
    grams: Option<Rounded<4>>,
}

/// A kit or a class: its bags, and what they come to.
#[derive(Serialize, JsonSchema)]
#[schemars(rename = "Class")]
pub struct ClassJson<'c> {
    weave: &'c str,
    #[schemars(length(min = 1))]
    bags: Vec<Bag<'c>>,
    /// Over all pieces, spares left out.
    total: Total,
    /// What is sold as one: rings of one size, material and colour.
    wanted: Vec<Wanted<'c>>,
}

#[derive(Serialize, JsonSchema)]
struct Bag<'c> {
    #[schemars(required)]
    bag: Option<&'c str>,
    /// The set of rings; null for the one without a name.
    rings_of: Option<&'c str>,
    /// One piece of it; `pieces` says how many bags of it there are.
    piece: PieceJson<'c>,
    /// What goes into one bag, spares included.
    packed: Vec<Packed<'c>>,
}

#[derive(Serialize, JsonSchema)]
struct Packed<'c> {
    kind: &'c str,
    colour: Option<&'c str>,
    rings: u64,
}

#[derive(Serialize, JsonSchema)]
struct Wanted<'c> {
    #[schemars(length(min = 1))]
    kinds: &'c [String],
    colour: Option<&'c str>,
    #[serde(flatten)]
    sold: SoldJson<'c>,
    #[schemars(range(min = 0))]
    grams: Option<Rounded<4>>,
}

/// Rings that are sold as one.
#[derive(Serialize, JsonSchema)]
pub(crate) struct SoldJson<'c> {
    /// As first written.
    material: Option<&'c str>,
    #[schemars(extend("exclusiveMinimum" = 0))]
    wire_mm: Option<Rounded<4>>,
    #[schemars(extend("exclusiveMinimum" = 0))]
    inner_mm: Option<Rounded<4>>,
    /// For all pieces, spares included.
    rings: u64,
    /// In one piece of each bag, spares left out.
    #[schemars(length(min = 1))]
    in_a_piece: &'c [u32],
}

/// The piece in one set of rings.
#[derive(Serialize, JsonSchema)]
#[schemars(rename = "Gauge")]
pub struct GaugeJson<'c> {
    /// The set of rings; null for the one without a name.
    rings_of: Option<&'c str>,
    /// How much thicker all wires could be, as a part of them; below 0 it does not close.
    room: Option<Rounded<6>>,
    /// How close its rings lie; "?" where that is not known.
    #[schemars(extend("enum" = ["?", "does not close", "dense, little room", "dense", "middling", "open"]))]
    lies: &'static str,
    sits: Vec<Sits<'c>>,
    piece: PieceJson<'c>,
}

#[derive(Serialize, JsonSchema)]
struct Sits<'c> {
    family: &'c str,
    word: Word,
}

impl Counts {
    /// The counts for other programs.
    pub fn json(&self) -> PieceJson<'_> {
        let [first, second] = self.size.0;
        let [repeats, rows, columns] = match self.lattice {
            Lattice::Unit => [None; 3],
            Lattice::Chain => [Some(first), None, None],
            Lattice::Sheet => [None, Some(first), Some(second)],
        };
        let times = |rings: u32| u64::from(rings) * u64::from(self.pieces);
        PieceJson {
            weave: &self.name,
            lattice: self.lattice,
            repeats,
            rows,
            columns,
            size_asked: self.size_from == SizeFrom::Text,
            pieces: self.pieces,
            rings: self.rings(),
            closed: self.closed(),
            open: self.open(),
            accents: self.accents(),
            grams: self.grams().map(Rounded),
            families: self.families.iter().map(FamilyCount::json).collect(),
            kinds: self.kinds.iter().map(KindCount::json).collect(),
            colours: self.colours.iter().map(|c| c.json(self.at_hand(c.rings))).collect(),
            length: self.length.as_ref().map(LengthCount::json),
            extent: self.extent.as_ref().map(Extent::json),
            spares_percent: self.spares,
            total: Total {
                pieces: None,
                rings: times(self.rings()),
                closed: times(self.closed()),
                open: times(self.open()),
                grams: self.grams().map(|g| Rounded(g * f64::from(self.pieces))),
            },
        }
    }
}

impl FamilyCount {
    fn json(&self) -> Family<'_> {
        Family {
            family: &self.name,
            kind: &self.kind,
            accent: self.accent,
            rings: self.rings(),
            closed: self.closed,
            open: self.open,
            end_rings: self.end_rings,
        }
    }
}

impl KindCount {
    fn json(&self) -> Kind<'_> {
        let size = self.size.as_ref();
        Kind {
            kind: &self.name,
            rings: self.rings(),
            closed: self.closed,
            open: self.open,
            wire_mm: size.and_then(|s| s.wire_mm).map(Rounded),
            inner_mm: size.and_then(|s| s.inner_mm).map(Rounded),
            nominal_wire_mm: size.and_then(|s| s.nominal_wire_mm).map(Rounded),
            nominal_inner_mm: size.and_then(|s| s.nominal_inner_mm).map(Rounded),
            aspect_ratio: size.and_then(|s| s.aspect_ratio).map(Rounded),
            material: self.material.as_deref(),
            known_material: self.known.map(|m| m.name),
            density: self.known.map(|m| m.density),
            density_source: self.known.map(|m| m.source),
            care: self.known.and_then(|m| m.care),
            ring_grams: self.ring_grams.map(Rounded),
            grams: self.grams().map(Rounded),
        }
    }
}

impl ColourCount {
    fn json(&self, at_hand: u64) -> Colour<'_> {
        Colour {
            colour: self.colour.as_deref(),
            kind: &self.kind,
            rings: self.rings,
            closed: self.closed,
            open: self.rings - self.closed,
            at_hand,
        }
    }
}

impl LengthCount {
    fn json(&self) -> Length {
        Length {
            by: if self.measured.is_some() { By::Measured } else { By::Computed },
            measured_repeats: self.measured.map(|(repeats, _)| repeats),
            measured_mm: self.measured.map(|(_, mm)| Rounded(mm)),
            computed_pitch_mm: self.computed_pitch_mm.map(Rounded),
            pitch_mm: Rounded(self.pitch_mm),
            ends_mm: self.ends_mm.map(Rounded),
            clasp_mm: Rounded(self.clasp_mm),
            asked_mm: self.asked_mm.map(Rounded),
            length_mm: Rounded(self.length_mm),
        }
    }
}

impl Extent {
    fn json(&self) -> Size {
        let ([height, width], [row, column]) = (self.mm, self.pitch_mm);
        let [asked_height, asked_width] = self.asked_mm;
        Size {
            height_mm: Rounded(height),
            width_mm: Rounded(width),
            row_mm: Rounded(row),
            column_mm: Rounded(column),
            asked_height_mm: asked_height.map(Rounded),
            asked_width_mm: asked_width.map(Rounded),
        }
    }
}

impl Class {
    /// What the bags of a kit or class come to, for other programs; `wants` are those of the same class.
    pub fn json<'c>(&'c self, wants: &'c [Want]) -> ClassJson<'c> {
        ClassJson {
            weave: &self.name,
            bags: self.bags.iter().map(BagCount::json).collect(),
            total: Total {
                pieces: Some(self.pieces()),
                rings: self.sum(Counts::rings),
                closed: self.sum(Counts::closed),
                open: self.sum(Counts::open),
                grams: self.grams().map(Rounded),
            },
            wanted: wants.iter().map(Want::json).collect(),
        }
    }
}

impl BagCount {
    fn json(&self) -> Bag<'_> {
        let packed = |c: &'_ ColourCount| self.counts.packed(c.rings);
        Bag {
            bag: self.name.as_deref(),
            rings_of: self.rings.as_deref(),
            piece: self.counts.json(),
            packed: self
                .counts
                .colours
                .iter()
                .map(|c| Packed { kind: &c.kind, colour: c.colour.as_deref(), rings: packed(c) })
                .collect(),
        }
    }
}

impl Want {
    fn json(&self) -> Wanted<'_> {
        Wanted {
            kinds: &self.kinds,
            colour: self.colour.as_deref(),
            sold: self.sold_json(),
            grams: self.grams().map(Rounded),
        }
    }

    pub(crate) fn sold_json(&self) -> SoldJson<'_> {
        let size = self.size.as_ref();
        SoldJson {
            material: self.material.as_deref(),
            wire_mm: size.and_then(|s| s.wire_mm).map(Rounded),
            inner_mm: size.and_then(|s| s.inner_mm).map(Rounded),
            rings: self.rings,
            in_a_piece: &self.in_a_piece,
        }
    }
}

impl Gauge {
    /// The piece in this set of rings, for other programs.
    pub fn json(&self) -> GaugeJson<'_> {
        GaugeJson {
            rings_of: self.set.as_deref(),
            room: self.room.map(Rounded),
            lies: self.lies(),
            sits: self.sits.iter().map(|(family, word)| Sits { family, word: *word }).collect(),
            piece: self.counts.json(),
        }
    }
}
