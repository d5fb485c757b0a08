//! How rings and marks are inked. Circles are hollow, loops are lines, and accents have beads in them. Nothing depends on
//! colour: the inks are black, white, and a grey for the neighbours.

use super::choice::Role;
use super::curve::Curve;
use super::layout::Look;
use super::strands::Strand;
use crate::draw::svg::{Element, PathData, Svg};
use crate::steps::Direction;
use kurbo::{BezPath, Point, Vec2};

/// Clear space beside a ring that lies over another, mm.
const GAP: f64 = 0.5;
/// A neighbour's ink: 4.5:1 on white (WCAG 2.2 asks 3:1 of graphics).
const GREY: &str = "#767676";
const BLACK: &str = "#000000";
const WHITE: &str = "#ffffff";

/// A pen: what one ring is drawn with.
pub struct Pen {
    ink: &'static str,
    /// Outer width, mm.
    width: f64,
    /// Width of the hollow, mm; 0 for a plain line.
    hollow: f64,
    /// The number of the accent whose beads it has.
    beads: Option<usize>,
}

impl Pen {
    /// The pen of a ring, of the accent with this number, on a chart whose circles have this radius.
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

    /// The width a ring takes where it lies over another, mm.
    pub fn clearance(&self) -> f64 {
        self.width + 2.0 * GAP
    }

    /// Draws the outer line of a strand, or all of a plain one. `mark` adds attributes to each of its elements.
    pub fn outline(&self, svg: &mut Svg, curve: &Curve, strand: &Strand, mark: impl Fn(Element<'_>) -> Element<'_>) {
        if let Some(front) = path(curve, &strand.front) {
            mark(stroke(svg, &front, self.ink, self.width)).empty();
        }
        let dashes = if self.width < 0.7 { "1.40 1.10" } else { "2.30 1.50" };
        // Behind the rows there are no beads, so the line needs no room for them.
        let width = if self.beads.is_some() { self.width * 0.5 } else { self.width };
        if let Some(behind) = path(curve, &strand.behind) {
            mark(stroke(svg, &behind, self.ink, width).set("stroke-dasharray", dashes)).empty();
        }
    }

    /// Draws the hollow, and the beads in it.
    pub fn core(&self, svg: &mut Svg, curve: &Curve, strand: &Strand) {
        let Some(front) = path(curve, &strand.front).filter(|_| self.hollow > 0.0) else { return };
        stroke(svg, &front, WHITE, self.hollow).empty();
        let Some(accent) = self.beads else { return };
        let (part, dashes) = match accent % 3 {
            0 => (0.8, Some("0.75 0.90")),
            1 => (0.35, None),
            _ => (0.8, Some("2.20 0.90")),
        };
        stroke(svg, &front, self.ink, self.hollow * part).set_if_some("stroke-dasharray", dashes).empty();
    }
}

/// A line along a path, `width` mm wide.
fn stroke<'s>(svg: &'s mut Svg, data: &PathData, ink: &str, width: f64) -> Element<'s> {
    svg.element("path").set("d", data).set("fill", "none").set("stroke", ink).mm("stroke-width", width)
}

/// The parts of a curve as path data; none where there are no parts.
fn path(curve: &Curve, parts: &[(f64, f64)]) -> Option<PathData> {
    if let [(from, to)] = parts
        && to - from >= curve.end() - 1e-9
    {
        return Some(PathData::of(&curve.whole()));
    }
    let all: BezPath = parts.iter().flat_map(|(from, to)| curve.part(*from, *to)).collect();
    (!parts.is_empty()).then(|| PathData::of(&all))
}

/// Half the width of a mark in mm.
pub fn mark_size(radius: f64) -> f64 {
    (0.17 * radius).clamp(1.2, 2.3)
}

/// Draws a mark on a white rim, `size` mm to each side: a full triangle that points down, or an empty one that points up.
/// `mark` adds attributes to it.
pub fn mark(svg: &mut Svg, at: Point, size: f64, way: Direction, mark: impl Fn(Element<'_>) -> Element<'_>) {
    let (tip, fill) = match way {
        Direction::Down => (size, BLACK),
        Direction::Up => (-size, WHITE),
    };
    let mut triangle = BezPath::new();
    triangle.move_to(at + Vec2::new(-size, -tip * 0.8));
    triangle.line_to(at + Vec2::new(size, -tip * 0.8));
    triangle.line_to(at + Vec2::new(0.0, tip));
    triangle.close_path();
    let data = PathData::of(&triangle);
    let rim = svg.element("path").set("d", &data).set("fill", WHITE).set("stroke", WHITE);
    rim.mm("stroke-width", size * 0.9).set("stroke-linejoin", "round").empty();
    let triangle = svg.element("path").set("d", &data).set("fill", fill).set("stroke", BLACK);
    mark(triangle.mm("stroke-width", size * 0.28).set("stroke-linejoin", "round")).empty();
}
