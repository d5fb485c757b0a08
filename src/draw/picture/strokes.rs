//! The strokes of an arc: what of it is drawn, how wide and in what ink.

use super::arcs::{Arc, narrow};
use super::colour::{INK, PAPER, Paint};
use super::ellipse::Ellipse;
use super::page::Page;
use crate::draw::picture::Look;
use std::f64::consts::TAU;
use std::fmt::Write as _;

/// The outline of a wire as a part of it, and its least and greatest width, mm (ISO 128-2: 0.35 and half of it).
const OUTLINE: f64 = 0.1;
const OUTLINES: [f64; 2] = [0.1, 0.35];
/// The gap beside the nearer wire, as a part of it.
const GAP: f64 = 0.1;
/// The light along the middle of the wire, and the mark on it, as parts of it.
const SHINE: f64 = 0.36;
const MARK: f64 = 0.12;
/// Arcs that lie under others reach this far below them, in wires, so that no seam shows.
const BELOW: f64 = 0.08;
/// Gap and outline of an arc reach so far into the next one, in wires, its fill as much again, and its light again: what is
/// drawn later covers the seam, and no end shows.
const BEYOND: f64 = 0.04;
/// How far the near half of a narrow ring goes round its ends, radians.
const ROUND: f64 = 0.5;
/// Points on a narrow ring's quarter, which is drawn as a line from point to point: an arc of no width has no ends.
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

/// Outlines of work done so far (4.5 to 1 on white) and of what comes next (3.0 to 1, what WCAG 2.2 asks of graphics).
const CALM: &str = "#767676";
const FAINT: &str = "#949494";
/// Marks on calm wire, 3 to 1 and more on every fill of it.
const CALM_MARK: &str = "#595959";
/// Fill of the ring a step adds, vermilion of Okabe and Ito, and the light on it: darker in grey than any ring that is calm.
const STRONG: [&str; 2] = ["#d55e00", "#e27a26"];
/// How much wider the outline of the ring a step adds is.
const STRESSED: f64 = 1.8;

/// The strokes of an arc, the widest first: the gap, the outline, the wire, its shine, its mark.
pub fn strokes(page: &Page, arc: &Arc, ellipse: &Ellipse, paint: &Paint, (look, tone): (Look, Tone)) -> Vec<String> {
    let wire = ellipse.wire * page.scale;
    let stressed = if tone == Tone::Strong { STRESSED } else { 1.0 };
    let outline = (stressed * OUTLINE * wire).clamp(OUTLINES[0], stressed * OUTLINES[1]).min(0.3 * wire);
    let [own, beyond, farther] = [BEYOND, 2.0 * BEYOND, 3.0 * BEYOND].map(|more| path(page, arc, ellipse, more));
    let stroke = |class: &str, shape: &str, ink: &str, width: f64, more: &str| {
        format!("<path class=\"{class}\" d=\"{shape}\" stroke=\"{ink}\" stroke-width=\"{width:.3}\"{more}/>")
    };
    let mut all = Vec::new();
    if arc.over {
        all.push(stroke("gap", &own, PAPER, wire * (1.0 + 2.0 * GAP), ""));
    }
    let shaded = look == Look::Shaded;
    let (edge, fill, shine) = match tone {
        Tone::Plain => (INK, paint.fill.as_str(), Some(paint.shine.as_str())),
        Tone::Calm => (CALM, paint.calm.as_str(), None),
        Tone::Strong => (INK, STRONG[0], Some(STRONG[1])),
        Tone::Faint => (FAINT, PAPER, None),
    };
    all.push(stroke("edge", &own, edge, wire, ""));
    all.push(stroke("wire", &beyond, if shaded { fill } else { PAPER }, wire - 2.0 * outline, ""));
    if let Some(shine) = shine.filter(|_| shaded) {
        all.push(stroke("shine", &farther, shine, SHINE * wire, ""));
    }
    if let Some(dashes) = paint.dashes.filter(|_| matches!(tone, Tone::Plain | Tone::Calm)) {
        let dashes: Vec<String> = dashes.iter().map(|d| format!("{:.3}", d * wire)).collect();
        let broken =
            if dashes.is_empty() { String::new() } else { format!(" stroke-dasharray=\"{}\"", dashes.join(" ")) };
        let ink = if tone == Tone::Calm { CALM_MARK } else { INK };
        all.push(stroke("mark", &beyond, ink, MARK * wire, &broken));
    }
    all
}

/// The path of an arc: a part of an ellipse, or all of it, drawn on by so many wires at both ends.
fn path(page: &Page, arc: &Arc, ellipse: &Ellipse, on: f64) -> String {
    let (rx, ry) = (ellipse.half_long() * page.scale, ellipse.half_short() * page.scale);
    let tilt = -ellipse.tilt().to_degrees();
    // Seen from above on paper, y runs down: what runs anticlockwise has the sweep 0.
    let sweep = u8::from(!ellipse.anticlockwise());
    let to = |angle: f64, large: bool| {
        let (x, y) = page.place(ellipse.at(angle));
        format!("A{rx:.3} {ry:.3} {tilt:.2} {} {sweep} {x:.2} {y:.2}", u8::from(large))
    };
    if arc.whole {
        let (x, y) = page.place(ellipse.at(0.0));
        return format!("M{x:.2} {y:.2}{}{}Z", to(0.5 * TAU, false), to(TAU, false));
    }
    // What is not over anything reaches a little below what is.
    let below = if arc.over { on } else { on + BELOW };
    if narrow(ellipse) {
        return pointwise(page, arc, ellipse, below);
    }
    let length = |angle: f64| ellipse.slope(angle).truncate().length().max(ellipse.wire);
    let (from, end) =
        (arc.from - below * ellipse.wire / length(arc.from), arc.to + below * ellipse.wire / length(arc.to));
    let (x, y) = page.place(ellipse.at(from));
    // The middle of an ellipse is not to hang on the last digit of an end.
    if end - from > 0.4 * TAU {
        let middle = 0.5 * (from + end);
        let large = end - middle > 0.5 * TAU;
        return format!("M{x:.2} {y:.2}{}{}", to(middle, large), to(end, large));
    }
    format!("M{x:.2} {y:.2}{}", to(end, false))
}

/// A part of a narrow ring from point to point; its near half goes round the ends.
fn pointwise(page: &Page, arc: &Arc, ellipse: &Ellipse, on: f64) -> String {
    let near = ellipse.at(0.5 * (arc.from + arc.to)).z >= ellipse.at(0.0).z.midpoint(ellipse.at(0.5 * TAU).z);
    // Cuts stand between two pieces of the ring.
    let end = |angle: f64| (angle.rem_euclid(0.5 * TAU)).min(0.5 * TAU - angle.rem_euclid(0.5 * TAU)) < 0.04;
    let more = |angle: f64| if near && end(angle) { ROUND } else { on * ellipse.wire / ellipse.half_long() };
    let (from, to) = (arc.from - more(arc.from), arc.to + more(arc.to));
    let steps = ((to - from) / (0.25 * TAU) * POINTS).ceil().max(1.0);
    let mut path = String::new();
    let mut step = 0.0;
    while step <= steps {
        let (x, y) = page.place(ellipse.at(from + (to - from) * step / steps));
        let _ = write!(path, "{}{x:.2} {y:.2}", if step == 0.0 { 'M' } else { 'L' });
        step += 1.0;
    }
    path
}
