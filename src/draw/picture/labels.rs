//! Words beside a picture, with lines that lead to what they are about; and numbers on rings.

use super::colour::{INK, PAPER};
use super::page::{Band, Page};
use crate::draw::lettering::width;
use crate::draw::plane::number;
use crate::draw::svg::{Anchor, Element, Mm, PathData, Svg};
use kurbo::{Point, Vec2};
use std::fmt::Display;

/// Height of words and of numbers on rings, mm: 9 and 8 points, which people can read at arm's length.
pub const TEXT: f64 = 3.2;
const NUMBER: f64 = 2.8;
/// Half of the width of a number's disc, mm.
pub const DISC: f64 = 1.9;
/// The height of a row of words, mm.
pub const ROW: f64 = 6.5;
/// The greatest distance from words to what they are about, mm.
const FAR: f64 = 30.0;
/// White round words, and between two of them, mm.
pub const CLEAR: f64 = 0.6;
/// Width of the rim of a leader line and of the line, mm.
const LEADER: [Mm; 2] = [Mm(1.0), Mm(0.25)];

/// Words about a place.
#[derive(Clone, Debug)]
pub struct Label {
    /// The words.
    pub words: String,
    /// The place on the page.
    pub about: Point,
    /// Where the words are.
    pub row: Row,
}

/// A row of words. Row 0 is the nearest to the rings.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Row {
    /// Above the rings.
    Above(usize),
    /// Below the rings.
    Below(usize),
}

impl Label {
    /// Half of the width its words need, mm.
    fn half(&self) -> f64 {
        0.5 * width(&self.words, TEXT) + CLEAR
    }

    /// The middle of the base line of its words, at `x`, and the end of its leader line there.
    fn placed(&self, band: Band, x: f64) -> [Point; 2] {
        let half = self.half();
        let (base, edge) = match self.row {
            Row::Above(row) => {
                let base = (band.top - 2.2).max(self.about.y - FAR) - ROW * number(row);
                (base, base + 1.1)
            }
            Row::Below(row) => {
                let base = (band.bottom + TEXT + 1.2).min(self.about.y + FAR) + ROW * number(row);
                (base, base - TEXT)
            }
        };
        let from = self.about.x.clamp(x - half + 1.0, (x + half - 1.0).max(x - half + 1.0));
        [Point::new(x, base), Point::new(from, edge)]
    }
}

/// Draws words above and below the rings, each as near to its place as the others let it, and a line from each to its place.
pub fn draw_labels(svg: &mut Svg, page: &Page, band: Band, mut labels: Vec<Label>) {
    labels.sort_by(|a, b| a.about.x.total_cmp(&b.about.x));
    let middles = middles(page, &labels);
    for (label, x) in labels.iter().zip(&middles) {
        let [_, end] = label.placed(band, *x);
        draw_on_white(svg, "leader", &PathData::line([end, label.about]), LEADER, INK).empty();
        let dot = svg.element("circle").set("class", "leader").centre(label.about).set("r", 0.6);
        dot.set("fill", INK).set("stroke", PAPER).set("stroke-width", 0.2).empty();
    }
    for (label, x) in labels.iter().zip(&middles) {
        let [base, _] = label.placed(band, *x);
        let paper = svg.element("rect").set("class", "label").at(base - Vec2::new(label.half(), TEXT));
        let paper = paper.mm("width", 2.0 * label.half()).mm("height", TEXT + 1.1);
        paper.set("rx", 0.6).set("fill", PAPER).empty();
        text(svg, base, Anchor::Middle).words(&label.words);
    }
}

/// The middles of labels, given from left to right: in each row they keep clear of each other and stay on the page.
fn middles(page: &Page, labels: &[Label]) -> Vec<f64> {
    let mut middles: Vec<f64> = labels.iter().map(|l| l.about.x).collect();
    let mut rows: Vec<Row> = labels.iter().map(|l| l.row).collect();
    rows.sort_unstable();
    rows.dedup();
    for row in rows {
        let own = || labels.iter().enumerate().filter(|(_, l)| l.row == row).map(|(n, l)| (n, l.half()));
        // Push them to the right from the left edge, and then back from the right one.
        let mut least: f64 = CLEAR;
        for (n, half) in own() {
            if let Some(x) = middles.get_mut(n) {
                *x = x.max(least + half);
                least = *x + half;
            }
        }
        let mut most = page.size.width - CLEAR;
        for (n, half) in own().collect::<Vec<_>>().into_iter().rev() {
            if let Some(x) = middles.get_mut(n) {
                *x = x.min(most - half);
                most = *x - half;
            }
        }
    }
    middles
}

/// Starts words at a place of their base line.
pub fn text(svg: &mut Svg, at: Point, anchor: Anchor) -> Element<'_> {
    let text = svg.element("text").set("class", "label").at(at).anchor(anchor);
    text.set("font-family", "sans-serif").set("font-size", TEXT).set("fill", INK)
}

/// Draws a number on a ring: a disc, and the number in it.
pub fn draw_number(svg: &mut Svg, number: usize, at: Point) {
    let disc = svg.element("circle").set("class", "number").centre(at).set("r", DISC);
    disc.set("fill", PAPER).set("stroke", INK).set("stroke-width", 0.25).empty();
    let text = svg.element("text").set("class", "number").at(at + Vec2::new(0.0, 0.36 * NUMBER));
    let text = text.anchor(Anchor::Middle).set("font-family", "sans-serif").set("font-size", NUMBER);
    text.set("font-weight", "bold").set("fill", INK).words(number);
}

/// Draws a white rim, which sets a line off from rings, and starts the line. The widths are those of rim and line, mm.
pub fn draw_on_white<'s>(
    svg: &'s mut Svg,
    class: &str,
    data: &PathData,
    [rim, width]: [impl Display; 2],
    ink: &str,
) -> Element<'s> {
    let path = svg.element("path").set("class", class).set("d", data);
    path.set("stroke", PAPER).set("stroke-width", rim).empty();
    svg.element("path").set("class", class).set("d", data).set("stroke", ink).set("stroke-width", width)
}
