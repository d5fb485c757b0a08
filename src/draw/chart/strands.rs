//! What lies over what. A ring's curve is cut where another lies over it, and split where a loop goes behind the rows.

use super::layout::Look;
use super::scene::{Drawn, Scene};
use super::threadings::Name;
use crate::draw::plane::length;
use crate::pattern::{FamilyId, Lies, Pattern, Shift};
use crate::steps::Direction;
use kurbo::Vec2;
use std::collections::BTreeSet;

/// Parts shorter than this are left out, mm.
const SCRAP: f64 = 1.5;

/// The parts of a ring's curve that are drawn, each from one place on the curve to another.
#[derive(Clone, Debug, Default)]
pub struct Strand {
    /// Parts in front of the rows; all of a circle.
    pub front: Vec<(f64, f64)>,
    /// Parts behind the rows.
    pub behind: Vec<(f64, f64)>,
    /// Whether another ring lies over it.
    pub cut: bool,
}

/// The strands of a scene.
pub struct Strands {
    /// One for each ring of the scene.
    pub strands: Vec<Strand>,
    /// Whether two outlines meet and the text does not say which lies in front.
    pub open: bool,
}

/// Cuts the rings of a scene. `width` is the width in mm of a ring as drawn over another.
pub fn strands(pattern: &Pattern, scene: &Scene, width: impl Fn(&Drawn) -> f64) -> Strands {
    let order = Order::of(pattern);
    let levels: Vec<Levels> = scene.rings.iter().map(|r| Levels::of(r, scene)).collect();
    let mut cuts: Vec<Vec<(f64, f64)>> = vec![Vec::new(); scene.rings.len()];
    let mut open = false;
    for (i, (ring, ring_levels)) in scene.rings.iter().zip(&levels).enumerate() {
        for (j, (other, other_levels)) in scene.rings.iter().zip(&levels).enumerate().skip(i + 1) {
            for (at, other_at) in ring.curve.crossings(&other.curve) {
                let (one, two) =
                    (End { ring, levels: ring_levels, at }, End { ring: other, levels: other_levels, at: other_at });
                let over = order.over(&one, &two);
                let (lower, number, width) = match over {
                    Some(true) => (&two, j, width(ring)),
                    Some(false) => (&one, i, width(other)),
                    None => {
                        open |= ring.look == Look::Circle || ring_levels.front(at);
                        continue;
                    }
                };
                let (speed, other_speed) = (one.ring.curve.speed(at), two.ring.curve.speed(other_at));
                let sine = (speed.cross(other_speed) / (length(speed) * length(other_speed)).max(1e-9)).abs();
                let own = length(lower.ring.curve.speed(lower.at)).max(1e-6);
                let half = (width / 2.0 / sine.max(0.35) / own).min(0.3);
                if let Some(cuts) = cuts.get_mut(number) {
                    cuts.push((lower.at - half, lower.at + half));
                }
            }
        }
    }
    let strands =
        scene.rings.iter().zip(&levels).zip(cuts).map(|((ring, levels), cuts)| levels.strand(ring, cuts)).collect();
    Strands { strands, open }
}

/// Where a curve is in front of the rows.
struct Levels {
    /// Places on the curve, and whether it is in front from there up to the next one.
    changes: Vec<(f64, bool)>,
}

impl Levels {
    /// A ring that has gone down is behind, and one that has come up is in front. Between two threadings of the same way it
    /// has to come back; it does so outside all circles.
    fn of(ring: &Drawn, scene: &Scene) -> Self {
        let mut changes = Vec::new();
        if ring.look == Look::Circle {
            return Self { changes };
        }
        let next = ring.goes.iter().cycle().skip(1);
        for (number, ((at, way), (next, next_way))) in ring.goes.iter().zip(next).enumerate() {
            changes.push((*at, *way == Direction::Up));
            if way == next_way {
                let end = if number + 1 == ring.goes.len() { next + ring.curve.end() } else { *next };
                changes.push((in_the_open(ring, scene, *at, end), *way == Direction::Down));
            }
        }
        Self { changes }
    }

    fn front(&self, at: f64) -> bool {
        let before = self.changes.iter().rev().find(|(place, _)| *place <= at);
        before.or(self.changes.last()).is_none_or(|(_, front)| *front)
    }

    fn strand(&self, ring: &Drawn, mut cuts: Vec<(f64, f64)>) -> Strand {
        let end = ring.curve.end();
        let cut = !cuts.is_empty();
        cuts.sort_by(|a, b| a.0.total_cmp(&b.0));
        // Everything between the cuts, starting at the end of one of them so that no part is split.
        let start = cuts.first().map_or(0.0, |c| c.1);
        let mut parts = Vec::new();
        let mut here = start;
        for (from, to) in cuts.iter().skip(1).copied().chain(cuts.first().map(|c| (c.0 + end, c.1 + end))) {
            // A scrap between two cuts shows nothing.
            let scrap = length(ring.curve.at(from) - ring.curve.at(here)) < SCRAP && from - here < 0.5;
            if from > here && !scrap {
                parts.push((here, from));
            }
            here = here.max(to);
        }
        if cuts.is_empty() {
            parts.push((0.0, end));
        }
        let mut strand = Strand { front: Vec::new(), behind: Vec::new(), cut };
        let mut changes: Vec<f64> = self.changes.iter().flat_map(|(at, _)| [*at - end, *at, *at + end]).collect();
        changes.sort_by(f64::total_cmp);
        for (from, to) in parts {
            let mut here = from;
            let inside = changes.iter().copied().filter(|c| *c > from && *c < to);
            for stop in inside.chain([to]) {
                let side = if self.front((f64::midpoint(here, stop)).rem_euclid(end.max(1.0))) {
                    &mut strand.front
                } else {
                    &mut strand.behind
                };
                match side.last_mut() {
                    Some(last) if (last.1 - here).abs() < 1e-9 => last.1 = stop,
                    _ => side.push((here, stop)),
                }
                here = stop;
            }
        }
        strand
    }
}

/// The place between two others that is farthest outside all circles.
fn in_the_open(ring: &Drawn, scene: &Scene, from: f64, to: f64) -> f64 {
    let outside = |at: f64| {
        let here = ring.curve.at(at);
        let circles = scene.rings.iter().filter_map(|r| r.centre);
        circles.map(|c| length(here - c) - scene.radius).fold(scene.radius, f64::min)
    };
    let places = (1..32).map(|i| from + (to - from) * f64::from(i) / 32.0);
    let best = places.max_by(|a, b| outside(*a).total_cmp(&outside(*b)));
    best.unwrap_or(f64::midpoint(from, to)).rem_euclid(ring.curve.end().max(1.0))
}

/// A crossing, from the side of one of its two rings.
struct End<'s> {
    ring: &'s Drawn,
    levels: &'s Levels,
    at: f64,
}

/// What the text says of rings that are not linked.
struct Order {
    /// Of two families the one that lies over, the one under it, and the shift from the one to the other.
    over: BTreeSet<(FamilyId, FamilyId, Shift)>,
}

impl Order {
    fn of(pattern: &Pattern) -> Self {
        let mut over = BTreeSet::new();
        for lying in &pattern.lying {
            let (Lies::Over(upper, lower) | Lies::Behind(lower, upper)) = &lying.lies else { continue };
            let away = lower.offset - upper.offset;
            over.insert((upper.family, lower.family, away));
        }
        Self { over }
    }

    fn says(&self, upper: Name, lower: Name) -> bool {
        self.over.contains(&(upper.0, lower.0, lower.1 - upper.1))
    }

    /// Whether the first of two rings lies over the second where they cross; none where the text leaves it open.
    fn over(&self, one: &End, two: &End) -> Option<bool> {
        let (a, b) = (one.ring, two.ring);
        let goes = |x: &Drawn, y: &Drawn| x.through.iter().find(|(n, _)| *n == y.name).map(|(_, way)| *way);
        let way = goes(a, b).or_else(|| goes(b, a));
        match (a.look, b.look) {
            // A ring that goes down through another comes in over its wire and leaves under it.
            (Look::Circle, Look::Circle) | (Look::Loop, Look::Loop) if way.is_some() => {
                way.map(|way| enters(one, two) == (way == Direction::Down))
            }
            _ if self.says(a.name, b.name) => Some(true),
            _ if self.says(b.name, a.name) => Some(false),
            (Look::Circle, Look::Circle) => None,
            (Look::Loop, Look::Circle) => Some(one.levels.front(one.at)),
            (Look::Circle, Look::Loop) => Some(!two.levels.front(two.at)),
            (Look::Loop, Look::Loop) => {
                let (front, other) = (one.levels.front(one.at), two.levels.front(two.at));
                (front != other).then_some(front)
            }
        }
    }
}

/// Whether the first ring's way leads into the second at their crossing. Ways run clockwise, so the inside is on the right.
fn enters(one: &End, two: &End) -> bool {
    let (way, other) = (one.ring.curve.speed(one.at), two.ring.curve.speed(two.at));
    way.dot(Vec2::new(-other.y, other.x)) > 0.0
}
