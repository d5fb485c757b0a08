//! The rings of a scene written down as SVG: one element a line, fixed decimals, lengths in mm.

use super::arcs::{Arc, arcs};
use super::colour::{INK, PAPER};
use super::cover::Cover;
use super::ellipse::Ellipse;
use super::page::Page;
use super::scene::Scene;
use super::strokes::{Tone, strokes};
use crate::draw::escaped;
use crate::draw::picture::{Look, Viewpoint};
use crate::pattern::FamilyId;
use crate::weave::Weave;
use std::f64::consts::TAU;
use std::fmt::Write as _;

/// Places round a ring at which it is asked whether its outline is hidden.
const PLACES: u32 = 180;
/// Width of a hidden outline and of its dashes, mm.
const HIDDEN: f64 = 0.13;

/// Rings ready to be drawn on a page.
pub struct Rings<'s> {
    weave: &'s Weave,
    /// The rings.
    pub scene: &'s Scene,
    /// As they are seen.
    pub ellipses: Vec<Ellipse>,
    arcs: Vec<Arc>,
}

impl<'s> Rings<'s> {
    pub fn of(weave: &'s Weave, scene: &'s Scene) -> Self {
        let ellipses: Vec<Ellipse> = scene.rings.iter().map(|r| Ellipse::of(&r.circle, r.wire)).collect();
        let arcs = arcs(scene, &ellipses);
        Self { weave, scene, ellipses, arcs }
    }

    /// The elements that draw them, from far to near, each in its tone.
    pub fn drawn(&self, page: &Page, look: Look, tone: impl Fn(usize) -> Tone) -> Vec<String> {
        let mut lines = Vec::new();
        for arc in &self.arcs {
            let (Some(ring), Some(ellipse)) = (self.scene.rings.get(arc.ring), self.ellipses.get(arc.ring)) else {
                continue;
            };
            let Some(paint) = self.scene.paint(ring) else { continue };
            let family = self.weave.pattern().family_name(ring.family);
            lines.push(format!("<g data-ring=\"{}\" data-family=\"{}\">", escaped(&ring.name), escaped(family)));
            lines.extend(strokes(page, arc, ellipse, paint, (look, tone(arc.ring))).iter().map(|s| format!(" {s}")));
            lines.push("</g>".to_owned());
        }
        if look == Look::Dashed {
            lines.extend(self.hidden(page));
        }
        lines
    }

    /// Both outlines of every wire where they are hidden, dashed.
    fn hidden(&self, page: &Page) -> Vec<String> {
        let cover = Cover::of(&self.ellipses);
        let mut lines = Vec::new();
        for (number, ellipse) in self.ellipses.iter().enumerate() {
            for side in [-0.5, 0.5] {
                let edge = |angle: f64| {
                    let along = ellipse.slope(angle).truncate().normalize_or_zero();
                    ellipse.at(angle) + (along.perp() * (side * ellipse.wire)).extend(0.0)
                };
                for (from, to) in runs(|angle| cover.hides(number, edge(angle), 0.0)) {
                    let mut path = String::new();
                    for k in from..=to {
                        let (x, y) = page.place(edge(place(k)));
                        let _ = write!(path, "{}{x:.2} {y:.2}", if k == from { 'M' } else { 'L' });
                    }
                    lines.push(format!(
                        "<path class=\"hidden\" d=\"{path}\" stroke=\"{INK}\" stroke-width=\"{HIDDEN}\" stroke-dasharray=\"{:.2} {:.2}\"/>",
                        4.0 * HIDDEN,
                        3.0 * HIDDEN
                    ));
                }
            }
        }
        lines
    }
}

/// A place round a ring as an angle.
pub fn place(number: u32) -> f64 {
    TAU * f64::from(number) / f64::from(PLACES)
}

/// The runs of places round a ring for which something holds: the first place of each and the last, which may be beyond
/// a full turn.
pub fn runs(holds: impl Fn(f64) -> bool) -> Vec<(u32, u32)> {
    let all: Vec<bool> = (0..PLACES).map(|k| holds(place(k))).collect();
    let at = |k: u32| all.get((k % PLACES) as usize).copied().unwrap_or(false);
    let Some(start) = (0..PLACES).find(|k| !at(*k)) else { return vec![(0, PLACES)] };
    let mut runs = Vec::new();
    let mut from = None;
    for k in start..=start + PLACES {
        match (at(k), from) {
            (true, None) => from = Some(k),
            (false, Some(first)) => {
                runs.push((first, k - 1));
                from = None;
            }
            _ => {}
        }
    }
    runs
}

/// A document: its page, what sets its ids apart, title and description, and what is on it.
pub fn document(page: &Page, id: &str, (title, about): (&str, &str), body: &[String]) -> String {
    let mut out = String::new();
    // Writing to a string cannot fail.
    let mut line = |words: std::fmt::Arguments<'_>| {
        let _ = writeln!(out, "{words}");
    };
    line(format_args!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{0:.2}mm\" height=\"{1:.2}mm\" viewBox=\"0 0 {0:.2} {1:.2}\" role=\"img\" aria-labelledby=\"picture-{id}-title picture-{id}-desc\">",
        page.wide, page.tall
    ));
    line(format_args!(" <title id=\"picture-{id}-title\">{}</title>", escaped(title)));
    line(format_args!(" <desc id=\"picture-{id}-desc\">{}</desc>", escaped(about)));
    line(format_args!(" <rect width=\"{:.2}\" height=\"{:.2}\" fill=\"{PAPER}\"/>", page.wide, page.tall));
    line(format_args!(" <g fill=\"none\" stroke-linecap=\"butt\" stroke-linejoin=\"round\">"));
    for element in body {
        line(format_args!("  {element}"));
    }
    line(format_args!(" </g>"));
    line(format_args!("</svg>"));
    out
}

/// From where it is seen, in words.
pub fn seen_from(from: Viewpoint) -> String {
    match from {
        Viewpoint::FRONT => "seen from the front".to_owned(),
        Viewpoint::BACK => "seen from the back".to_owned(),
        Viewpoint::EDGE => "seen on its edge".to_owned(),
        Viewpoint { turn_deg, tilt_deg } => format!("turned by {turn_deg} and tilted by {tilt_deg} degrees"),
    }
}

/// Title and description of a whole piece.
pub fn words(weave: &Weave, scene: &Scene, from: Viewpoint) -> (String, String) {
    let mut about = format!("{} rings, first ring at the left", scene.rings.len());
    let mut counts: std::collections::BTreeMap<FamilyId, usize> = std::collections::BTreeMap::new();
    for ring in &scene.rings {
        *counts.entry(ring.family).or_insert(0) += 1;
    }
    let name = |family: FamilyId| weave.pattern().family_name(family);
    let parts: Vec<String> = counts.iter().map(|(family, count)| format!("{count} {}", name(*family))).collect();
    let _ = write!(about, ": {}. Where wires cross, the nearer one is drawn over the other.", parts.join(", "));
    if scene.left_out > 0 {
        let _ = write!(about, " Not shown: {} added at the ends, where the repeat has none.", scene.left_out);
    }
    (format!("{}, {}", weave.name(), seen_from(from)), about)
}
