//! An eye as the viewer sees it: the lens between two rings of a row, the line round it, and how it tips.

use super::colour::{INK, PAPER};
use super::ellipse::Ellipse;
use super::labels::draw_on_white;
use super::page::Page;
use super::scene::{Scene, SceneRing};
use super::turns::runs;
use crate::draw::plane::{number, seen};
use crate::draw::svg::{PathData, Svg};
use crate::settle::outline_crossings;
use crate::steps::ring_name;
use crate::weave::Weave;
use glam::DVec3;

/// Ink of what is called out: vermilion of Okabe and Ito, 3.9:1 on white.
const POINTED: &str = "#d55e00";
/// How far a line of lean goes beyond the tips of the eye, as a part of its length.
const BEYOND: f64 = 0.35;

/// An eye as the viewer sees it.
pub struct Eye {
    /// The names of its two rings, as a person reads them out.
    pub names: [String; 2],
    /// The numbers of its rings in the scene.
    pub rings: [usize; 2],
    /// Its two tips.
    pub tips: [DVec3; 2],
    /// Its middle.
    pub middle: DVec3,
}

impl Eye {
    /// The eye the text names first, in the repeat nearest to the middle of the piece.
    pub fn of(weave: &Weave, scene: &Scene) -> Option<Self> {
        let passes = || weave.pattern().passes.iter();
        let base = passes().filter(|p| p.accent.is_none()).chain(passes().filter(|p| p.accent.is_some()));
        let meet = base.flat_map(|p| &p.meets).find(|m| m.eye)?;
        let (one, other) = (meet.at.first()?, meet.at.get(1)?);
        let on = other.offset - one.offset;
        let middle: DVec3 = scene.rings.iter().map(|r| r.circle.centre).sum::<DVec3>() / number(scene.rings.len());
        let partner = |ring: &SceneRing| {
            let at = ring.at + on;
            scene.rings.iter().position(|r| r.family == other.family && r.at == at)
        };
        let firsts = scene.rings.iter().enumerate().filter(|(_, r)| r.family == one.family);
        let visible = |(number, ring): (usize, &SceneRing)| {
            let with = partner(ring)?;
            let partner = scene.rings.get(with)?;
            let [a, b] = outline_crossings(&ring.circle, &partner.circle).try_into().ok()?;
            let tips = [a.on_a, b.on_a];
            let spoken = |r: &SceneRing| ring_name(weave.pattern(), r.family, r.at);
            let names = [spoken(ring), spoken(partner)];
            Some(Self { names, rings: [number, with], tips, middle: tips[0].midpoint(tips[1]) })
        };
        let away = |eye: &Self| seen(eye.middle - middle).hypot();
        firsts.filter_map(visible).min_by(|a, b| away(a).total_cmp(&away(b)))
    }

    /// What a label says of it.
    pub fn words(&self) -> String {
        format!("the eye of {} and {}", self.names[0], self.names[1])
    }

    /// Draws the line round it.
    pub fn draw_outline(&self, svg: &mut Svg, ellipses: &[Ellipse], page: &Page) {
        for [own, other] in [self.rings, [self.rings[1], self.rings[0]]] {
            let (Some(own), Some(other)) = (ellipses.get(own), ellipses.get(other)) else { continue };
            for run in runs(|angle| other.holds(seen(own.at(angle)).to_point())) {
                let data = PathData::line(run.angles().map(|angle| page.place(own.at(angle))));
                for (ink, width) in [(PAPER, 1.1), (POINTED, 0.6)] {
                    let path = svg.element("path").set("class", "eye").set("d", &data);
                    path.set("stroke", ink).set("stroke-width", width).set("stroke-linecap", "round").empty();
                }
            }
        }
    }

    /// Half of its width on the page, mm.
    pub fn half(&self, page: &Page) -> f64 {
        0.5 * seen(self.tips[0] - self.tips[1]).hypot() * page.scale
    }

    /// How it tips, in degrees from upright: above 0 to the right.
    pub fn tip(&self) -> f64 {
        let axis = seen(self.tips[0] - self.tips[1]);
        let axis = if axis.y < 0.0 { -axis } else { axis };
        libm::atan2(axis.x, axis.y).to_degrees()
    }

    /// Draws the line through its tips, and an upright one.
    pub fn draw_axis(&self, svg: &mut Svg, page: &Page) {
        let half = 0.5 * (self.tips[0] - self.tips[1]) * (1.0 + BEYOND);
        let upright = DVec3::Y * seen(half).hypot();
        let line = |half: DVec3| PathData::line([self.middle + half, self.middle - half].map(|p| page.place(p)));
        draw_on_white(svg, "lean", &line(upright), [0.9, 0.25], INK).set("stroke-dasharray", "1.2 0.8").empty();
        draw_on_white(svg, "lean", &line(half), [1.1, 0.6], POINTED).empty();
    }
}
