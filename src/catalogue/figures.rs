//! What is computed of each built-in weave.

use super::practice::{Practice, practice};
use crate::draw::picture::{Options, Scale, picture};
use crate::library::Library;
use crate::notation::Hand;
use crate::pattern::{FamilyId, Lattice, Repeats};
use crate::settle::{NotSettled, Settled, Suits, Word};
use crate::text::Source;
use crate::weave::Weave;
use rayon::prelude::*;

/// Makers give nominal sizes: by so much rings come out larger, as coiled wire springs open. Makers' measurements, no
/// source.
const NOMINAL: f64 = 0.05;

/// Width and height of a small picture at most, mm.
const THUMBNAIL: [f64; 2] = [42.0, 26.0];

/// A built-in weave with what is computed of it.
#[derive(Clone, Debug)]
pub struct Entry {
    /// Its short name, that of its file.
    pub short: String,
    /// Its name.
    pub name: String,
    /// What it is for: the first comment of its text.
    pub used: String,
    /// Unit, chain or sheet.
    pub lattice: Lattice,
    /// What makers take. Common practice, from memory, no source.
    pub practice: Option<Practice>,
    /// What is computed, or why nothing is.
    pub figures: Result<Figures, NotSettled>,
    /// A small picture of it as SVG, 42 mm wide at most, where it settles.
    pub thumbnail: Option<String>,
}

/// What is computed of a weave: at the sizes its text gives, or, where it gives none, with all rings alike.
#[derive(Clone, Debug)]
pub struct Figures {
    /// No ring of the first kind can have a smaller aspect ratio; 0 where nothing is proved.
    pub proved: f64,
    /// The aspect ratio of the first kind from which on it closes.
    pub found: f64,
    /// Aspect ratios that suit it.
    pub suits: Suits,
    /// One repeat of the base, drawn out, along each way, in inner diameters of the first kind.
    pub repeat_inner: Vec<f64>,
    /// Rings to a centimetre of a chain, or a square centimetre of a sheet, were the wire of the first kind 1 mm
    /// thick; `None` of a unit.
    pub rings_per_cm: Option<f64>,
    /// The lean of the base.
    pub lean: Option<Hand>,
    /// How each accent sits, by the name of its family.
    pub sits: Vec<(String, Word)>,
    /// Starts tried for the base.
    pub starts: u64,
}

impl Entry {
    /// A built-in weave, by its short name and text, settled.
    pub fn of(short: &str, weave: &Weave) -> Self {
        Self {
            short: short.to_owned(),
            name: weave.name().to_owned(),
            used: weave.used(),
            lattice: weave.pattern().lattice,
            practice: practice(short),
            figures: weave.settled().map(|settled| Figures::of(weave, settled)).map_err(Clone::clone),
            thumbnail: weave.settled().ok().and_then(|settled| thumbnail(weave, settled)),
        }
    }

    /// Every built-in weave, in alphabetical order. Takes some seconds.
    pub fn all() -> Vec<Self> {
        let weaves = Library::weaves();
        let entry = |(short, text): &(&str, &str)| {
            Self::of(short, &Weave::compile(Source::new(format!("library: {short}"), *text), &Library))
        };
        weaves.par_iter().map(entry).collect()
    }

    /// Whether what is computed agrees with what makers take: some of the aspect ratios in common use suit the
    /// weave, and none lies below the floor by more than sizes are off. `None` where no common practice is known.
    pub fn agrees(&self) -> Option<bool> {
        let [low, high] = self.practice?;
        let figures = self.figures.as_ref().ok()?;
        let suits = figures.suits.from <= high && figures.suits.to.is_none_or(|to| to >= low);
        Some(suits && low >= figures.found * (1.0 - NOMINAL))
    }
}

/// A few repeats, seen from the front: as many as show an accent twice.
fn thumbnail(weave: &Weave, settled: &Settled) -> Option<String> {
    let size = match weave.pattern().lattice {
        Lattice::Unit => Repeats([1, 1]),
        Lattice::Chain => {
            let accents = weave.pattern().accents.iter();
            let twice = accents.map(|a| a.from.row.unsigned_abs().saturating_add(a.every.row.unsigned_abs()).min(8));
            Repeats([twice.fold(3, u32::max), 1])
        }
        Lattice::Sheet => Repeats([2, 3]),
    };
    let options = Options { scale: Scale::Fit(THUMBNAIL[0], THUMBNAIL[1]), ..Options::default() };
    picture(weave, settled, size, &options).ok()
}

impl Figures {
    fn of(weave: &Weave, settled: &Settled) -> Self {
        let floor = settled.floors.first();
        let lengths = settled.natural.clone().unwrap_or_default();
        let rings = f64::from(u32::try_from(settled.rings.len()).unwrap_or(u32::MAX))
            / f64::from(settled.repeats.row * settled.repeats.column);
        // In wires of the first kind, as thick as they are drawn.
        let wire = settled.problem.rings.first().map_or(1.0, |r| r.wire * settled.wire);
        let extent: f64 = lengths.iter().map(|l| 0.1 * l / wire).product();
        let name = |family: FamilyId| weave.pattern().family_name(family);
        Self {
            proved: floor.map_or(0.0, |f| f.proved),
            found: floor.map_or(0.0, |f| f.found),
            suits: settled.suits(),
            repeat_inner: lengths.iter().map(|l| l / settled.inner()).collect(),
            rings_per_cm: (!lengths.is_empty()).then(|| rings / extent),
            lean: settled.lean,
            sits: settled.sits.iter().map(|s| (name(s.family).to_owned(), s.word)).collect(),
            starts: settled.starts,
        }
    }
}
