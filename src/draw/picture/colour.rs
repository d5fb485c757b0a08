//! Colours of rings: those the text names, else a palette that colour-blind readers can tell apart, in grey as well.

use csscolorparser::Color;

/// Silver for the first kind, then colours of Okabe and Ito, "Color Universal Design" (2008), light and dark in turn.
const PALETTE: [&str; 7] = ["#c8ccd0", "#e69f00", "#0072b2", "#f0e442", "#009e73", "#56b4e9", "#cc79a7"];
/// Metals that CSS has no colour for, roughly as they look. Common practice, no source.
const METALS: [(&str, &str); 6] = [
    ("copper", "#c07a4a"),
    ("bronze", "#a8763e"),
    ("brass", "#d0b04c"),
    ("steel", "#a4abb2"),
    ("aluminium", "#d3d7db"),
    ("aluminum", "#d3d7db"),
];
/// Ink of outlines and marks.
pub const INK: &str = "#1a1a1a";
/// Paper.
pub const PAPER: &str = "#ffffff";

/// What sets the rings of one colour apart, or of one kind where the text gives no colour: a fill, and a mark along the wire
/// that works without colour.
#[derive(Clone, Debug)]
pub struct Paint {
    /// The colour in the words of the text, or the kind where the text gives none.
    pub name: String,
    /// The fill in linear light, each part from 0 to 1.
    pub light: [f64; 3],
    /// The fill, as `#rrggbb`.
    pub fill: String,
    /// The light along the wire, half way from the fill to white.
    pub shine: String,
    /// The fill of work done so far, two thirds of the way to white.
    pub calm: String,
    /// The dashes of the mark, in wires: `None` for no mark, an empty list for an unbroken one.
    pub dashes: Option<&'static [f64]>,
}

/// Marks along the wire, one for each colour of the palette: none, a line, dashes, dots, dash and dot, long dashes, two dots.
const MARKS: [Option<&[f64]>; 7] = [
    None,
    Some(&[]),
    Some(&[1.2, 0.6]),
    Some(&[0.25, 0.5]),
    Some(&[1.2, 0.5, 0.25, 0.5]),
    Some(&[2.6, 0.5]),
    Some(&[0.25, 0.3, 0.25, 1.0]),
];

/// The paints of a piece, in the order its rings come to them.
#[derive(Default)]
pub struct Paints {
    known: Vec<(Option<String>, String)>,
    /// Each once.
    pub all: Vec<Paint>,
}

impl Paints {
    /// The number of the paint for a colour, or for a kind where the text gives no colour. A kind looks like its material, if
    /// that has a colour of its own.
    pub fn number(&mut self, colour: Option<&str>, kind: &str, material: Option<&str>) -> usize {
        let same = |(c, k): &(Option<String>, String)| match colour {
            Some(colour) => c.as_deref() == Some(colour),
            None => c.is_none() && k == kind,
        };
        self.known.iter().position(same).unwrap_or_else(|| {
            self.known.push((colour.map(str::to_owned), kind.to_owned()));
            self.all.push(paint(self.all.len(), colour.unwrap_or(kind), colour.or(material)));
            self.all.len() - 1
        })
    }
}

/// The paint with this number in a piece. `words` may name its colour.
fn paint(number: usize, name: &str, words: Option<&str>) -> Paint {
    let palette = PALETTE.get(number % PALETTE.len()).copied().unwrap_or("#c8ccd0");
    let colour = words.and_then(named).or_else(|| palette.parse().ok()).unwrap_or_default();
    let [r, g, b, _] = colour.to_rgba8();
    let lighter = |part: u8| {
        let [r, g, b] = [r, g, b].map(|c| 255 - (255 - c) / part);
        format!("#{r:02x}{g:02x}{b:02x}")
    };
    Paint {
        name: name.to_owned(),
        light: linear([r, g, b]),
        fill: format!("#{r:02x}{g:02x}{b:02x}"),
        shine: lighter(2),
        calm: lighter(3),
        dashes: MARKS.get(number % MARKS.len()).copied().flatten(),
    }
}

/// A colour by a maker's words for it: all of them together, or the last that is a metal or a colour of CSS (`dusk violet`).
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
