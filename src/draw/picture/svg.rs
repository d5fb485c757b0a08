//! The arcs of a scene written down as SVG: one element a line, fixed decimals, lengths in mm.

use super::arcs::{Arc, arcs, narrow};
use super::colour::{INK, Paint, Paints};
use super::ellipse::Ellipse;
use super::scene::Scene;
use super::{Look, NotDrawn, Options, Scale, Viewpoint};
use crate::draw::svg::escaped;
use crate::settle::{Known, Settled};
use crate::weave::Weave;
use std::f64::consts::TAU;
use std::fmt::Write as _;

/// White round the picture, mm.
const MARGIN: f64 = 3.0;
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
/// Of an arc the wire ends this much beyond its outline, in wires, and the gap so much before: no end shows.
const BEYOND: f64 = 0.04;
/// How far the near half of a narrow ring goes round its ends, radians.
const ROUND: f64 = 0.5;
/// Points on a narrow ring's quarter, which is drawn as a line from point to point: an arc of no width has no ends.
const POINTS: f64 = 12.0;

/// Where things are on the page.
struct Page {
    /// mm for one unit of the pose.
    scale: f64,
    left: f64,
    high: f64,
    wide: f64,
    tall: f64,
}

impl Page {
    fn of(settled: &Settled, ellipses: &[Ellipse], scale: Scale) -> Result<Self, NotDrawn> {
        let all = ellipses.iter().map(Ellipse::reach);
        let [left, low, right, high] = all
            .fold([f64::INFINITY, f64::INFINITY, f64::NEG_INFINITY, f64::NEG_INFINITY], |a, b| {
                [a[0].min(b[0]), a[1].min(b[1]), a[2].max(b[2]), a[3].max(b[3])]
            });
        let (wide, tall) = if ellipses.is_empty() { (1.0, 1.0) } else { (right - left, high - low) };
        let scale = match scale {
            Scale::Times(times) if settled.sizes.known == Known::Millimetres => times,
            Scale::Times(_) => return Err(NotDrawn::NoSizes),
            Scale::Fit(w, h) => ((w - 2.0 * MARGIN) / wide).min((h - 2.0 * MARGIN) / tall).max(1e-6),
        };
        Ok(Self { scale, left, high, wide: wide * scale + 2.0 * MARGIN, tall: tall * scale + 2.0 * MARGIN })
    }

    fn place(&self, ellipse: &Ellipse, angle: f64) -> (f64, f64) {
        let p = ellipse.at(angle);
        ((p.x - self.left) * self.scale + MARGIN, (self.high - p.y) * self.scale + MARGIN)
    }
}

pub fn write(weave: &Weave, settled: &Settled, scene: &Scene, options: &Options) -> Result<String, NotDrawn> {
    let ellipses: Vec<Ellipse> = scene.rings.iter().map(|r| Ellipse::of(&r.circle, r.wire)).collect();
    let page = Page::of(settled, &ellipses, options.scale)?;
    let id = crate::short_name(weave.name());
    let (title, about) = words(weave, scene, options.from);
    let mut out = String::new();
    // Writing to a string cannot fail.
    let mut line = |words: std::fmt::Arguments<'_>| {
        let _ = writeln!(out, "{words}");
    };
    line(format_args!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{0:.2}mm\" height=\"{1:.2}mm\" viewBox=\"0 0 {0:.2} {1:.2}\" role=\"img\" aria-labelledby=\"picture-{id}-title picture-{id}-desc\">",
        page.wide, page.tall
    ));
    line(format_args!(" <title id=\"picture-{id}-title\">{}</title>", escaped(&title)));
    line(format_args!(" <desc id=\"picture-{id}-desc\">{}</desc>", escaped(&about)));
    line(format_args!(" <rect width=\"{:.2}\" height=\"{:.2}\" fill=\"#ffffff\"/>", page.wide, page.tall));
    line(format_args!(" <g fill=\"none\" stroke-linecap=\"butt\" stroke-linejoin=\"round\">"));
    let paints = Paints::of(weave, scene);
    for arc in arcs(scene, &ellipses) {
        let (Some(ring), Some(ellipse)) = (scene.rings.get(arc.ring), ellipses.get(arc.ring)) else { continue };
        let Some(paint) = paints.of_ring(arc.ring) else { continue };
        let family = weave.pattern.families.get(ring.family).map_or("?", |f| f.name.value.as_str());
        line(format_args!("  <g data-ring=\"{}\" data-family=\"{}\">", escaped(&ring.name), escaped(family)));
        for stroke in strokes(&page, &arc, ellipse, paint, options.look) {
            line(format_args!("   {stroke}"));
        }
        line(format_args!("  </g>"));
    }
    line(format_args!(" </g>"));
    line(format_args!("</svg>"));
    Ok(out)
}

/// The strokes of an arc, the widest first: the gap, the outline, the wire, its shine, its mark.
fn strokes(page: &Page, arc: &Arc, ellipse: &Ellipse, paint: &Paint, look: Look) -> Vec<String> {
    let wire = ellipse.wire * page.scale;
    let outline = (OUTLINE * wire).clamp(OUTLINES[0], OUTLINES[1]).min(0.3 * wire);
    let [before, own, beyond] = [-BEYOND, 0.0, BEYOND].map(|more| path(page, arc, ellipse, more));
    let stroke = |class: &str, shape: &str, ink: &str, width: f64, more: &str| {
        format!("<path class=\"{class}\" d=\"{shape}\" stroke=\"{ink}\" stroke-width=\"{width:.3}\"{more}/>")
    };
    let mut all = Vec::new();
    if arc.over {
        all.push(stroke("gap", &before, "#ffffff", wire * (1.0 + 2.0 * GAP), ""));
    }
    all.push(stroke("edge", &own, INK, wire, ""));
    let fill = if look == Look::Shaded { paint.fill.as_str() } else { "#ffffff" };
    all.push(stroke("wire", &beyond, fill, wire - 2.0 * outline, ""));
    if look == Look::Shaded {
        all.push(stroke("shine", &beyond, &paint.shine, SHINE * wire, ""));
    }
    if let Some(dashes) = paint.dashes {
        let dashes: Vec<String> = dashes.iter().map(|d| format!("{:.3}", d * wire)).collect();
        let broken =
            if dashes.is_empty() { String::new() } else { format!(" stroke-dasharray=\"{}\"", dashes.join(" ")) };
        let ink = if look == Look::Shaded { paint.ink } else { INK };
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
        let (x, y) = page.place(ellipse, angle);
        format!("A{rx:.3} {ry:.3} {tilt:.2} {} {sweep} {x:.3} {y:.3}", u8::from(large))
    };
    if arc.whole {
        let (x, y) = page.place(ellipse, 0.0);
        return format!("M{x:.3} {y:.3}{}{}Z", to(0.5 * TAU, false), to(TAU, false));
    }
    // What is not over anything reaches a little below what is.
    let below = if arc.over { on } else { on + BELOW };
    if narrow(ellipse) {
        return pointwise(page, arc, ellipse, below);
    }
    let length = |angle: f64| ellipse.slope(angle).truncate().length().max(ellipse.wire);
    let (from, end) =
        (arc.from - below * ellipse.wire / length(arc.from), arc.to + below * ellipse.wire / length(arc.to));
    let (x, y) = page.place(ellipse, from);
    // The middle of an ellipse is not to hang on the last digit of an end.
    if end - from > 0.4 * TAU {
        let middle = 0.5 * (from + end);
        let large = end - middle > 0.5 * TAU;
        return format!("M{x:.3} {y:.3}{}{}", to(middle, large), to(end, large));
    }
    format!("M{x:.3} {y:.3}{}", to(end, false))
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
        let (x, y) = page.place(ellipse, from + (to - from) * step / steps);
        let _ = write!(path, "{}{x:.3} {y:.3}", if step == 0.0 { 'M' } else { 'L' });
        step += 1.0;
    }
    path
}

/// Title and description.
fn words(weave: &Weave, scene: &Scene, from: Viewpoint) -> (String, String) {
    let seen = match from {
        Viewpoint::FRONT => "seen from the front".to_owned(),
        Viewpoint::BACK => "seen from the back".to_owned(),
        Viewpoint::EDGE => "seen on its edge".to_owned(),
        Viewpoint { turn_deg, tilt_deg } => format!("turned by {turn_deg} and tilted by {tilt_deg} degrees"),
    };
    let mut about = format!("{} rings, first ring at the left", scene.rings.len());
    let mut counts: std::collections::BTreeMap<usize, usize> = std::collections::BTreeMap::new();
    for ring in &scene.rings {
        *counts.entry(ring.family).or_insert(0) += 1;
    }
    let name = |family: usize| weave.pattern.families.get(family).map_or("?", |f| f.name.value.as_str());
    let parts: Vec<String> = counts.iter().map(|(family, count)| format!("{count} {}", name(*family))).collect();
    let _ = write!(about, ": {}. Where wires cross, the nearer one is drawn over the other.", parts.join(", "));
    (format!("{}, {seen}", weave.name()), about)
}
