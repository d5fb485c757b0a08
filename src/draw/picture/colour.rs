//! Colours of rings: as the text names them, and else a palette that is told apart by colour-blind readers and in grey.

use super::scene::Scene;
use crate::weave::Weave;
use csscolorparser::Color;

/// Silver for the first kind, then colours of Okabe and Ito, "Color Universal Design" (2008), light and dark in turn.
const PALETTE: [&str; 7] = ["#c8ccd0", "#e69f00", "#0072b2", "#f0e442", "#009e73", "#56b4e9", "#cc79a7"];
/// Metals that CSS has no colour for, about as they look. Common practice, no source.
const METALS: [(&str, &str); 6] = [
    ("copper", "#c07a4a"),
    ("bronze", "#a8763e"),
    ("brass", "#d0b04c"),
    ("steel", "#a4abb2"),
    ("aluminium", "#d3d7db"),
    ("aluminum", "#d3d7db"),
];
/// Ink of outlines, and of marks on light wire.
pub const INK: &str = "#1a1a1a";
/// Of marks on dark wire.
const PAPER: &str = "#ffffff";

/// How the rings of one colour, or of one kind where no colour is said, are told from others: a fill, and a mark along
/// the wire that does without it.
#[derive(Clone, Debug)]
pub struct Paint {
    /// The colour in the words of the text, or the kind where none is said.
    pub name: String,
    /// The fill in linear light, each part from 0 to 1.
    pub light: [f64; 3],
    /// The fill, as `#rrggbb`.
    pub fill: String,
    /// The light along the wire, half way from the fill to white.
    pub shine: String,
    /// The ink of the mark.
    pub ink: &'static str,
    /// The dashes of the mark, in wires; `None` where there is no mark, an empty list where it is not broken.
    pub dashes: Option<&'static [f64]>,
}

/// Marks along the wire: none, a line, dashes, dots.
const MARKS: [Option<&[f64]>; 4] = [None, Some(&[]), Some(&[1.2, 0.6]), Some(&[0.25, 0.5])];

/// The paints of a piece, each once, in the order its rings come to them.
pub struct Paints {
    /// The paints.
    pub all: Vec<Paint>,
    /// Of every ring of the scene the number of its paint.
    pub of_rings: Vec<usize>,
}

impl Paints {
    /// By colour, or by kind where none is said.
    pub fn of(weave: &Weave, scene: &Scene) -> Self {
        let mut known: Vec<(Option<&str>, &str)> = Vec::new();
        let kind = |family: usize| weave.pattern.families.get(family).map_or("main", |f| f.kind.as_str());
        let mut paints = Self { all: Vec::new(), of_rings: Vec::new() };
        for ring in &scene.rings {
            let own = match &ring.colour {
                Some(colour) => (Some(colour.as_str()), ""),
                None => (None, kind(ring.family)),
            };
            let number = known.iter().position(|k| *k == own).unwrap_or_else(|| {
                known.push(own);
                paints.all.push(paint(paints.all.len(), own));
                known.len() - 1
            });
            paints.of_rings.push(number);
        }
        paints
    }

    /// The paint of a ring of the scene.
    pub fn of_ring(&self, ring: usize) -> Option<&Paint> {
        self.all.get(*self.of_rings.get(ring)?)
    }
}

/// The paint of the colour that comes as number `number` in a piece, by its words if it has some.
fn paint(number: usize, (words, kind): (Option<&str>, &str)) -> Paint {
    let palette = PALETTE.get(number % PALETTE.len()).copied().unwrap_or("#c8ccd0");
    let colour = words.and_then(named).or_else(|| palette.parse().ok()).unwrap_or_default();
    let [r, g, b, _] = colour.to_rgba8();
    let dashes = MARKS.get(number % MARKS.len()).copied().flatten();
    let [lr, lg, lb] = [r, g, b].map(|c| 255 - (255 - c) / 2);
    let shine = format!("#{lr:02x}{lg:02x}{lb:02x}");
    let light = linear([r, g, b]);
    Paint {
        name: words.unwrap_or(kind).to_owned(),
        light,
        fill: format!("#{r:02x}{g:02x}{b:02x}"),
        shine,
        ink: if luminance(light) < 0.18 { PAPER } else { INK },
        dashes,
    }
}

/// A colour by the words a maker has for it: all of them, or the last that is a metal or a colour of CSS (`dusk violet`).
fn named(name: &str) -> Option<Color> {
    let words: Vec<String> = name.split(|c: char| !c.is_alphanumeric()).map(str::to_lowercase).collect();
    let all = words.concat();
    let colour = |word: &String| {
        let metal = METALS.iter().find(|(metal, _)| metal == word).map(|(_, colour)| *colour);
        let plain = || word.chars().all(char::is_alphabetic).then_some(word.as_str());
        metal.or_else(plain)?.parse().ok()
    };
    std::iter::once(&all).chain(words.iter().rev()).filter(|w| !w.is_empty()).find_map(colour)
}

/// From sRGB to linear light (IEC 61966-2-1).
fn linear(rgb: [u8; 3]) -> [f64; 3] {
    rgb.map(|c| {
        let c = f64::from(c) / 255.0;
        if c <= 0.040_45 { c / 12.92 } else { libm::pow((c + 0.055) / 1.055, 2.4) }
    })
}

/// Relative luminance (WCAG 2.2).
fn luminance(light: [f64; 3]) -> f64 {
    0.2126 * light[0] + 0.7152 * light[1] + 0.0722 * light[2]
}
