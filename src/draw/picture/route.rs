//! The way of the ring that a step adds: where it goes through which rings, and which way.

use super::colour::{INK, PAPER};
use super::cover::Cover;
use super::ellipse::Ellipse;
use super::labels::{DISC, Label, Row, draw_labels, draw_number};
use super::page::{Band, Page};
use super::rings::Rings;
use super::turns::runs;
use crate::draw::plane::{direction, length, seen};
use crate::draw::svg::{PathData, Svg};
use crate::settle::Circle;
use crate::steps::Direction;
use glam::DVec3;
use kurbo::{Point, Vec2};
use petgraph::graph::NodeIndex;
use std::f64::consts::TAU;

/// A ring is on edge if the cosine of the angle between its front and the line of sight is at most this: then nobody can see
/// which way another ring goes through it.
const ON_EDGE: f64 = 0.15;
/// An arrow head needs this much free wire of the new ring, in wires; longer runs have one head for each `APART` wires.
const HEAD: f64 = 1.1;
const APART: f64 = 9.0;
/// How much of a leader line keeps clear of numbers, in halves of a number's disc.
const LEADER: u32 = 8;
/// Places that are tried for the number of a ring.
const PLACES: u32 = 48;

/// A place where the new ring goes through another.
pub struct Pass {
    /// The other ring.
    pub ring: NodeIndex,
    /// Its place among the rings that the instructions name, from 1.
    number: usize,
    /// Where on the new ring, as an angle.
    angle: f64,
    /// Which way, seen by the viewer; none where the other ring is on edge.
    pub way: Option<Direction>,
}

/// Passes one after another on the new ring that go the same way.
struct Group {
    /// "down 1, 2": the way, and the numbers on the rings.
    words: String,
    /// The middle of them on the new ring, as an angle.
    middle: f64,
}

/// The way of the new ring.
pub struct Route<'r> {
    rings: &'r Rings<'r>,
    own: &'r Ellipse,
    own_number: usize,
    /// +1 where the ring is threaded the way angles grow, −1 the other way.
    turn: f64,
    /// The passes, in the order of their places on the new ring.
    passes: Vec<Pass>,
    groups: Vec<Group>,
}

impl<'r> Route<'r> {
    /// The route of a ring that goes through these, in the order and the directions of the instructions; none where the ring
    /// is not in the scene.
    pub fn of(rings: &'r Rings<'r>, ring: NodeIndex, told: &[(NodeIndex, Direction)]) -> Option<Self> {
        let own_number = rings.scene.rings.iter().position(|r| r.node == ring)?;
        let own = rings.ellipses.get(own_number)?;
        let circle = |ring: NodeIndex| rings.scene.rings.iter().find(|r| r.node == ring).map(|r| r.circle);
        let met = told.iter().zip(1..).filter_map(|((ring, _), number)| pass(own, *ring, number, &circle(*ring)?));
        let mut passes: Vec<Pass> = met.collect();
        // It is threaded from the end from which the first ring is passed as the instructions say.
        let first = passes.iter().find_map(|p| Some((p.way?, told.get(p.number - 1)?.1)));
        let onward = first.is_none_or(|(onward, told)| onward == told);
        let first = passes.first().map(|p| p.number);
        passes.sort_by(|a, b| a.angle.total_cmp(&b.angle));
        if !onward {
            passes.reverse();
            for pass in &mut passes {
                pass.way = pass.way.map(Direction::other);
            }
        }
        // Begin with the group that ring is in.
        let count = passes.len();
        let at = passes.iter().position(|p| Some(p.number) == first).unwrap_or(0);
        let like = |n: usize| passes.get(n % count.max(1)).map(|p| p.way);
        let back = (1..count).take_while(|k| like(at + count - k) == like(at)).last().unwrap_or(0);
        passes.rotate_left((at + count - back) % count.max(1));
        let turn = if onward { 1.0 } else { -1.0 };
        let groups = passes.chunk_by(|a, b| a.way == b.way).filter_map(|run| group(run, turn)).collect();
        Some(Self { rings, own, own_number, turn, passes, groups })
    }

    /// The passes in the order of the instructions.
    pub fn in_order(&self) -> Vec<&Pass> {
        let mut passes: Vec<&Pass> = self.passes.iter().collect();
        passes.sort_by_key(|pass| pass.number);
        passes
    }

    /// Draws the hidden part of the way, arrow heads on the free one, numbers on the rings passed, and words at the passes.
    pub fn draw(&self, svg: &mut Svg, page: &Page, band: Band) {
        let cover = Cover::of(&self.rings.ellipses);
        self.draw_way(svg, page, &cover);
        let anchors: Vec<DVec3> = self.groups.iter().map(|group| self.own.at(group.middle)).collect();
        let above = |anchor: &DVec3| anchor.y >= self.own.centre().y;
        // Numbers keep away from the places that words are about, and from the lines that lead there.
        let mut taken: Vec<Point> = Vec::new();
        for anchor in &anchors {
            let outwards = if above(anchor) { -DISC } else { DISC };
            let at = page.place(*anchor);
            taken.extend((0..LEADER).map(|k| at + Vec2::new(0.0, outwards * f64::from(k))));
        }
        for pass in &self.passes {
            let Some(at) = self.number_place(page, &cover, pass, &taken) else { continue };
            taken.push(at);
            draw_number(svg, pass.number, at);
        }
        let labels = self.groups.iter().zip(&anchors).map(|(group, anchor)| Label {
            words: group.words.clone(),
            about: page.place(*anchor),
            row: if above(anchor) { Row::Above(0) } else { Row::Below(0) },
        });
        draw_labels(svg, page, band, labels.collect());
    }

    /// Draws the hidden part of the way dashed, and arrow heads on the free one.
    fn draw_way(&self, svg: &mut Svg, page: &Page, cover: &Cover<'_>) {
        let own = self.own;
        for run in runs(|angle| cover.hides(self.own_number, own.at(angle), -0.2 * own.wire)) {
            let data = PathData::line(run.angles().map(|angle| page.place(own.at(angle))));
            let path = svg.element("path").set("class", "way").set("d", data).set("stroke", INK);
            path.set("stroke-width", 0.35).set("stroke-dasharray", "0.9 0.7").empty();
        }
        for run in runs(|angle| !cover.hides(self.own_number, own.at(angle), 0.35 * own.wire)) {
            let steps = run.angles().zip(run.angles().skip(1));
            let wires = steps.map(|(from, to)| seen(own.at(to) - own.at(from)).hypot()).sum::<f64>() / own.wire;
            if wires < HEAD {
                continue;
            }
            let heads = (wires / APART).ceil();
            let parts = std::iter::successors(Some(0.5), |head| Some(head + 1.0)).take_while(|head| *head < heads);
            for part in parts {
                self.draw_head(svg, page, run.angle_at(part / heads));
            }
        }
    }

    /// Draws an arrow head on the wire of the new ring.
    fn draw_head(&self, svg: &mut Svg, page: &Page, angle: f64) {
        let along = direction(seen(self.own.slope(angle))).unwrap_or_default() * self.turn;
        // y runs down on the page.
        let ahead = Vec2::new(along.x, -along.y) * (self.own.wire * page.scale);
        let tip = page.place(self.own.at(angle));
        let corners = [(0.5, 0.0), (-0.5, 0.42), (-0.25, 0.0), (-0.5, -0.42)];
        let corners = corners.map(|(on, aside)| tip + ahead * on + ahead.turn_90() * aside);
        let path = svg.element("path").set("class", "way").set("d", PathData::line(corners).close());
        path.set("fill", PAPER).set("stroke", INK).set("stroke-width", 0.15).empty();
    }

    /// The place for the number of a ring: on its wire where nothing hides it, away from other numbers, from words and from
    /// the wire of the new ring.
    fn number_place(&self, page: &Page, cover: &Cover<'_>, pass: &Pass, taken: &[Point]) -> Option<Point> {
        let number = self.rings.scene.rings.iter().position(|r| r.node == pass.ring)?;
        let ellipse = self.rings.ellipses.get(number)?;
        let worth = |k: u32| {
            let p = ellipse.at(TAU * f64::from(k) / f64::from(PLACES));
            let at = page.place(p);
            let near = taken.iter().map(|t| length(*t - at)).fold(f64::INFINITY, f64::min);
            let wire = self.own.distance(seen(p).to_point()) * page.scale;
            let free = if cover.hides(number, p, 0.0) { 0.0 } else { 1.0 };
            let clear = (near / (2.5 * DISC)).min(1.0) + (wire / (1.5 * DISC)).min(1.0);
            (free + clear, at)
        };
        (0..PLACES).map(worth).max_by(|a, b| a.0.total_cmp(&b.0)).map(|(_, at)| at)
    }
}

/// A group of passes. `turn` is +1 where they follow each other as angles grow, else −1.
fn group(run: &[Pass], turn: f64) -> Option<Group> {
    let (first, last) = (run.first()?, run.last()?);
    let mut numbers: Vec<usize> = run.iter().map(|pass| pass.number).collect();
    numbers.sort_unstable();
    let numbers: Vec<String> = numbers.iter().map(usize::to_string).collect();
    let span = (turn * (last.angle - first.angle)).rem_euclid(TAU);
    let words = format!("{} {}", first.way.map_or("through", Direction::word), numbers.join(", "));
    Some(Group { words, middle: first.angle + turn * 0.5 * span })
}

/// Where a ring goes through the disc of another.
fn pass(own: &Ellipse, ring: NodeIndex, number: usize, other: &Circle) -> Option<Pass> {
    let (sin, cos) = (own.at(0.25 * TAU), own.at(0.0));
    let centre = own.at(0.0).midpoint(own.at(0.5 * TAU));
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
    // Against the front of the other ring, which may be turned away from the viewer.
    let towards_viewer = own.slope(angle).dot(other.normal) * other.normal.z;
    let way = if towards_viewer < 0.0 { Direction::Down } else { Direction::Up };
    Some(Pass { ring, number, angle: angle.rem_euclid(TAU), way: (other.normal.z.abs() > ON_EDGE).then_some(way) })
}
