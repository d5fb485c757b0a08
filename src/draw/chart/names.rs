//! The names of rings on the chart, each where it fits best.

use super::choice::Role;
use super::curve::Curve;
use super::description::short_ring_name;
use super::layout::Look;
use super::scene::{Drawn, Scene};
use crate::draw::lettering::width;
use crate::draw::plane::{direction, length, middle, number};
use crate::notation::Side;
use crate::pattern::{Lattice, Lies, Pattern};
use kurbo::{Point, Vec2};

/// Height of a ring's name in mm, and the most letters of its family's name.
pub const NAME_SIZE: f64 = 3.3;
const LONGEST_NAME: usize = 12;
/// Clear space round a name in mm that is enough.
const CLEAR: f64 = 1.4;

/// A ring's name and its place.
pub struct Label {
    /// The name, cut if it is very long.
    pub text: String,
    /// Middle of the words.
    pub at: Point,
    /// Half width and half height.
    pub half: Vec2,
    /// What the ring is to the repeat.
    pub role: Role,
}

/// The names of the rings of the repeat, and of those they go through, where there is most room.
pub fn labels(pattern: &Pattern, scene: &Scene, room: f64) -> Vec<Label> {
    let mut rings: Vec<&Drawn> = scene.rings.iter().filter(|r| r.role != Role::Neighbour).collect();
    rings.sort_by_key(|r| std::cmp::Reverse(r.role));
    let mut labels: Vec<Label> = Vec::new();
    for ring in rings {
        let text = short_ring_name(pattern, ring.name, LONGEST_NAME);
        let half = Vec2::new(width(&text, NAME_SIZE) / 2.0 + 0.2, NAME_SIZE * 0.45);
        let search = Search { scene, labels: &labels, ring, half, outwards: outwards(pattern, scene, ring) };
        if let Some(at) = search.best(room) {
            labels.push(Label { text, at, half, role: ring.role });
        }
    }
    labels
}

/// On which side of a ring its name should be: below a circle and above a loop; where loops lie on the near side, the other
/// way round. In a unit and in the first row of a sheet it is on the outside.
fn outwards(pattern: &Pattern, scene: &Scene, ring: &Drawn) -> Vec2 {
    let near = pattern.lying.iter().any(|l| matches!(l.lies, Lies::On(_, Side::Near)));
    let down = Vec2::new(0.0, if near { -1.0 } else { 1.0 });
    let from_middle = middle(ring.curve.samples()) - scene.bounds().center();
    match (pattern.lattice, ring.look) {
        (Lattice::Unit, _) => direction(from_middle).unwrap_or(down),
        (Lattice::Sheet, Look::Circle) if from_middle.y < -0.5 * scene.radius => -down,
        (_, Look::Circle) => down,
        (_, Look::Loop) => -down,
    }
}

/// The search for the place of one ring's name.
struct Search<'s> {
    scene: &'s Scene,
    labels: &'s [Label],
    ring: &'s Drawn,
    half: Vec2,
    outwards: Vec2,
}

impl Search<'_> {
    /// The best place within `room` mm; none where the name would lie on another or on a mark.
    fn best(&self, room: f64) -> Option<Point> {
        let centre = self.scene.bounds().center().x;
        let mut best = (f64::MIN, None);
        for (at, cost) in candidates(&self.ring.curve, self.half) {
            let covered = self.covered(at);
            if (at.x - centre).abs() + self.half.x > room / 2.0 || covered < -0.8 {
                continue;
            }
            let value = self.value(at) + 12.0 * covered - cost;
            if value > best.0 {
                best = (value, Some(at));
            }
        }
        best.1
    }

    /// How far a name here would lie on marks and other names: 0 or below.
    fn covered(&self, at: Point) -> f64 {
        let marks = self.scene.marks.iter().map(|m| apart(at, self.half, m.at, Vec2::new(1.8, 1.8)));
        let names = self.labels.iter().map(|l| apart(at, self.half, l.at, l.half) + 0.3);
        marks.chain(names).map(|c| c - 0.5).fold(0.0, f64::min)
    }

    fn value(&self, at: Point) -> f64 {
        let reach = length(self.half + Vec2::new(CLEAR, CLEAR));
        let to = |r: &Drawn| {
            let samples = r.curve.samples().iter();
            samples.map(|p| apart(at, self.half, *p, Vec2::ZERO)).fold(f64::MAX, f64::min)
        };
        let others = self.scene.rings.iter().filter(|r| r.name != self.ring.name);
        let own = to(self.ring);
        let mut clear = CLEAR.min(own);
        let mut strange = 0.0;
        let mut stray = 0.0;
        for other in others.filter(|r| r.curve.beyond(at) < reach) {
            let distance = to(other);
            clear = clear.min(distance);
            if surrounds(other, at) {
                strange += 1.0;
            }
            // People take a name for that of the nearest ring.
            if distance + 0.2 < own && other.role != Role::Neighbour {
                stray = 1.5;
            }
        }
        // Inside of rings, people take a name for that of each ring round it.
        let strange = if surrounds(self.ring, at) { 0.8 * strange } else { 3.0 * strange };
        let way = direction(at - middle(self.ring.curve.samples())).unwrap_or_default();
        let liked = way.dot(self.outwards) - 0.3 * way.cross(self.outwards).abs();
        3.0 * clear - strange - stray + 0.7 * liked
    }
}

/// Whether a point lies inside a ring, if that ring matters to names.
fn surrounds(ring: &Drawn, at: Point) -> bool {
    let matters = ring.look == Look::Circle || ring.role != Role::Neighbour;
    matters && ring.curve.beyond(at) <= 0.0 && ring.curve.depth(at) > 0.0
}

/// Places for a name, and what each costs: all round a ring, outside and inside, and in its middle.
fn candidates(curve: &Curve, half: Vec2) -> Vec<(Point, f64)> {
    let centre = middle(curve.samples());
    let mut found = vec![(centre, 0.4)];
    for i in 0..32 {
        let on = curve.at(curve.end() * number(i) / 32.0);
        let out = direction(on - centre).unwrap_or(Vec2::new(0.0, 1.0));
        let reach = out.x.abs() * half.x + out.y.abs() * half.y + 1.7;
        found.extend([(0.0, 0.0), (1.5, 0.3), (3.0, 0.6)].map(|(more, cost)| (on + out * (reach + more), cost)));
        found.push((on - out * reach, 0.5));
    }
    found
}

/// The distance in mm between two boxes given by middle and half size; below 0 where they overlap.
fn apart(at: Point, half: Vec2, other: Point, other_half: Vec2) -> f64 {
    let x = (at.x - other.x).abs() - half.x - other_half.x;
    let y = (at.y - other.y).abs() - half.y - other_half.y;
    if x > 0.0 && y > 0.0 { length(Vec2::new(x, y)) } else { x.max(y) }
}
