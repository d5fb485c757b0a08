//! An eye as it is seen in a picture: the lens between two rings of a row, the line round it, and how it tips.

use super::colour::{INK, PAPER};
use super::ellipse::Ellipse;
use super::page::Page;
use super::scene::{Scene, SceneRing};
use super::svg::{place, runs};
use crate::settle::outline_crossings;
use crate::steps::ring_name;
use crate::weave::Weave;
use glam::DVec3;
use std::fmt::Write as _;

/// Ink of what is pointed at: vermilion of Okabe and Ito, 3.9 to 1 on white.
const POINTED: &str = "#d55e00";
/// A line of lean reaches this much beyond the tips of the eye, as a part of its length.
const BEYOND: f64 = 0.35;

/// An eye as it is seen.
pub struct Eye {
    /// Names of its two rings, as they are read aloud.
    pub names: [String; 2],
    /// Their numbers in the scene.
    pub rings: [usize; 2],
    /// Its two tips and its middle.
    pub tips: [DVec3; 2],
    pub middle: DVec3,
}

impl Eye {
    /// The eye the text names first, where it is nearest to the middle of the piece.
    pub fn of(weave: &Weave, scene: &Scene) -> Option<Self> {
        let passes = || weave.pattern().passes.iter();
        let base = passes().filter(|p| p.accent.is_none()).chain(passes().filter(|p| p.accent.is_some()));
        let meet = base.flat_map(|p| &p.meets).find(|m| m.eye)?;
        let (one, other) = (meet.at.first()?, meet.at.get(1)?);
        let on = other.offset - one.offset;
        let count = u32::try_from(scene.rings.len()).map_or(1.0, f64::from);
        let middle: DVec3 = scene.rings.iter().map(|r| r.circle.centre).sum::<DVec3>() / count;
        let partner = |ring: &SceneRing| {
            let at = ring.at + on;
            scene.rings.iter().position(|r| r.family == other.family && r.at == at)
        };
        let firsts = scene.rings.iter().enumerate().filter(|(_, r)| r.family == one.family);
        let seen = |(number, ring): (usize, &SceneRing)| {
            let with = partner(ring)?;
            let partner = scene.rings.get(with)?;
            let [a, b] = outline_crossings(&ring.circle, &partner.circle).try_into().ok()?;
            let tips = [a.on_a, b.on_a];
            let spoken = |r: &SceneRing| ring_name(weave.pattern(), r.family, r.at);
            let names = [spoken(ring), spoken(partner)];
            Some(Self { names, rings: [number, with], tips, middle: tips[0].midpoint(tips[1]) })
        };
        let away = |eye: &Self| (eye.middle - middle).truncate().length();
        firsts.filter_map(seen).min_by(|a, b| away(a).total_cmp(&away(b)))
    }

    pub fn words(&self) -> String {
        format!("the eye of {} and {}", self.names[0], self.names[1])
    }

    /// The line round it.
    pub fn outline(&self, ellipses: &[Ellipse], page: &Page) -> Vec<String> {
        let mut lines = Vec::new();
        for [own, other] in [self.rings, [self.rings[1], self.rings[0]]] {
            let (Some(own), Some(other)) = (ellipses.get(own), ellipses.get(other)) else { continue };
            for (from, to) in runs(|angle| other.holds(own.at(angle).truncate())) {
                let mut path = String::new();
                for k in from..=to {
                    let (x, y) = page.place(own.at(place(k)));
                    let _ = write!(path, "{}{x:.2} {y:.2}", if k == from { 'M' } else { 'L' });
                }
                for (ink, width) in [(PAPER, 1.1), (POINTED, 0.6)] {
                    lines.push(format!(
                        "<path class=\"eye\" d=\"{path}\" stroke=\"{ink}\" stroke-width=\"{width}\" stroke-linecap=\"round\"/>"
                    ));
                }
            }
        }
        lines
    }

    /// How it tips, in degrees from upright: above 0 to the right.
    pub fn tip(&self) -> f64 {
        let axis = self.tips[0] - self.tips[1];
        let axis = if axis.y < 0.0 { -axis } else { axis };
        libm::atan2(axis.x, axis.y).to_degrees()
    }

    /// The line through its tips, and one that stands upright.
    pub fn axis(&self, page: &Page) -> Vec<String> {
        let half = 0.5 * (self.tips[0] - self.tips[1]) * (1.0 + BEYOND);
        let upright = DVec3::Y * half.truncate().length();
        let line = |half: DVec3, ink: &str, width: f64, more: &str| {
            let (ax, ay) = page.place(self.middle + half);
            let (bx, by) = page.place(self.middle - half);
            let path = format!("M{ax:.2} {ay:.2}L{bx:.2} {by:.2}");
            format!("<path class=\"lean\" d=\"{path}\" stroke=\"{ink}\" stroke-width=\"{width}\"{more}/>")
        };
        vec![
            line(upright, PAPER, 0.9, ""),
            line(upright, INK, 0.25, " stroke-dasharray=\"1.2 0.8\""),
            line(half, PAPER, 1.1, ""),
            line(half, POINTED, 0.6, ""),
        ]
    }
}
