//! The answer for other programs.

use super::choose::Fit;
use super::offer::Offer;
use super::rows::{Enough, Misses, Pick, Row};
use super::wanted::Wanted;
use crate::settle::{Floor, Hold, Word};
use crate::text::Rounded;
use schemars::JsonSchema;
use serde::Serialize;

/// What `byrnie fit --json` prints. What is not known is null. Lengths are in mm.
#[derive(Serialize, JsonSchema)]
#[schemars(title = "Which rings make a weave")]
pub struct FitJson<'f> {
    weave: &'f str,
    /// The kinds that are chosen, the first family's first.
    #[schemars(length(min = 1, max = 2))]
    kinds: &'f [String],
    /// The other kinds, where one alone is chosen: they stay as the text has them.
    as_written: Vec<AsWritten<'f>>,
    from: From,
    /// Different sizes there are to choose from.
    sizes: usize,
    /// Lines of the shelf that are left out because their rings stretch.
    #[schemars(inner(range(min = 1)))]
    stretching: Vec<usize>,
    /// The aspect ratio of each kind where all wires are as thick as they go together, at the sizes of the text. Of one
    /// kind without accents all rows go by it.
    floors: Vec<FloorJson<'f>>,
    /// The aspect ratio from which on the base closes without its accents (found); null without accents, and where the
    /// base has several kinds.
    base_floor: Option<Rounded<6>>,
    /// Sizes with which the weave closes (found), in the order a maker would try them.
    rows: Vec<RowJson<'f>>,
    misses: MissesJson,
    /// Sizes of the first kind with which the base closes, and with which none of the second kind was found to sit
    /// straight.
    wanted: Vec<WantedJson<'f>>,
    work: Work,
}

/// Where the sizes come from.
#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
enum From {
    /// The maker's own rings.
    Shelf,
    /// Sizes in common use.
    #[serde(rename = "common sizes")]
    CommonSizes,
}

#[derive(Serialize, JsonSchema)]
struct Ring {
    #[schemars(extend("exclusiveMinimum" = 0))]
    wire_mm: Rounded<4>,
    #[schemars(extend("exclusiveMinimum" = 0))]
    inner_mm: Rounded<4>,
    /// `inner_mm` by `wire_mm`.
    #[schemars(extend("exclusiveMinimum" = 0))]
    aspect_ratio: Rounded<4>,
    /// Wire and inner diameter as written.
    words: String,
}

#[derive(Serialize, JsonSchema)]
struct AsWritten<'f> {
    #[serde(flatten)]
    size: Ring,
    kind: &'f str,
}

#[derive(Serialize, JsonSchema)]
#[schemars(rename = "Floor")]
struct FloorJson<'f> {
    kind: &'f str,
    /// Below this it cannot close: proved. 0 where nothing is.
    #[schemars(range(min = 0))]
    proved: Rounded<6>,
    /// At this a pose was found.
    #[schemars(extend("exclusiveMinimum" = 0))]
    found: Rounded<6>,
}

#[derive(Serialize, JsonSchema)]
#[schemars(rename = "Row")]
struct RowJson<'f> {
    /// One size for each kind.
    #[schemars(length(min = 1, max = 2))]
    picks: Vec<PickJson<'f>>,
    /// How much thicker all wires could be, as a part of them.
    #[schemars(range(min = 0))]
    room: Rounded<4>,
    /// Under 3 %.
    little_room: bool,
    /// Room under 8 %, under 20 %, more. Common practice, no source.
    lies: Hold,
    /// One repeat of the base drawn out, along each way; empty of a unit.
    #[schemars(length(max = 2), inner(range(min = 0)))]
    repeat_mm: Vec<Rounded<3>>,
    /// How each accent sits.
    sits: Vec<Sits<'f>>,
    /// Repeats of a chain and 1, or rows and columns of a sheet; null where the text does not say how much is made.
    #[schemars(inner(range(min = 1)))]
    repeats: Option<[u32; 2]>,
}

#[derive(Serialize, JsonSchema)]
struct Sits<'f> {
    family: &'f str,
    word: Word,
}

#[derive(Serialize, JsonSchema)]
#[schemars(rename = "Pick")]
struct PickJson<'f> {
    #[serde(flatten)]
    size: Ring,
    kind: &'f str,
    /// Rings of this kind for all pieces, spares included.
    needed: Option<u64>,
    /// The lines of the shelf that have this size.
    rings: Vec<OnShelf<'f>>,
}

#[derive(Serialize, JsonSchema)]
struct OnShelf<'f> {
    /// From 1.
    #[schemars(range(min = 1))]
    line: usize,
    material: Option<&'f str>,
    colour: Option<&'f str>,
    on_hand: Option<u64>,
    /// Whether there are as many as are needed.
    enough: Option<bool>,
    /// How many are missing; null where none are, or where that is not known.
    #[schemars(range(min = 1))]
    short_by: Option<u64>,
}

/// How many sizes, or pairs of sizes, are not among the rows, and why.
#[derive(Serialize, JsonSchema)]
#[schemars(rename = "Misses")]
struct MissesJson {
    /// Their wires do not go through a hole: proved.
    proved: usize,
    /// No pose was found of the base alone.
    base_not_found: usize,
    /// No pose was found; of a chain none that lies straight.
    not_found: usize,
    /// Too tight by the survey; not settled.
    looks_tight: usize,
    /// Closing by the survey; not settled.
    looks_promising: usize,
    /// Too unlike the others to be surveyed.
    not_surveyed: usize,
    /// Those that come nearest to closing.
    #[schemars(length(max = 3))]
    nearest: Vec<Nearest>,
}

#[derive(Serialize, JsonSchema)]
struct Nearest {
    #[schemars(length(min = 1, max = 2))]
    sizes: Vec<Ring>,
    /// Below 0; null where there is no pose even of thin wire.
    room: Option<Rounded<4>>,
}

#[derive(Serialize, JsonSchema)]
#[schemars(rename = "Wanted")]
struct WantedJson<'f> {
    base: Ring,
    /// The second kind.
    kind: &'f str,
    /// The wire that was tried: that of the base.
    #[schemars(extend("exclusiveMinimum" = 0))]
    wire_mm: Rounded<4>,
    /// An inner diameter of the second kind with which it was found to sit straight, with this wire; null where none was
    /// found or tried.
    inner_mm: Option<Rounded<4>>,
    /// How many inner diameters were tried.
    tried: usize,
    /// Whether some of the second kind close with it, and sit askew or loose.
    some_close: bool,
    /// Of the rings there are the one that comes nearest to that inner diameter.
    nearest: Option<Ring>,
}

/// What the answer took.
#[derive(Serialize, JsonSchema)]
struct Work {
    /// Shapes settled.
    settled: usize,
    /// Points surveyed.
    surveyed: usize,
    /// Lengths pulled.
    pulled: usize,
}

impl Fit {
    /// The answer for other programs.
    pub fn json(&self) -> FitJson<'_> {
        let [settled, surveyed, pulled] = self.work;
        FitJson {
            weave: &self.weave,
            kinds: &self.kinds,
            as_written: self.held.iter().map(|(kind, offer)| AsWritten { size: offer.json(), kind }).collect(),
            from: if self.from_shelf { From::Shelf } else { From::CommonSizes },
            sizes: self.offers.len(),
            stretching: self.stretching.iter().map(|r| r.line).collect(),
            floors: self.floors.iter().map(FloorJson::of).collect(),
            base_floor: self.base_floor.map(Rounded),
            rows: self.rows.iter().map(Row::json).collect(),
            misses: self.misses.json(),
            wanted: self.wanted.iter().map(Wanted::json).collect(),
            work: Work { settled, surveyed, pulled },
        }
    }
}

impl<'f> FloorJson<'f> {
    fn of(floor: &'f Floor) -> Self {
        Self { kind: &floor.kind, proved: Rounded(floor.proved), found: Rounded(floor.found) }
    }
}

impl Offer {
    fn json(&self) -> Ring {
        Ring {
            wire_mm: Rounded(self.wire_mm),
            inner_mm: Rounded(self.inner_mm),
            aspect_ratio: Rounded(self.ratio()),
            words: self.size(),
        }
    }
}

impl Row {
    fn json(&self) -> RowJson<'_> {
        RowJson {
            picks: self.picks.iter().map(Pick::json).collect(),
            room: Rounded(self.room),
            little_room: self.little_room(),
            lies: self.hold(),
            repeat_mm: self.repeat_mm.iter().copied().map(Rounded).collect(),
            sits: self.sits.iter().map(|(family, word)| Sits { family, word: *word }).collect(),
            repeats: self.size.map(|s| s.0),
        }
    }
}

impl Pick {
    fn json(&self) -> PickJson<'_> {
        let rings = self.offer.rings.iter().zip(&self.enough).map(|(ring, enough)| {
            let (enough, short_by) = match enough {
                Enough::Yes => (Some(true), None),
                Enough::Short(by) => (Some(false), Some(*by)),
                Enough::Unknown => (None, None),
            };
            OnShelf {
                line: ring.line,
                material: ring.material.as_deref(),
                colour: ring.colour.as_deref(),
                on_hand: ring.on_hand,
                enough,
                short_by,
            }
        });
        PickJson { size: self.offer.json(), kind: &self.kind, needed: self.needed, rings: rings.collect() }
    }
}

impl Misses {
    fn json(&self) -> MissesJson {
        let nearest = self.nearest.iter().map(|(offers, room)| Nearest {
            sizes: offers.iter().map(Offer::json).collect(),
            room: (*room > -1.0).then_some(Rounded(*room)),
        });
        MissesJson {
            proved: self.proved,
            base_not_found: self.base,
            not_found: self.not_found,
            looks_tight: self.tight,
            looks_promising: self.promising,
            not_surveyed: self.beyond,
            nearest: nearest.collect(),
        }
    }
}

impl Wanted {
    fn json(&self) -> WantedJson<'_> {
        WantedJson {
            base: self.base.json(),
            kind: &self.kind,
            wire_mm: Rounded(self.base.wire_mm),
            inner_mm: self.inner_mm.map(Rounded),
            tried: self.tried,
            some_close: self.some_close,
            nearest: self.nearest.as_ref().map(Offer::json),
        }
    }
}
