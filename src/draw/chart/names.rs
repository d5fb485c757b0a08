//! The rings' names on the chart: each where it fits best.

use super::choice::Role;
use super::curve::{Curve, Point, middle, number, point};
use super::layout::Look;
use super::scene::{Drawn, Scene};
use super::words;
use crate::draw::lettering::width;
use crate::notation::Side;
use crate::pattern::{Lattice, Lies, Pattern};

/// Height of a ring's name in mm, and the most letters of its family's name.
pub const NAME_SIZE: f64 = 3.3;
const LONGEST_NAME: usize = 12;
/// Clear space round a name in mm that is enough.
const CLEAR: f64 = 1.4;

/// A ring's name where it fits best.
pub struct Label {
    /// The name, cut if it is very long.
    pub text: String,
    /// Middle of the words.
    pub at: Point,
    /// Half width and half height.
    pub half: Point,
    /// Whether the ring belongs to the repeat.
    pub own: bool,
}

/// Names of the rings of the repeat and of those they pass, set where most room is.
pub fn labels(pattern: &Pattern, scene: &Scene, room: f64) -> Vec<Label> {
    let mut rings: Vec<&Drawn> = scene.rings.iter().filter(|r| r.role != Role::Neighbour).collect();
    rings.sort_by_key(|r| std::cmp::Reverse(r.role));
    let mut labels: Vec<Label> = Vec::new();
    for ring in rings {
        let text = words::short_ring_name(pattern, ring.name, LONGEST_NAME);
        let half = point(width(&text, NAME_SIZE) / 2.0 + 0.2, NAME_SIZE * 0.45);
        let search = Search { scene, labels: &labels, ring, half, outwards: outwards(pattern, scene, ring) };
        if let Some(at) = search.best(room) {
            labels.push(Label { text, at, half, own: ring.role == Role::Own });
        }
    }
    labels
}

/// On which side of a ring its name is looked for: below a row's ring and above a loop, or the other way
/// about where loops lie on the near side; on the outside of a unit and of a sheet's first row.
fn outwards(pattern: &Pattern, scene: &Scene, ring: &Drawn) -> Point {
    let near = pattern.lying.iter().any(|l| matches!(l.lies, Lies::On(_, Side::Near)));
    let down = point(0.0, if near { -1.0 } else { 1.0 });
    let (low, high) = scene.bounds();
    let from_middle = middle(ring.curve.samples()).minus(middle(&[low, high]));
    match (pattern.lattice, ring.look) {
        (Lattice::Unit, _) => from_middle.unit_or(down),
        (Lattice::Sheet, Look::Circle) if from_middle.y < -0.5 * scene.radius => down.times(-1.0),
        (_, Look::Circle) => down,
        (_, Look::Loop) => down.times(-1.0),
    }
}

/// Looking for the place of one ring's name.
struct Search<'s> {
    scene: &'s Scene,
    labels: &'s [Label],
    ring: &'s Drawn,
    half: Point,
    outwards: Point,
}

impl Search<'_> {
    /// The best place within `room` mm; none where the name would lie on another or on a mark.
    fn best(&self, room: f64) -> Option<Point> {
        let (low, high) = self.scene.bounds();
        let centre = f64::midpoint(low.x, high.x);
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
        let marks = self.scene.marks.iter().map(|m| apart(at, self.half, m.at, point(1.8, 1.8)));
        let names = self.labels.iter().map(|l| apart(at, self.half, l.at, l.half) + 0.3);
        marks.chain(names).map(|c| c - 0.5).fold(0.0, f64::min)
    }

    fn value(&self, at: Point) -> f64 {
        let reach = self.half.plus(point(CLEAR, CLEAR)).length();
        let to = |r: &Drawn| {
            let samples = r.curve.samples().iter();
            samples.map(|p| apart(at, self.half, *p, Point::default())).fold(f64::MAX, f64::min)
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
            // A name is read as that of the nearest ring.
            if distance + 0.2 < own && other.role != Role::Neighbour {
                stray = 1.5;
            }
        }
        // Inside of rings, a name is read as that of each ring round it.
        let strange = if surrounds(self.ring, at) { 0.8 * strange } else { 3.0 * strange };
        let way = at.minus(middle(self.ring.curve.samples())).unit_or(Point::default());
        let out = self.outwards;
        let liked = way.x * out.x + way.y * out.y - 0.3 * (way.x * out.y - way.y * out.x).abs();
        3.0 * clear - strange - stray + 0.7 * liked
    }
}

/// Whether a ring that matters to names lies round a point.
fn surrounds(ring: &Drawn, at: Point) -> bool {
    let matters = ring.look == Look::Circle || ring.role != Role::Neighbour;
    matters && ring.curve.beyond(at) <= 0.0 && ring.curve.depth(at) > 0.0
}

/// Places for a name, and what is against each: all round a ring, outside and inside, and in its middle.
fn candidates(curve: &Curve, half: Point) -> Vec<(Point, f64)> {
    let centre = middle(curve.samples());
    let mut found = vec![(centre, 0.4)];
    for i in 0..32 {
        let on = curve.at(curve.end() * number(i) / 32.0);
        let out = on.minus(centre).unit_or(point(0.0, 1.0));
        let reach = out.x.abs() * half.x + out.y.abs() * half.y + 1.7;
        found.extend([(0.0, 0.0), (1.5, 0.3), (3.0, 0.6)].map(|(more, cost)| (on.plus(out.times(reach + more)), cost)));
        found.push((on.minus(out.times(reach)), 0.5));
    }
    found
}

/// Clear distance of two boxes given by middle and half size; below 0 where they overlap.
fn apart(at: Point, half: Point, other: Point, other_half: Point) -> f64 {
    let x = (at.x - other.x).abs() - half.x - other_half.x;
    let y = (at.y - other.y).abs() - half.y - other_half.y;
    if x > 0.0 && y > 0.0 { libm::hypot(x, y) } else { x.max(y) }
}
