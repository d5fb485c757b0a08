//! How the ring that a step adds goes: where it passes which rings, and which way.

use super::callout::{DISC, Label, labels, number};
use super::colour::{INK, PAPER};
use super::cover::Cover;
use super::ellipse::Ellipse;
use super::page::Page;
use super::svg::{Rings, place, runs};
use crate::settle::Circle;
use crate::steps::Direction;
use glam::DVec3;
use petgraph::graph::NodeIndex;
use std::fmt::Write as _;

/// A ring whose front is turned from the viewer by more than what has this cosine is passed "through": down and up
/// cannot be told on it.
const ON_EDGE: f64 = 0.15;
/// Of a free run of the new ring's wire, in wires, an arrow head needs so much; and one head stands on each such length.
const HEAD: f64 = 1.1;
const APART: f64 = 9.0;
/// Of a leader line so much is kept free of numbers, in halves of a number's disc.
const LEADER: u32 = 8;
/// Places at which the number of a ring may stand.
const PLACES: u32 = 48;

/// A place where the new ring passes another.
pub struct Pass {
    pub ring: NodeIndex,
    /// Its place among the rings the instructions name, from 1.
    pub number: usize,
    /// Which way it goes, seen by the viewer; `None` where that cannot be told.
    pub direction: Option<Direction>,
    /// Where on the new ring, as an angle.
    angle: f64,
}

/// Passes one after another on the new ring, all one way.
struct Group {
    words: String,
    /// Where on the new ring the words stand, as an angle.
    angle: f64,
}

/// How the new ring goes.
pub struct Going<'r> {
    rings: &'r Rings<'r>,
    /// Number of the new ring in the scene, where it is there, and whether it is threaded the way angles grow.
    own: Option<usize>,
    onward: bool,
    /// The rings passed, in the order of their places on the new ring.
    passes: Vec<Pass>,
    groups: Vec<Group>,
}

impl<'r> Going<'r> {
    /// How a ring goes that passes these, in the order and in the directions the instructions tell.
    pub fn of(rings: &'r Rings<'r>, ring: NodeIndex, told: &[(NodeIndex, Direction)]) -> Self {
        let own = rings.scene.rings.iter().position(|r| r.node == ring);
        let mut going = Self { rings, own, onward: true, passes: Vec::new(), groups: Vec::new() };
        let Some(ellipse) = own.and_then(|own| rings.ellipses.get(own)) else { return going };
        let circle = |ring: NodeIndex| rings.scene.rings.iter().find(|r| r.node == ring).map(|r| r.circle);
        let met = told.iter().zip(1..).filter_map(|((ring, _), number)| pass(ellipse, *ring, number, &circle(*ring)?));
        going.passes = met.collect();
        // It is threaded from the end from which the first ring is passed as the instructions say.
        let first = going.passes.iter().find_map(|p| Some((p.direction?, told.get(p.number - 1)?.1)));
        going.onward = first.is_none_or(|(onward, told)| onward == told);
        let first = going.passes.first().map(|p| p.number);
        going.passes.sort_by(|a, b| a.angle.total_cmp(&b.angle));
        if !going.onward {
            going.passes.reverse();
            for pass in &mut going.passes {
                pass.direction = pass.direction.map(Direction::other);
            }
        }
        // Begin with the group that ring is in.
        let count = going.passes.len();
        let at = going.passes.iter().position(|p| Some(p.number) == first).unwrap_or(0);
        let like = |n: usize| going.passes.get(n % count.max(1)).map(|p| p.direction);
        let back = (1..count).take_while(|k| like(at + count - k) == like(at)).last().unwrap_or(0);
        let start = (at + count - back) % count.max(1);
        going.passes.rotate_left(start);
        going.groups =
            going.passes.chunk_by(|a, b| a.direction == b.direction).filter_map(|run| going.group(run)).collect();
        going
    }

    /// The passes in the order the instructions tell them.
    pub fn in_order(&self) -> Vec<&Pass> {
        let mut passes: Vec<&Pass> = self.passes.iter().collect();
        passes.sort_by_key(|pass| pass.number);
        passes
    }

    fn group(&self, run: &[Pass]) -> Option<Group> {
        let (first, last) = (run.first()?, run.last()?);
        let mut numbers: Vec<usize> = run.iter().map(|pass| pass.number).collect();
        numbers.sort_unstable();
        let numbers: Vec<String> = numbers.iter().map(usize::to_string).collect();
        let word = first.direction.map_or("through", Direction::word);
        let turn = if self.onward { 1.0 } else { -1.0 };
        let span = (turn * (last.angle - first.angle)).rem_euclid(std::f64::consts::TAU);
        Some(Group { words: format!("{word} {}", numbers.join(", ")), angle: first.angle + turn * 0.5 * span })
    }

    /// The hidden part of its way, arrow heads on the free one, numbers on the rings passed, and words at the passes.
    pub fn elements(&self, page: &Page, edges: (f64, f64)) -> Vec<String> {
        let Some((number_of_own, own)) = self.own.and_then(|n| Some((n, self.rings.ellipses.get(n)?))) else {
            return Vec::new();
        };
        let cover = Cover::of(&self.rings.ellipses);
        let mut lines = Vec::new();
        for (from, to) in runs(|angle| cover.hides(number_of_own, own.at(angle), -0.2 * own.wire)) {
            let mut path = String::new();
            for k in from..=to {
                let (x, y) = page.place(own.at(place(k)));
                let _ = write!(path, "{}{x:.2} {y:.2}", if k == from { 'M' } else { 'L' });
            }
            lines.push(format!(
                "<path class=\"way\" d=\"{path}\" stroke=\"{INK}\" stroke-width=\"0.35\" stroke-dasharray=\"0.9 0.7\"/>"
            ));
        }
        for (from, to) in runs(|angle| !cover.hides(number_of_own, own.at(angle), 0.35 * own.wire)) {
            let lengths = (from..to).map(|k| (own.at(place(k + 1)) - own.at(place(k))).truncate().length());
            let wires = lengths.sum::<f64>() / own.wire;
            if wires < HEAD {
                continue;
            }
            let heads = (wires / APART).ceil();
            let mut head = 0.5;
            while head < heads {
                let angle = place(from) + (place(to) - place(from)) * head / heads;
                lines.push(self.head(page, own, angle));
                head += 1.0;
            }
        }
        let anchors: Vec<DVec3> = self.groups.iter().map(|group| own.at(group.angle)).collect();
        // Numbers keep away from the words' places, and from the lines that lead there.
        let mut taken: Vec<(f64, f64)> = Vec::new();
        for anchor in &anchors {
            let (x, y) = page.place(*anchor);
            let outwards = if anchor.y >= own.centre().y { -DISC } else { DISC };
            taken.extend((0..LEADER).map(|k| (x, y + outwards * f64::from(k))));
        }
        for pass in &self.passes {
            let at = self.spot(page, &cover, pass, &taken);
            taken.push(at);
            lines.extend(number(pass.number, at));
        }
        let words = self.groups.iter().zip(&anchors).map(|(group, p)| Label {
            words: group.words.clone(),
            at: page.place(*p),
            above: p.y >= own.centre().y,
            row: 0,
        });
        lines.extend(labels(page, edges, words.collect()));
        lines
    }

    /// An arrow head on the wire of the new ring.
    fn head(&self, page: &Page, own: &Ellipse, angle: f64) -> String {
        let along = own.slope(angle).truncate().normalize_or_zero() * if self.onward { 1.0 } else { -1.0 };
        let wire = own.wire * page.scale;
        let (x, y) = page.place(own.at(angle));
        // y runs down on the page.
        let (dx, dy) = (along.x * wire, -along.y * wire);
        let corner =
            |ahead: f64, aside: f64| format!("{:.2} {:.2}", x + ahead * dx - aside * dy, y + ahead * dy + aside * dx);
        format!(
            "<path class=\"way\" d=\"M{}L{}L{}L{}Z\" fill=\"{PAPER}\" stroke=\"{INK}\" stroke-width=\"0.15\"/>",
            corner(0.5, 0.0),
            corner(-0.5, 0.42),
            corner(-0.25, 0.0),
            corner(-0.5, -0.42)
        )
    }

    /// Where the number of a ring stands: on its wire where that is seen, away from other numbers and words.
    fn spot(&self, page: &Page, cover: &Cover<'_>, pass: &Pass, taken: &[(f64, f64)]) -> (f64, f64) {
        let number = self.rings.scene.rings.iter().position(|r| r.node == pass.ring);
        let Some((number, ellipse)) = number.and_then(|n| Some((n, self.rings.ellipses.get(n)?))) else {
            return (0.0, 0.0);
        };
        let own = self.own.and_then(|own| self.rings.ellipses.get(own));
        let far = |a: (f64, f64), b: (f64, f64)| libm::hypot(a.0 - b.0, a.1 - b.1);
        let worth = |angle: f64| {
            let p = ellipse.at(angle);
            let at = page.place(p);
            let near = taken.iter().map(|t| far(*t, at)).fold(f64::INFINITY, f64::min);
            // Away from the wire of the new ring as well.
            let wire = own.map_or(f64::INFINITY, |o| o.distance(p.truncate()) * page.scale);
            let free = if cover.hides(number, p, 0.0) { 0.0 } else { 1.0 };
            let clear = (near / (2.5 * DISC)).min(1.0) + (wire / (1.5 * DISC)).min(1.0);
            (free + clear, at)
        };
        let angle = |k: u32| std::f64::consts::TAU * f64::from(k) / f64::from(PLACES);
        let best = (0..PLACES).map(|k| worth(angle(k))).max_by(|a, b| a.0.total_cmp(&b.0));
        best.map_or((0.0, 0.0), |(_, at)| at)
    }
}

/// Where a ring passes through the disc of another, and which way as angles grow.
fn pass(own: &Ellipse, ring: NodeIndex, number: usize, other: &Circle) -> Option<Pass> {
    let (sin, cos) = (own.at(0.25 * std::f64::consts::TAU), own.at(0.0));
    let centre = own.at(0.0).midpoint(own.at(0.5 * std::f64::consts::TAU));
    let height = |p: DVec3| (p - centre).dot(other.normal);
    let (along, across) = (height(cos), height(sin));
    let reach = libm::hypot(along, across);
    let sought = (other.centre - centre).dot(other.normal);
    if sought.abs() >= reach {
        return None;
    }
    let (middle, aside) = (libm::atan2(across, along), libm::acos(sought / reach));
    let angle = [middle - aside, middle + aside].into_iter().min_by(|a, b| {
        let away = |angle: f64| own.at(angle).distance(other.centre);
        away(*a).total_cmp(&away(*b))
    })?;
    let away = own.slope(angle).dot(other.normal) * other.normal.z;
    let direction = if away < 0.0 { Direction::Down } else { Direction::Up };
    let direction = (other.normal.z.abs() > ON_EDGE).then_some(direction);
    Some(Pass { ring, number, direction, angle: angle.rem_euclid(std::f64::consts::TAU) })
}
