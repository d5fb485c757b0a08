//! The rings of a scene, drawn on a page.

use super::arcs::{Arc, arcs};
use super::colour::INK;
use super::cover::Cover;
use super::ellipse::Ellipse;
use super::page::Page;
use super::scene::Scene;
use super::strokes::{Style, Tone, stroke};
use super::turns::runs;
use crate::draw::picture::Look;
use crate::draw::plane::{direction, seen};
use crate::draw::svg::{Mm, PathData, Svg};
use crate::weave::Weave;
use glam::DVec3;

/// Width of a hidden outline, mm.
const HIDDEN: f64 = 0.13;

/// Rings ready to be drawn on a page.
pub struct Rings<'s> {
    weave: &'s Weave,
    /// The rings.
    pub scene: &'s Scene,
    /// The rings as the viewer sees them.
    pub ellipses: Vec<Ellipse>,
    arcs: Vec<Arc>,
}

impl<'s> Rings<'s> {
    /// The rings of a scene.
    pub fn of(weave: &'s Weave, scene: &'s Scene) -> Self {
        let ellipses: Vec<Ellipse> = scene.rings.iter().map(|r| Ellipse::of(&r.circle, r.wire)).collect();
        let arcs = arcs(scene, &ellipses);
        Self { weave, scene, ellipses, arcs }
    }

    /// Draws them from far to near. `tone` has the number of a ring in the scene.
    pub fn draw(&self, svg: &mut Svg, page: &Page, look: Look, tone: impl Fn(usize) -> Tone) {
        for arc in &self.arcs {
            let (Some(ring), Some(ellipse)) = (self.scene.rings.get(arc.ring), self.ellipses.get(arc.ring)) else {
                continue;
            };
            let Some(paint) = self.scene.paint(ring) else { continue };
            let family = self.weave.pattern().family_name(ring.family);
            svg.element("g").set("data-ring", &ring.name).set("data-family", family).open();
            stroke(svg, arc, ellipse, &Style { page, paint, look, tone: tone(arc.ring) });
            svg.close();
        }
        if look == Look::Dashed {
            self.draw_hidden(svg, page);
        }
    }

    /// Both outlines of every wire where they are hidden, dashed.
    fn draw_hidden(&self, svg: &mut Svg, page: &Page) {
        let cover = Cover::of(&self.ellipses);
        for (number, ellipse) in self.ellipses.iter().enumerate() {
            for side in [-0.5, 0.5] {
                let edge = |angle: f64| {
                    let aside = direction(seen(ellipse.slope(angle))).unwrap_or_default().turn_90();
                    let aside = aside * (side * ellipse.wire);
                    ellipse.at(angle) + DVec3::new(aside.x, aside.y, 0.0)
                };
                for run in runs(|angle| cover.hides(number, edge(angle), 0.0)) {
                    let data = PathData::line(run.angles().map(|angle| page.place(edge(angle))));
                    let path = svg.element("path").set("class", "hidden").set("d", data).set("stroke", INK);
                    let dashes = format_args!("{} {}", Mm(4.0 * HIDDEN), Mm(3.0 * HIDDEN));
                    path.set("stroke-width", HIDDEN).set("stroke-dasharray", dashes).empty();
                }
            }
        }
    }
}
