//! What a picture calls out: an eye, its lean, the aspect ratios of rings, and the eye once more, enlarged.

use super::colour::{INK, PAPER};
use super::cover::Cover;
use super::ellipse::Ellipse;
use super::eye::Eye;
use super::labels::{CLEAR, Label, ROW, Row, TEXT, draw_labels, draw_on_white, text};
use super::page::{MARGIN, Page, Room};
use super::rings::Rings;
use super::scene::SceneRing;
use super::strokes::Tone;
use crate::draw::lettering::width;
use crate::draw::picture::{CallOut, Look, NotDrawn, Options, Viewpoint};
use crate::draw::plane::{direction, number, seen};
use crate::draw::svg::{Anchor, PathData, Svg};
use crate::notation::Hand;
use crate::settle::{Known, Settled};
use crate::text::{half_up, trimmed};
use crate::weave::Weave;
use glam::DVec3;
use kurbo::{Circle, Point, Rect, Size, Vec2};

/// Half of the width of the enlarged eye, and white beside it, mm.
const LENS: f64 = 17.0;
const BESIDE: f64 = 6.0;
/// The eye takes this part of the half width.
const FILLED: f64 = 0.85;
/// The least and the greatest enlargement.
const ENLARGED: [f64; 2] = [1.5, 8.0];
/// Rings of a kind, and places of each, that are looked at for a place to point to.
const MOST_LOOKED_AT: usize = 40;
const PLACES: u32 = 72;
/// Labels in one row above the rings.
const IN_A_ROW: usize = 2;

/// What is called out on a picture of these rings, ready to be put on a page.
pub struct CallOuts<'r> {
    weave: &'r Weave,
    settled: &'r Settled,
    rings: &'r Rings<'r>,
    eye: Option<Eye>,
    what: CallOut,
}

impl<'r> CallOuts<'r> {
    /// # Errors
    /// [`NotDrawn::NoEye`] and [`NotDrawn::NoLean`], where there is none to call out.
    pub fn of(
        weave: &'r Weave,
        settled: &'r Settled,
        rings: &'r Rings<'r>,
        options: &Options,
    ) -> Result<Self, NotDrawn> {
        let what = options.call_out;
        let wanted = what.eye || what.lean || what.enlarged;
        let eye = wanted.then(|| Eye::of(weave, rings.scene).ok_or(NotDrawn::NoEye)).transpose()?;
        if what.lean && (settled.lean.is_none() || options.from != Viewpoint::FRONT) {
            return Err(NotDrawn::NoLean);
        }
        Ok(Self { weave, settled, rings, eye, what })
    }

    /// The room it needs beside the rings.
    pub fn room(&self) -> Room {
        let CallOut { eye, lean, aspect_ratio, enlarged } = self.what;
        let rows = if aspect_ratio { self.of_kinds().len().div_ceil(IN_A_ROW) } else { 0 };
        Room {
            above: ROW * number(rows),
            below: if eye || lean { ROW } else { 0.0 },
            right: if enlarged { 2.0 * LENS + BESIDE } else { 0.0 },
            least_tall: if enlarged { 2.0 * LENS } else { 0.0 },
            least_wide: self.widest(),
        }
    }

    /// The width of the widest row of words, mm.
    fn widest(&self) -> f64 {
        let wide = |words: &str| width(words, TEXT) + 2.0 * CLEAR;
        let mut above: f64 = 0.0;
        if self.what.aspect_ratio {
            let rows = self.of_kinds();
            let rows = rows.chunks(IN_A_ROW).map(|row| row.iter().map(|(_, words)| wide(words)).sum::<f64>());
            above = rows.fold(0.0, f64::max);
        }
        let mut below = 0.0;
        if let Some(eye) = &self.eye {
            below += if self.what.eye { wide(&eye.words()) } else { 0.0 };
            below += if self.what.lean { wide(&self.lean(eye)) } else { 0.0 };
        }
        above.max(below) + 2.0 * CLEAR
    }

    /// Draws it on a page that has room for it. `id` starts the ids of the document.
    pub fn draw(&self, svg: &mut Svg, page: &Page, look: Look, id: &str) {
        let mut labels = Vec::new();
        if let Some(eye) = &self.eye {
            if self.what.eye {
                eye.draw_outline(svg, &self.rings.ellipses, page);
                labels.push(Label { words: eye.words(), about: page.place(eye.middle), row: Row::Below(0) });
            }
            if self.what.lean {
                eye.draw_axis(svg, page);
                let low = if eye.tips[0].y < eye.tips[1].y { eye.tips[0] } else { eye.tips[1] };
                labels.push(Label { words: self.lean(eye), about: page.place(low), row: Row::Below(0) });
            }
            if self.what.enlarged {
                self.draw_enlarged(svg, eye, page, (look, id));
            }
        }
        if self.what.aspect_ratio {
            labels.extend(self.aspect_ratios(page));
        }
        draw_labels(svg, page, page.band(), labels);
    }

    fn lean(&self, eye: &Eye) -> String {
        format!("leans {}, {:.0}°", self.settled.lean.map_or("neither way", Hand::word), eye.tip().abs())
    }

    /// Every kind of ring in the scene, and its aspect ratio in words.
    fn of_kinds(&self) -> Vec<(&str, String)> {
        let kind = |ring: &SceneRing| self.weave.pattern().families[ring.family].kind.as_str();
        let mut all: Vec<(&str, String)> = Vec::new();
        for ring in &self.rings.scene.rings {
            if !all.iter().any(|(known, _)| *known == kind(ring)) {
                all.push((kind(ring), self.ratio(ring)));
            }
        }
        if all.len() > 1 {
            for (kind, words) in &mut all {
                *words = format!("{kind}: {words}");
            }
        }
        all
    }

    /// For every kind of ring its aspect ratio, at the highest place of its rings that is not hidden.
    fn aspect_ratios(&self, page: &Page) -> Vec<Label> {
        let cover = Cover::of(&self.rings.ellipses);
        let of_kind = |ring: &SceneRing, kind: &str| self.weave.pattern().families[ring.family].kind == kind;
        let mut all = Vec::new();
        for (number, (kind, words)) in self.of_kinds().into_iter().enumerate() {
            let rings = self.rings.scene.rings.iter().enumerate().filter(|(_, r)| of_kind(r, kind));
            // Of places that are equally high, the first.
            let mut best: Option<DVec3> = None;
            for (number, _) in rings.take(MOST_LOOKED_AT) {
                let Some(ellipse) = self.rings.ellipses.get(number) else { continue };
                for k in 0..PLACES {
                    let p = ellipse.at(std::f64::consts::TAU * f64::from(k) / f64::from(PLACES));
                    let higher = best.is_none_or(|b| p.y > b.y + 0.5 * ellipse.wire);
                    if higher && !cover.hides(number, p, 0.0) {
                        best = Some(p);
                    }
                }
            }
            let row = Row::Above(number / IN_A_ROW);
            all.extend(best.map(|p| Label { words, about: page.place(p), row }));
        }
        all
    }

    fn ratio(&self, ring: &SceneRing) -> String {
        let (wire, inner) = (ring.wire, 2.0 * ring.circle.radius - ring.wire);
        let ratio = trimmed(half_up(inner / wire, 2), 2);
        match self.settled.sizes.known {
            Known::Millimetres => format!("AR {ratio} = {} mm ÷ {} mm", trimmed(inner, 2), trimmed(wire, 2)),
            Known::Nothing => format!("AR {ratio}, just above its floor"),
            Known::Ratios => format!("AR {ratio}"),
        }
    }

    /// Draws the eye enlarged, in a circle at the right, and the same circle where it is on the piece.
    fn draw_enlarged(&self, svg: &mut Svg, eye: &Eye, page: &Page, (look, id): (Look, &str)) {
        let times = (FILLED * LENS / eye.half(page).max(1e-9)).clamp(ENLARGED[0], ENLARGED[1]);
        let band = page.band();
        let lens = Point::new(page.size.width - MARGIN - LENS, 0.5 * (band.top + band.bottom));
        let near = page.magnified(eye.middle, times, lens);
        let shown = Rect::from_center_size(seen(eye.middle).to_point(), Size::new(2.0, 2.0) * (LENS / near.scale));
        let few = self.rings.scene.only(|ring| {
            let ring = Ellipse::of(&ring.circle, ring.wire).bounds();
            ring.x0 < shown.x1 && ring.x1 > shown.x0 && ring.y0 < shown.y1 && ring.y1 > shown.y0
        });
        let centre = page.place(eye.middle);
        let small = LENS / times;
        circle(svg, Circle::new(centre, small), "none", PAPER, 0.9);
        circle(svg, Circle::new(centre, small), "none", INK, 0.3);
        // The line from the one circle to the other.
        let along = direction(lens - centre).unwrap_or_default();
        let line = PathData::line([centre + along * small, lens - along * LENS]);
        draw_on_white(svg, "enlarged", &line, [0.9, 0.3], INK).empty();
        circle(svg, Circle::new(lens, LENS), PAPER, "none", 0.0);
        svg.element("clipPath").set("id", format_args!("{id}-enlarged")).open();
        svg.element("circle").centre(lens).mm("r", LENS).empty();
        svg.close();
        svg.element("g").set("clip-path", format_args!("url(#{id}-enlarged)")).open();
        Rings::of(self.weave, &few).draw(svg, &near, look, |_| Tone::Plain);
        if self.what.eye {
            eye.draw_outline(svg, &self.rings.ellipses, &near);
        }
        svg.close();
        circle(svg, Circle::new(lens, LENS), "none", INK, 0.3);
        let under = lens + Vec2::new(0.0, LENS + TEXT + 1.0);
        text(svg, under, Anchor::Middle).words(format_args!("{} times", trimmed(times, 2)));
    }
}

/// Draws a circle, with a line `width` mm wide.
fn circle(svg: &mut Svg, circle: Circle, fill: &str, ink: &str, width: f64) {
    let circle = svg.element("circle").set("class", "enlarged").centre(circle.center).mm("r", circle.radius);
    circle.set("fill", fill).set("stroke", ink).set("stroke-width", width).empty();
}
