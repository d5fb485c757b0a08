//! What is computed of the built-in weaves, for other programs.

use super::figures::{Entry, Figures};
use super::practice::Practice;
use crate::notation::Hand;
use crate::pattern::Lattice;
use crate::settle::{self, Word};
use crate::text::Rounded;
use schemars::JsonSchema;
use serde::Serialize;

/// The built-in weaves, as `byrnie weaves --json` prints them. What is not known is null.
#[derive(Serialize, JsonSchema)]
#[schemars(title = "The built-in weaves")]
pub struct WeavesJson<'e> {
    /// In alphabetical order of their files.
    #[schemars(length(min = 1))]
    weaves: Vec<Weave<'e>>,
}

#[derive(Serialize, JsonSchema)]
struct Weave<'e> {
    name: &'e str,
    /// The name of its file, without ending.
    file: &'e str,
    /// What it is for.
    used: &'e str,
    lattice: Lattice,
    settles: bool,
    /// Aspect ratios in common use, least and greatest. Common practice, from memory, no source.
    practice: Option<Practice>,
    /// Whether some of these suit the weave and none is clearly below the floor found; null where none are known.
    agrees_with_practice: Option<bool>,
    /// No smaller aspect ratio of the first kind can close; 0 where nothing is proved.
    proved: Option<Rounded<4>>,
    /// The smallest aspect ratio of the first kind found to close.
    found: Option<Rounded<4>>,
    suits: Option<Suits>,
    /// One repeat of the base along each way, drawn out, in inner diameters of the first kind.
    #[schemars(length(max = 2))]
    repeat_inner: Vec<Rounded<3>>,
    /// Rings to a centimetre of a chain, a square centimetre of a sheet, were the wire of the first kind 1 mm thick.
    rings_per_cm: Option<Rounded<2>>,
    lean: Option<Hand>,
    accents: Vec<Accent<'e>>,
    /// Starts tried for the base.
    starts: Option<u64>,
    /// Why it does not settle.
    tried: Option<String>,
}

/// Aspect ratios of the first kind from where all wires could be 3 % thicker to where the piece, drawn out, can be pushed
/// together by a quarter of its length.
#[derive(Serialize, JsonSchema)]
struct Suits {
    from: Rounded<2>,
    /// Null where it gives more with 6 % of room already, or does not repeat.
    to: Option<Rounded<2>>,
}

#[derive(Serialize, JsonSchema)]
struct Accent<'e> {
    family: &'e str,
    sits: Word,
}

/// All that is computed of the built-in weaves, for other programs.
pub fn weaves_json(entries: &[Entry]) -> WeavesJson<'_> {
    WeavesJson { weaves: entries.iter().map(Entry::json).collect() }
}

impl Entry {
    fn json(&self) -> Weave<'_> {
        let known = self.figures.as_ref().ok();
        Weave {
            name: &self.name,
            file: &self.short,
            used: &self.used,
            lattice: self.lattice,
            settles: known.is_some(),
            practice: self.practice,
            agrees_with_practice: self.agrees(),
            proved: known.map(|f| Rounded(f.proved)),
            found: known.map(|f| Rounded(f.found)),
            suits: known.map(|f| Suits::of(&f.suits)),
            repeat_inner: known.iter().flat_map(|f| &f.repeat_inner).copied().map(Rounded).collect(),
            rings_per_cm: known.and_then(|f| f.rings_per_cm).map(Rounded),
            lean: known.and_then(|f| f.lean),
            accents: known.map(Figures::accents).unwrap_or_default(),
            starts: known.map(|f| f.starts),
            tried: self.figures.as_ref().err().map(ToString::to_string),
        }
    }
}

impl Suits {
    fn of(suits: &settle::Suits) -> Self {
        Self { from: Rounded(suits.from), to: suits.to.map(Rounded) }
    }
}

impl Figures {
    fn accents(&self) -> Vec<Accent<'_>> {
        self.sits.iter().map(|(family, word)| Accent { family, sits: *word }).collect()
    }
}
