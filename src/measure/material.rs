//! What rings are made of: its density, and what to take care of when handling it.

use crate::text;

/// A material with a density.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Material {
    /// What it is called.
    pub name: &'static str,
    /// Other names for it.
    pub also: &'static [&'static str],
    /// Density, g/cm³.
    pub density: f64,
    /// Where the density comes from.
    pub source: &'static str,
    /// What to take care of when handling it, where there is something; local codes and licensed practice come first.
    pub care: Option<&'static str>,
    /// Whether rings of it stretch, so that no proof about rigid rings applies to them.
    pub stretches: bool,
}

const ELEMENTS: &str = "element table";
const NICKEL: &str = "holds nickel: the release limits of REACH Annex XVII entry 27 apply to what is worn on the skin";
const ZINC: &str = "zinc-coated: do not heat it, zinc fume is harmful";

const fn of(name: &'static str, also: &'static [&'static str], density: f64, source: &'static str) -> Material {
    Material { name, also, density, source, care: None, stretches: false }
}

impl Material {
    const fn stretches(mut self) -> Self {
        self.stretches = true;
        self
    }

    const fn care(mut self, care: &'static str) -> Self {
        self.care = Some(care);
        self
    }
}

/// Every known material, in alphabetical order. Where the source gives a range, the middle is taken and `source` says
/// so.
pub const MATERIALS: &[Material] = &[
    of("14k gold", &["14 k gold", "14ct gold", "14 karat gold", "14k yellow gold"], 13.07, "14k yellow gold"),
    of("aluminium", &["aluminum", "alu"], 2.699, ELEMENTS),
    of("aluminium 1100", &["aluminum 1100", "1100 aluminium", "1100 aluminum"], 2.71, "alloy 1100"),
    of(
        "aluminium 5356",
        &["aluminum 5356", "5356 aluminium", "5356 aluminum"],
        2.65,
        "alloy 5356, middle of 2.64 to 2.66",
    ),
    of("brass", &["cartridge brass", "yellow brass"], 8.53, "C26000, producer's sheet"),
    of("copper", &[], 8.96, ELEMENTS),
    of("fine silver", &["999 silver", "pure silver"], 10.49, ELEMENTS),
    of("galvanised steel", &["galvanized steel", "galvanised", "galvanized"], 7.85, "as mild steel").care(ZINC),
    of("iron", &[], 7.874, ELEMENTS),
    of("mild steel", &[], 7.85, "mild steel"),
    of("nickel silver", &["german silver", "alpaca"], 8.7, "from memory").care(NICKEL),
    of("niobium", &[], 8.57, ELEMENTS),
    of("phosphor bronze", &["bronze"], 8.86, "C51000"),
    of("rubber", &["epdm", "epdm rubber"], 1.2, "EPDM, middle of 1.1 to 1.3, from memory").stretches(),
    of(
        "stainless steel",
        &["stainless", "304 stainless", "304 stainless steel", "stainless steel 304"],
        7.965,
        "304, middle of 7.93 to 8.00",
    )
    .care(NICKEL),
    of(
        "stainless steel 316",
        &["316 stainless", "316 stainless steel", "316l stainless", "316l stainless steel", "stainless steel 316l"],
        7.99,
        "316, middle of 7.98 to 8.00",
    )
    .care(NICKEL),
    of("sterling silver", &["sterling", "925 silver", "925 sterling silver"], 10.36, "925, ideal mixing 10.357"),
    of("titanium", &[], 4.51, ELEMENTS),
];

/// Words for a finish or temper, which hardly changes the weight.
const FINISHES: &[&str] = &[
    "anodised",
    "anodized",
    "annealed",
    "bare",
    "bright",
    "enamelled",
    "enameled",
    "half-hard",
    "hard",
    "lacquered",
    "matt",
    "polished",
    "raw",
    "soft",
    "spring-temper",
    "tumbled",
];

/// In lower case, with single spaces and without words for a finish in front: "Bright  Aluminum" → "aluminum".
fn bare(words: &str) -> String {
    let words = words.to_lowercase();
    let mut words: Vec<&str> = words.split_whitespace().collect();
    while words.len() > 1 && words.first().is_some_and(|w| FINISHES.contains(w)) {
        words.remove(0);
    }
    words.join(" ")
}

/// The material that a maker means; capitals and words for a finish in front do not matter.
pub fn material(words: &str) -> Option<&'static Material> {
    let bare = bare(words);
    MATERIALS.iter().find(|m| m.name == bare || m.also.contains(&bare.as_str()))
}

/// The names of all materials that contain a word: "silver" is in three.
pub fn materials_called(word: &str) -> Vec<&'static str> {
    let bare = bare(word);
    MATERIALS.iter().map(|m| m.name).filter(|n| n.split(' ').any(|w| w == bare)).collect()
}

/// The name that `words` is a slip of the finger for.
pub fn nearest_material(words: &str) -> Option<&'static str> {
    let names = MATERIALS.iter().flat_map(|m| m.also.iter().chain([&m.name]).copied());
    text::nearest(&bare(words), names)
}

/// The names of all known materials, separated by commas.
pub fn known_materials() -> String {
    MATERIALS.iter().map(|m| m.name).collect::<Vec<_>>().join(", ")
}
