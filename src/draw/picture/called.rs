//! What can be called out on a picture: an eye, its lean, the aspect ratio of rings, and the eye once more, enlarged.

use super::callout::{CLEAR, Label, ROW, TEXT, labels, text};
use super::colour::{INK, PAPER};
use super::cover::Cover;
use super::ellipse::Ellipse;
use super::eye::Eye;
use super::page::{Page, Room};
use super::scene::SceneRing;
use super::strokes::Tone;
use super::svg::Rings;
use crate::draw::lettering::width;
use crate::draw::picture::{CallOut, NotDrawn, Options, Viewpoint};
use crate::notation::Hand;
use crate::settle::{Known, Settled};
use crate::text::half_up;
use crate::weave::Weave;
use glam::{DVec2, DVec3};

/// Half of the width of the enlarged eye, and white beside it, mm.
const LENS: f64 = 17.0;
const BESIDE: f64 = 6.0;
/// Of the enlarged eye's half width so much is the eye.
const FILLED: f64 = 0.85;
/// The least and the most it is enlarged.
const ENLARGED: [f64; 2] = [1.5, 8.0];

/// What is called out on a picture of these rings, ready to be put on a page.
pub struct Called<'r> {
    weave: &'r Weave,
    settled: &'r Settled,
    rings: &'r Rings<'r>,
    eye: Option<Eye>,
    what: CallOut,
}

impl<'r> Called<'r> {
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
        Room {
            above: if aspect_ratio { ROW * rows(self.of_kinds().len()) } else { 0.0 },
            below: if eye || lean { ROW } else { 0.0 },
            right: if enlarged { 2.0 * LENS + BESIDE } else { 0.0 },
            least_tall: if enlarged { 2.0 * LENS } else { 0.0 },
            least_wide: self.widest(),
        }
    }

    /// How wide the widest row of words is.
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

    /// The elements, in the order they are drawn. `id` sets their ids apart.
    pub fn elements(&self, page: &Page, id: &str, look: crate::draw::picture::Look) -> Vec<String> {
        let mut lines = Vec::new();
        let mut words = Vec::new();
        if let Some(eye) = &self.eye {
            if self.what.eye {
                lines.extend(eye.outline(&self.rings.ellipses, page));
                words.push(Label { words: eye.words(), at: page.place(eye.middle), above: false, row: 0 });
            }
            if self.what.lean {
                lines.extend(eye.axis(page));
                let low = if eye.tips[0].y < eye.tips[1].y { eye.tips[0] } else { eye.tips[1] };
                words.push(Label { words: self.lean(eye), at: page.place(low), above: false, row: 0 });
            }
            if self.what.enlarged {
                lines.extend(self.enlarged(eye, page, id, look));
            }
        }
        if self.what.aspect_ratio {
            words.extend(self.aspect_ratios(page));
        }
        lines.extend(labels(page, page.edges(), words));
        lines
    }

    fn lean(&self, eye: &Eye) -> String {
        let way = match self.settled.lean {
            Some(Hand::Left) => "left",
            Some(Hand::Right) => "right",
            None => "neither way",
        };
        format!("leans {way}, {:.0}°", eye.tip().abs())
    }

    /// Every kind of ring there is, and its aspect ratio in words.
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

    /// For every kind of ring its aspect ratio, at the highest place of one of its rings that is seen.
    fn aspect_ratios(&self, page: &Page) -> Vec<Label> {
        let cover = Cover::of(&self.rings.ellipses);
        let of_kind = |ring: &SceneRing, kind: &str| self.weave.pattern().families[ring.family].kind == kind;
        let mut all = Vec::new();
        for (number, (kind, words)) in self.of_kinds().into_iter().enumerate() {
            let rings = self.rings.scene.rings.iter().enumerate().filter(|(_, r)| of_kind(r, kind));
            // Of equals the first.
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
            all.extend(best.map(|p| Label { words, at: page.place(p), above: true, row: number / IN_A_ROW }));
        }
        all
    }

    fn ratio(&self, ring: &SceneRing) -> String {
        let (wire, inner) = (ring.wire, 2.0 * ring.circle.radius - ring.wire);
        let ratio = short(half_up(inner / wire, 2));
        match self.settled.sizes.known {
            Known::Millimetres => format!("AR {ratio} = {} mm ÷ {} mm", short(inner), short(wire)),
            Known::Nothing => format!("AR {ratio}, just above its floor"),
            Known::Ratios => format!("AR {ratio}"),
        }
    }

    /// The eye enlarged, in a circle at the right, and the same circle where it is on the piece.
    fn enlarged(&self, eye: &Eye, page: &Page, id: &str, look: crate::draw::picture::Look) -> Vec<String> {
        let half = 0.5 * (eye.tips[0] - eye.tips[1]).truncate().length() * page.scale;
        let times = (FILLED * LENS / half.max(1e-9)).clamp(ENLARGED[0], ENLARGED[1]);
        let (x, y) = (page.wide - 3.0 - LENS, 0.5 * (page.edges().0 + page.edges().1));
        let near = page.magnified(eye.middle, times, (x, y));
        let reach = LENS / near.scale;
        let inside = |ring: &SceneRing| {
            let [left, low, right, high] = Ellipse::of(&ring.circle, ring.wire).reach();
            let DVec2 { x, y } = eye.middle.truncate();
            left < x + reach && right > x - reach && low < y + reach && high > y - reach
        };
        let few = self.rings.scene.only(inside);
        let drawn = Rings::of(self.weave, &few);
        let (ex, ey) = page.place(eye.middle);
        let small = LENS / times;
        // The line from the one circle to the other.
        let way = DVec2::new(x - ex, y - ey);
        let along = way.normalize_or_zero();
        let (from, to) = (along * small, way - along * LENS);
        let line = format!("M{:.2} {:.2}L{:.2} {:.2}", ex + from.x, ey + from.y, ex + to.x, ey + to.y);
        let ring = |x: f64, y: f64, r: f64, fill: &str, ink: &str, width: f64| {
            format!(
                "<circle class=\"enlarged\" cx=\"{x:.2}\" cy=\"{y:.2}\" r=\"{r:.2}\" fill=\"{fill}\" stroke=\"{ink}\" stroke-width=\"{width}\"/>"
            )
        };
        let mut lines = vec![
            ring(ex, ey, small, "none", PAPER, 0.9),
            ring(ex, ey, small, "none", INK, 0.3),
            format!("<path class=\"enlarged\" d=\"{line}\" stroke=\"{PAPER}\" stroke-width=\"0.9\"/>"),
            format!("<path class=\"enlarged\" d=\"{line}\" stroke=\"{INK}\" stroke-width=\"0.3\"/>"),
            ring(x, y, LENS, PAPER, "none", 0.0),
            format!(
                "<clipPath id=\"picture-{id}-enlarged\"><circle cx=\"{x:.2}\" cy=\"{y:.2}\" r=\"{LENS:.2}\"/></clipPath>"
            ),
            format!("<g clip-path=\"url(#picture-{id}-enlarged)\">"),
        ];
        lines.extend(drawn.drawn(&near, look, |_| Tone::Plain).iter().map(|l| format!(" {l}")));
        if self.what.eye {
            lines.extend(eye.outline(&self.rings.ellipses, &near).iter().map(|l| format!(" {l}")));
        }
        lines.push("</g>".to_owned());
        lines.push(ring(x, y, LENS, "none", INK, 0.3));
        lines.push(text(&format!("{} times", short(times)), (x, y + LENS + TEXT + 1.0), "middle", ""));
        lines
    }
}

/// Rings of a kind, and places of each, that are looked at for a place to point to.
const MOST_LOOKED_AT: usize = 40;
const PLACES: u32 = 72;

/// Labels in one row over the rings.
const IN_A_ROW: usize = 2;

/// How many rows so many labels take.
fn rows(labels: usize) -> f64 {
    u32::try_from(labels.div_ceil(IN_A_ROW)).map_or(0.0, f64::from)
}

/// A number with as many decimals as it needs, two at most.
fn short(number: f64) -> String {
    let text = format!("{number:.2}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}
