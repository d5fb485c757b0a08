//! The strokes of an arc: which there are, how wide each is, and its ink.

use super::arcs::{Arc, narrow};
use super::colour::{INK, PAPER, Paint};
use super::ellipse::Ellipse;
use super::page::Page;
use crate::draw::picture::Look;
use crate::draw::plane::seen;
use crate::draw::svg::{Element, PathData, Svg};
use kurbo::{SvgArc, Vec2};
use std::f64::consts::TAU;

/// The outline of a wire as a part of it, and its least and greatest width, mm (ISO 128-2: 0.35 and half of it).
const OUTLINE: f64 = 0.1;
const OUTLINES: [f64; 2] = [0.1, 0.35];
/// The gap beside the nearer wire, as a part of it.
const GAP: f64 = 0.1;
/// The light along the middle of the wire, and the mark on it, as parts of it.
const SHINE: f64 = 0.36;
const MARK: f64 = 0.12;
/// How far arcs that lie under others reach under them, in wires, so that no seam shows.
const BELOW: f64 = 0.08;
/// How far the gap and the outline of an arc reach into the next one, in wires. Its wire reaches twice as far and its light
/// three times: what is drawn later covers the seam, and no end shows.
const BEYOND: f64 = 0.04;
/// How far the near half of a narrow ring goes round its ends, radians.
const ROUND: f64 = 0.5;
/// Points on a quarter of a narrow ring, which is drawn from point to point: an arc of no width has no ends.
const POINTS: f64 = 12.0;

/// How much a ring stands out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tone {
    /// As the others.
    Plain,
    /// Work done so far.
    Calm,
    /// The ring a step adds.
    Strong,
    /// What the next step adds.
    Faint,
}

/// Outlines of work done so far (4.5:1 on white) and of what comes next (3:1, which WCAG 2.2 asks of graphics).
const CALM: &str = "#767676";
const FAINT: &str = "#949494";
/// Marks on calm wire, 3:1 and more on every fill of it.
const CALM_MARK: &str = "#595959";
/// Fill of the ring that a step adds, vermilion of Okabe and Ito, and the light on it. In grey it is darker than any calm ring.
const STRONG: [&str; 2] = ["#d55e00", "#e27a26"];
/// How many times wider the outline of the ring that a step adds is.
const STRESSED: f64 = 1.8;

/// How an arc is drawn.
pub struct Style<'a> {
    /// On which page.
    pub page: &'a Page,
    /// In which paint.
    pub paint: &'a Paint,
    /// Shaded, or outlines alone.
    pub look: Look,
    /// How much its ring stands out.
    pub tone: Tone,
}

/// Draws an arc, the widest stroke first: the gap, the outline, the wire, its shine, its mark.
pub fn stroke(svg: &mut Svg, arc: &Arc, ellipse: &Ellipse, style: &Style<'_>) {
    let Style { page, paint, look, tone } = *style;
    let wire = ellipse.wire * page.scale;
    let stressed = if tone == Tone::Strong { STRESSED } else { 1.0 };
    let outline = (stressed * OUTLINE * wire).clamp(OUTLINES[0], stressed * OUTLINES[1]).min(0.3 * wire);
    let [own, beyond, farther] = [BEYOND, 2.0 * BEYOND, 3.0 * BEYOND].map(|more| path(page, arc, ellipse, more));
    if arc.over {
        path_of(svg, "gap", &own, PAPER, wire * (1.0 + 2.0 * GAP)).empty();
    }
    let shaded = look == Look::Shaded;
    let (edge, fill, shine) = match tone {
        Tone::Plain => (INK, paint.fill.as_str(), Some(paint.shine.as_str())),
        Tone::Calm => (CALM, paint.calm.as_str(), None),
        Tone::Strong => (INK, STRONG[0], Some(STRONG[1])),
        Tone::Faint => (FAINT, PAPER, None),
    };
    path_of(svg, "edge", &own, edge, wire).empty();
    path_of(svg, "wire", &beyond, if shaded { fill } else { PAPER }, wire - 2.0 * outline).empty();
    if let Some(shine) = shine.filter(|_| shaded) {
        path_of(svg, "shine", &farther, shine, SHINE * wire).empty();
    }
    if let Some(dashes) = paint.dashes.filter(|_| matches!(tone, Tone::Plain | Tone::Calm)) {
        let dashes: Vec<String> = dashes.iter().map(|d| format!("{:.3}", d * wire)).collect();
        let broken = (!dashes.is_empty()).then(|| dashes.join(" "));
        let ink = if tone == Tone::Calm { CALM_MARK } else { INK };
        path_of(svg, "mark", &beyond, ink, MARK * wire).set_if_some("stroke-dasharray", broken).empty();
    }
}

/// Starts a path; its line is `width` mm wide.
fn path_of<'s>(svg: &'s mut Svg, class: &str, data: &PathData, ink: &str, width: f64) -> Element<'s> {
    let path = svg.element("path").set("class", class).set("d", data).set("stroke", ink);
    path.set("stroke-width", format_args!("{width:.3}"))
}

/// The path of an arc: a part of an ellipse, or all of it. `on` says how far it goes on at both ends, in wires.
fn path(page: &Page, arc: &Arc, ellipse: &Ellipse, on: f64) -> PathData {
    let at = |angle: f64| page.place(ellipse.at(angle));
    let between = |from: f64, to: f64| SvgArc {
        from: at(from),
        to: at(to),
        radii: Vec2::new(ellipse.half_long(), ellipse.half_short()) * page.scale,
        x_rotation: -ellipse.tilt(),
        large_arc: to - from > 0.5 * TAU,
        // Angles grow anticlockwise in the scene; the page, whose y runs downwards, has sweeps clockwise.
        sweep: !ellipse.anticlockwise(),
    };
    if arc.whole {
        return PathData::from(at(0.0)).arc(&between(0.0, 0.5 * TAU)).arc(&between(0.5 * TAU, TAU)).close();
    }
    // What lies over nothing reaches a little under what does.
    let on = if arc.over { on } else { on + BELOW };
    if narrow(ellipse) {
        return pointwise(page, arc, ellipse, on);
    }
    let speed = |angle: f64| seen(ellipse.slope(angle)).hypot().max(ellipse.wire);
    let (from, to) = (arc.from - on * ellipse.wire / speed(arc.from), arc.to + on * ellipse.wire / speed(arc.to));
    // Two short arcs pin down the middle of the ellipse better than a long one, whose ends are rounded.
    if to - from > 0.4 * TAU {
        let middle = 0.5 * (from + to);
        return PathData::from(at(from)).arc(&between(from, middle)).arc(&between(middle, to));
    }
    PathData::from(at(from)).arc(&between(from, to))
}

/// A part of a narrow ring, from point to point; its near half goes round the ends.
fn pointwise(page: &Page, arc: &Arc, ellipse: &Ellipse, on: f64) -> PathData {
    let near = ellipse.at(0.5 * (arc.from + arc.to)).z >= ellipse.at(0.0).z.midpoint(ellipse.at(0.5 * TAU).z);
    // Cuts lie between two pieces of the ring, so they are near its ends but not on them.
    let at_end = |angle: f64| (angle.rem_euclid(0.5 * TAU)).min(0.5 * TAU - angle.rem_euclid(0.5 * TAU)) < 0.04;
    let more = |angle: f64| if near && at_end(angle) { ROUND } else { on * ellipse.wire / ellipse.half_long() };
    let (from, to) = (arc.from - more(arc.from), arc.to + more(arc.to));
    let steps = ((to - from) / (0.25 * TAU) * POINTS).ceil().max(1.0);
    let parts = std::iter::successors(Some(0.0), |step| Some(step + 1.0)).take_while(|step| *step <= steps);
    PathData::line(parts.map(|step| page.place(ellipse.at(from + (to - from) * step / steps))))
}
