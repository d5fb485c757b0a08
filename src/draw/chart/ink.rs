//! How rings and marks are inked. Rings of a row are hollow, loops are lines; accents have beads in
//! them. Nothing depends on colour: black, white, and grey for the neighbours.

use super::choice::Role;
use super::curve::{Curve, Point, point};
use super::layout::Look;
use super::scene::Drawn;
use super::strands::Strand;
use crate::draw::{Svg, mm};

/// Clear space beside a ring where it passes over another, in mm.
const GAP: f64 = 0.5;
/// A neighbour's ink: 4.5:1 on white (WCAG 2.2 asks 3:1 of graphics).
pub const GREY: &str = "#767676";
const BLACK: &str = "#000000";

/// A pen: what one ring is drawn with.
pub struct Pen {
    /// Its ink.
    pub ink: &'static str,
    /// Outer width in mm.
    pub width: f64,
    /// Width of the hollow in it, 0 for a plain line.
    pub hollow: f64,
    /// The beads of an accent, by its number.
    pub beads: Option<usize>,
}

impl Pen {
    /// The pen of a ring.
    pub fn of(look: Look, role: Role, accent: Option<usize>, radius: f64) -> Self {
        let fat = (0.125 * radius).clamp(1.0, 1.75);
        let ink = if role == Role::Neighbour { GREY } else { BLACK };
        let (width, line) = match (look, role) {
            (Look::Loop, Role::Neighbour) if accent.is_none() => (0.5, 0.5),
            (Look::Loop, _) if accent.is_none() => ((0.09 * radius).clamp(0.8, 1.25), 2.0),
            (_, Role::Neighbour) => (fat, 0.25),
            (_, Role::Passed) => (fat, 0.32),
            (Look::Circle, Role::Own) => (fat + 0.15, 0.5),
            (Look::Loop, Role::Own) => (fat + 0.15, 0.35),
        };
        Self { ink, width, hollow: (width - 2.0 * line).max(0.0), beads: accent }
    }

    /// Width it takes where it passes over another.
    pub fn clearance(&self) -> f64 {
        self.width + 2.0 * GAP
    }

    /// Draws the outer line of a strand, or all of a plain one.
    pub fn outline(&self, svg: &mut Svg, curve: &Curve, strand: &Strand, more: &[(&str, &str)]) {
        stroke(svg, &path(curve, &strand.front), (self.ink, self.width), "", more);
        let dashes = if self.width < 0.7 { "1.40 1.10" } else { "2.30 1.50" };
        // Behind the rows there are no beads to hold.
        let width = if self.beads.is_some() { self.width * 0.5 } else { self.width };
        stroke(svg, &path(curve, &strand.behind), (self.ink, width), dashes, more);
    }

    /// Draws the hollow, and the beads in it.
    pub fn core(&self, svg: &mut Svg, curve: &Curve, strand: &Strand) {
        if self.hollow <= 0.0 {
            return;
        }
        let front = path(curve, &strand.front);
        stroke(svg, &front, ("#ffffff", self.hollow), "", &[]);
        if let Some(accent) = self.beads {
            let (width, dashes) = match accent % 3 {
                0 => (self.hollow * 0.8, "0.75 0.90"),
                1 => (self.hollow * 0.35, ""),
                _ => (self.hollow * 0.8, "2.20 0.90"),
            };
            stroke(svg, &front, (self.ink, width), dashes, &[]);
        }
    }
}

fn stroke(svg: &mut Svg, data: &str, (ink, width): (&str, f64), dashes: &str, more: &[(&str, &str)]) {
    if data.is_empty() {
        return;
    }
    let width = mm(width);
    let mut attributes = vec![("d", data), ("fill", "none"), ("stroke", ink), ("stroke-width", width.as_str())];
    if !dashes.is_empty() {
        attributes.push(("stroke-dasharray", dashes));
    }
    attributes.extend(more);
    svg.empty("path", &attributes);
}

/// The data of a path for parts of a curve.
fn path(curve: &Curve, parts: &[(f64, f64)]) -> String {
    if let [(from, to)] = parts
        && to - from >= curve.end() - 1e-9
    {
        return curve.whole();
    }
    parts.iter().map(|(from, to)| curve.part(*from, *to)).collect::<Vec<_>>().join(" ")
}

/// Half the width of a mark in mm.
pub fn mark_size(radius: f64) -> f64 {
    (0.17 * radius).clamp(1.2, 2.3)
}

/// Draws a mark: a full triangle that points down, or an empty one that points up, on a white rim.
pub fn mark(svg: &mut Svg, at: Point, size: f64, down: bool, more: &[(&str, &str)]) {
    let tip = if down { size } else { -size };
    let corner = |p: Point| format!("{} {}", mm(at.x + p.x), mm(at.y + p.y));
    let data = format!(
        "M{} L{} L{} Z",
        corner(point(-size, -tip * 0.8)),
        corner(point(size, -tip * 0.8)),
        corner(point(0.0, tip))
    );
    let rim = mm(size * 0.9);
    svg.empty(
        "path",
        &[
            ("d", &data),
            ("fill", "#ffffff"),
            ("stroke", "#ffffff"),
            ("stroke-width", &rim),
            ("stroke-linejoin", "round"),
        ],
    );
    let line = mm(size * 0.28);
    let fill = if down { BLACK } else { "#ffffff" };
    let mut attributes = vec![
        ("d", data.as_str()),
        ("fill", fill),
        ("stroke", BLACK),
        ("stroke-width", line.as_str()),
        ("stroke-linejoin", "round"),
    ];
    attributes.extend(more);
    svg.empty("path", &attributes);
}

/// The pen of a ring of the scene.
pub fn pen(ring: &Drawn, accent: Option<usize>, radius: f64) -> Pen {
    Pen::of(ring.look, ring.role, accent, radius)
}
