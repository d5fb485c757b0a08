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
/// Ink of outlines and marks.
pub const INK: &str = "#1a1a1a";
/// Paper.
pub const PAPER: &str = "#ffffff";

/// How the rings of one colour, or of one kind where no colour is said, are told from others: a fill, and a mark along
/// the wire that does without it.
#[derive(Clone, Debug)]
pub struct Paint {
    /// The fill, as `#rrggbb`.
    pub fill: String,
    /// The light along the wire, half way from the fill to white.
    pub shine: String,
    /// The fill of work done so far, most of the way to white.
    pub calm: String,
    /// The dashes of the mark, in wires; `None` where there is no mark, an empty list where it is not broken.
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

/// The paint of the colour that comes as number `number` in a piece, by its name if it has one.
pub fn paint(number: usize, name: Option<&str>) -> Paint {
    let palette = PALETTE.get(number % PALETTE.len()).copied().unwrap_or("#c8ccd0");
    let colour = name.and_then(named).or_else(|| palette.parse().ok()).unwrap_or_default();
    let [r, g, b, _] = colour.to_rgba8();
    let dashes = MARKS.get(number % MARKS.len()).copied().flatten();
    let lighter = |part: u8| {
        let [r, g, b] = [r, g, b].map(|c| 255 - (255 - c) / part);
        format!("#{r:02x}{g:02x}{b:02x}")
    };
    Paint { fill: format!("#{r:02x}{g:02x}{b:02x}"), shine: lighter(2), calm: lighter(3), dashes }
}

/// The paint of every ring: by colour, or by kind where none is said.
pub fn paints(weave: &Weave, scene: &Scene) -> Vec<Paint> {
    let mut known: Vec<(Option<&str>, &str)> = Vec::new();
    let kind = |family: usize| weave.pattern.families.get(family).map_or("main", |f| f.kind.as_str());
    let mut all = Vec::new();
    for ring in &scene.rings {
        let own = match &ring.colour {
            Some(colour) => (Some(colour.as_str()), ""),
            None => (None, kind(ring.family)),
        };
        let number = known.iter().position(|k| *k == own).unwrap_or_else(|| {
            known.push(own);
            known.len() - 1
        });
        all.push(paint(number, own.0));
    }
    all
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
