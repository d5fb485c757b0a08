//! Words beside a picture, with lines that lead to what they are about; and numbers on rings.

use super::colour::{INK, PAPER};
use super::page::Page;
use crate::draw::escaped;
use crate::draw::lettering::width;

/// Height of words and of numbers on rings, mm: 9 and 8 points, which are read at arm's length.
pub const TEXT: f64 = 3.2;
const NUMBER: f64 = 2.8;
/// Half of the width of a number's disc, mm.
pub const DISC: f64 = 1.9;
/// A row of words takes so much room, mm.
pub const ROW: f64 = 6.5;
/// Words stand at most so far from what they are about, mm.
const FAR: f64 = 30.0;
/// White round words, and between two of them, mm.
pub const CLEAR: f64 = 0.6;
/// Width of a leader line, mm.
const LEADER: f64 = 0.25;

/// Words about a place.
#[derive(Clone, Debug)]
pub struct Label {
    /// The words.
    pub words: String,
    /// The place on the page.
    pub at: (f64, f64),
    /// Whether they stand above the rings; else below.
    pub above: bool,
    /// In which row, the nearest first.
    pub row: usize,
}

/// Words over and under rings that reach from `top` to `bottom`, each as near to its place as the others let it, and a line
/// from each to its place.
pub fn labels(page: &Page, (top, bottom): (f64, f64), mut labels: Vec<Label>) -> Vec<String> {
    labels.sort_by(|a, b| a.at.0.total_cmp(&b.at.0));
    let half = |label: &Label| 0.5 * width(&label.words, TEXT) + CLEAR;
    let mut middles: Vec<f64> = labels.iter().map(|l| l.at.0).collect();
    let mut rows: Vec<(bool, usize)> = labels.iter().map(|l| (l.above, l.row)).collect();
    rows.sort_unstable();
    rows.dedup();
    for own in rows {
        let of_row = |n: &usize| labels.get(*n).is_some_and(|l| (l.above, l.row) == own);
        let row: Vec<usize> = (0..labels.len()).filter(of_row).collect();
        let halves: Vec<f64> = row.iter().filter_map(|n| labels.get(*n)).map(half).collect();
        // Pushed to the right from the left edge, and then back from the right one.
        let mut least: f64 = CLEAR;
        for (n, half) in row.iter().zip(&halves) {
            if let Some(x) = middles.get_mut(*n) {
                *x = x.max(least + half);
                least = *x + half;
            }
        }
        let mut most = page.wide - CLEAR;
        for (n, half) in row.iter().zip(&halves).rev() {
            if let Some(x) = middles.get_mut(*n) {
                *x = x.min(most - half);
                most = *x - half;
            }
        }
    }
    let mut lines = Vec::new();
    let mut texts = Vec::new();
    for (label, x) in labels.iter().zip(middles) {
        let half = half(label);
        let (px, py) = label.at;
        // The line the words stand on, and the edge of theirs that looks to their place.
        let on = ROW * u32::try_from(label.row).map_or(0.0, f64::from);
        let base = if label.above { (top - 2.2).max(py - FAR) - on } else { (bottom + TEXT + 1.2).min(py + FAR) + on };
        let edge = if label.above { base + 1.1 } else { base - TEXT };
        let from = px.clamp(x - half + 1.0, (x + half - 1.0).max(x - half + 1.0));
        let line = format!("M{from:.2} {edge:.2}L{px:.2} {py:.2}");
        lines.push(format!(
            "<path class=\"leader\" d=\"{line}\" stroke=\"{PAPER}\" stroke-width=\"{:.2}\"/>",
            4.0 * LEADER
        ));
        lines.push(format!("<path class=\"leader\" d=\"{line}\" stroke=\"{INK}\" stroke-width=\"{LEADER:.2}\"/>"));
        lines.push(format!("<circle class=\"leader\" cx=\"{px:.2}\" cy=\"{py:.2}\" r=\"0.6\" fill=\"{INK}\" stroke=\"{PAPER}\" stroke-width=\"0.2\"/>"));
        texts.push(format!(
            "<rect class=\"label\" x=\"{:.2}\" y=\"{:.2}\" width=\"{:.2}\" height=\"{:.2}\" rx=\"0.6\" fill=\"{PAPER}\"/>",
            x - half,
            base - TEXT,
            2.0 * half,
            TEXT + 1.1
        ));
        texts.push(text(&label.words, (x, base), "middle", ""));
    }
    lines.extend(texts);
    lines
}

/// Words that start, are in the middle or end at a place of their base line.
pub fn text(words: &str, (x, base): (f64, f64), anchor: &str, more: &str) -> String {
    format!(
        "<text class=\"label\" x=\"{x:.2}\" y=\"{base:.2}\" text-anchor=\"{anchor}\" font-family=\"sans-serif\" font-size=\"{TEXT}\" fill=\"{INK}\"{more}>{}</text>",
        escaped(words)
    )
}

/// A number on a ring: a disc, and the number in it.
pub fn number(number: usize, (x, y): (f64, f64)) -> [String; 2] {
    [
        format!(
            "<circle class=\"number\" cx=\"{x:.2}\" cy=\"{y:.2}\" r=\"{DISC}\" fill=\"{PAPER}\" stroke=\"{INK}\" stroke-width=\"0.25\"/>"
        ),
        format!(
            "<text class=\"number\" x=\"{x:.2}\" y=\"{:.2}\" text-anchor=\"middle\" font-family=\"sans-serif\" font-size=\"{NUMBER}\" font-weight=\"bold\" fill=\"{INK}\">{number}</text>",
            y + 0.36 * NUMBER
        ),
    ]
}
