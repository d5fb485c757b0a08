//! Points and closed curves. Every ring of a chart is a closed curve of cubic pieces that runs
//! clockwise, as a ring's path runs when its front faces the maker. Lengths in mm, y downwards.

use crate::draw::mm;
use std::fmt::Write;

/// A point or a shift.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Point {
    /// To the right.
    pub x: f64,
    /// Downwards.
    pub y: f64,
}

/// A point from its two coordinates.
pub const fn point(x: f64, y: f64) -> Point {
    Point { x, y }
}

impl Point {
    /// Sum.
    pub fn plus(self, other: Self) -> Self {
        point(self.x + other.x, self.y + other.y)
    }

    /// Difference.
    pub fn minus(self, other: Self) -> Self {
        point(self.x - other.x, self.y - other.y)
    }

    /// Multiple.
    pub fn times(self, factor: f64) -> Self {
        point(self.x * factor, self.y * factor)
    }

    /// Length as a shift.
    pub fn length(self) -> f64 {
        libm::hypot(self.x, self.y)
    }

    /// The same direction with length 1; no direction at all becomes `otherwise`.
    pub fn unit_or(self, otherwise: Self) -> Self {
        let length = self.length();
        if length < 1e-9 { otherwise } else { self.times(1.0 / length) }
    }
}

/// The middle of some points; the origin where there are none.
pub fn middle(points: &[Point]) -> Point {
    let sum = points.iter().fold(Point::default(), |sum, p| sum.plus(*p));
    sum.times(1.0 / number(points.len().max(1)))
}

/// A small count as a number.
pub fn number(count: usize) -> f64 {
    f64::from(u32::try_from(count).unwrap_or(u32::MAX))
}

/// How far along its tangent a cubic's control point lies to follow a quarter circle of radius 1.
const QUARTER: f64 = 0.552_284_75;
/// Sample points on each piece, for crossings and distances.
const STEPS: u32 = 16;

/// A closed clockwise curve of cubic pieces. A place on it is a number: piece and part of the piece.
#[derive(Clone, Debug, Default)]
pub struct Curve {
    pieces: Vec<[Point; 4]>,
    samples: Vec<Point>,
    bounds: (Point, Point),
}

impl Curve {
    fn of(pieces: Vec<[Point; 4]>) -> Self {
        let mut curve = Self { pieces, ..Self::default() };
        let count = u32::try_from(curve.pieces.len()).unwrap_or(0);
        curve.samples = (0..count * STEPS).map(|s| curve.at(f64::from(s) / f64::from(STEPS))).collect();
        curve.bounds = Self::bounds_of(&curve.samples);
        curve
    }

    /// A circle, from its leftmost point.
    pub fn circle(centre: Point, radius: f64) -> Self {
        let side = point(radius, 0.0);
        Self::oval(centre.minus(side), centre.plus(side), radius, radius)
    }

    /// From `from` to `to` and back in two half ellipses: `left` high on the left hand of the way, and
    /// `right` high on its right hand. Going to the right, left is up.
    pub fn oval(from: Point, to: Point, left: f64, right: f64) -> Self {
        let half = to.minus(from).times(0.5);
        let along = half.unit_or(point(1.0, 0.0));
        let out = point(along.y, -along.x);
        let centre = from.plus(half);
        let (up, down) = (out.times(left), out.times(-right));
        let (top, bottom) = (centre.plus(up), centre.plus(down));
        let (up, down, half) = (up.times(QUARTER), down.times(QUARTER), half.times(QUARTER));
        Self::of(vec![
            [from, from.plus(up), top.minus(half), top],
            [top, top.plus(half), to.plus(up), to],
            [to, to.plus(down), bottom.plus(half), bottom],
            [bottom, bottom.minus(half), from.plus(down), from],
        ])
    }

    /// A smooth curve through points given in order.
    pub fn through(points: &[Point]) -> Self {
        let count = points.len();
        let get = |i: usize| points.get(i % count.max(1)).copied().unwrap_or_default();
        let tangent = |i: usize| get(i + 1).minus(get(i + count - 1)).unit_or(point(1.0, 0.0));
        let piece = |i: usize| {
            let (start, end) = (get(i), get(i + 1));
            // 0.39 of the way between two points follows a circle through four of them.
            let reach = end.minus(start).length() * 0.39;
            [start, start.plus(tangent(i).times(reach)), end.minus(tangent(i + 1).times(reach)), end]
        };
        Self::of((0..count).map(piece).collect())
    }

    /// The same curve elsewhere.
    #[must_use]
    pub fn moved(&self, by: Point) -> Self {
        let pieces = self.pieces.iter().map(|p| p.map(|q| q.plus(by))).collect();
        let (low, high) = self.bounds;
        Self {
            pieces,
            samples: self.samples.iter().map(|p| p.plus(by)).collect(),
            bounds: (low.plus(by), high.plus(by)),
        }
    }

    /// Where the curve closes: places run from 0 to here.
    pub fn end(&self) -> f64 {
        number(self.pieces.len())
    }

    /// Points all along it.
    pub fn samples(&self) -> &[Point] {
        &self.samples
    }

    fn piece(&self, place: f64) -> ([Point; 4], f64) {
        let wrapped = place.rem_euclid(self.end().max(1.0));
        let mut piece = 0;
        while number(piece + 1) <= wrapped && piece + 1 < self.pieces.len() {
            piece += 1;
        }
        (self.pieces.get(piece).copied().unwrap_or_default(), wrapped - number(piece))
    }

    /// The point at a place.
    pub fn at(&self, place: f64) -> Point {
        let (piece, t) = self.piece(place);
        split(piece, t).0[3]
    }

    /// The speed at a place: mm for one piece, in the direction of the way.
    pub fn speed(&self, place: f64) -> Point {
        self.at(place + 0.01).minus(self.at(place - 0.01)).times(50.0)
    }

    /// The place nearest to a point.
    pub fn nearest(&self, to: Point) -> f64 {
        let best =
            self.samples.iter().enumerate().min_by(|a, b| a.1.minus(to).length().total_cmp(&b.1.minus(to).length()));
        best.map_or(0.0, |(i, _)| number(i) / f64::from(STEPS))
    }

    /// The part from one place to a later one, as the data of a path.
    pub fn part(&self, from: f64, to: f64) -> String {
        let pair = |p: Point| format!("{} {}", mm(p.x), mm(p.y));
        let mut data = format!("M{}", pair(self.at(from)));
        let mut here = from;
        while here < to - 1e-6 {
            let next = (libm::floor(here + 1e-6) + 1.0).min(to);
            let (piece, t) = self.piece(here + 1e-7);
            let late = split(piece, t).1;
            let rest = (1.0 - t).max(1e-9);
            let [_, one, two, end] = split(late, ((next - here) / rest).min(1.0)).0;
            let _ = write!(data, " C{} {} {}", pair(one), pair(two), pair(end));
            here = next;
        }
        data
    }

    /// The whole of it, as the data of a path.
    pub fn whole(&self) -> String {
        format!("{} Z", self.part(0.0, self.end()))
    }

    fn sides(&self) -> impl Iterator<Item = (f64, Point, Point)> {
        let next = self.samples.iter().cycle().skip(1);
        self.samples.iter().zip(next).enumerate().map(|(i, (a, b))| (number(i) / f64::from(STEPS), *a, *b))
    }

    /// The box round it: least and greatest corner.
    pub fn bounds(&self) -> (Point, Point) {
        self.bounds
    }

    /// How far a point is from the box round it; 0 inside.
    pub fn beyond(&self, of: Point) -> f64 {
        let (low, high) = self.bounds;
        let out = |low: f64, at: f64, high: f64| (low - at).max(at - high).max(0.0);
        libm::hypot(out(low.x, of.x, high.x), out(low.y, of.y, high.y))
    }

    /// The box round some points: least and greatest corner.
    pub fn bounds_of(points: &[Point]) -> (Point, Point) {
        points.iter().fold((point(f64::MAX, f64::MAX), point(f64::MIN, f64::MIN)), |(low, high), p| {
            (point(low.x.min(p.x), low.y.min(p.y)), point(high.x.max(p.x), high.y.max(p.y)))
        })
    }

    /// Where two curves cross: the place on this one and on the other.
    pub fn crossings(&self, other: &Self) -> Vec<(f64, f64)> {
        let (low, high) = self.bounds();
        let (other_low, other_high) = other.bounds();
        if low.x > other_high.x || other_low.x > high.x || low.y > other_high.y || other_low.y > high.y {
            return Vec::new();
        }
        let mut found = Vec::new();
        for (place, a, b) in self.sides() {
            let way = b.minus(a);
            for (other_place, c, d) in other.sides() {
                let other_way = d.minus(c);
                let turn = cross(way, other_way);
                if turn.abs() < 1e-12 {
                    continue;
                }
                let apart = c.minus(a);
                let (s, t) = (cross(apart, other_way) / turn, cross(apart, way) / turn);
                if (0.0..1.0).contains(&s) && (0.0..1.0).contains(&t) {
                    found.push((place + s / f64::from(STEPS), other_place + t / f64::from(STEPS)));
                }
            }
        }
        found
    }

    /// How deep a point lies inside, in mm; below 0 outside.
    pub fn depth(&self, of: Point) -> f64 {
        let mut inside = false;
        let mut nearest = f64::MAX;
        for (_, a, b) in self.sides() {
            let way = b.minus(a);
            let along = of.minus(a);
            let t = (along.x * way.x + along.y * way.y) / (way.x * way.x + way.y * way.y).max(1e-12);
            nearest = nearest.min(of.minus(a.plus(way.times(t.clamp(0.0, 1.0)))).length());
            if (a.y > of.y) != (b.y > of.y) && of.x < a.x + (of.y - a.y) / (b.y - a.y) * way.x {
                inside = !inside;
            }
        }
        if inside { nearest } else { -nearest }
    }
}

/// The turn from one direction to another, times their lengths.
pub fn cross(a: Point, b: Point) -> f64 {
    a.x * b.y - a.y * b.x
}

/// A cubic in two, at part `t` of it (de Casteljau).
fn split([start, one, two, end]: [Point; 4], t: f64) -> ([Point; 4], [Point; 4]) {
    let between = |from: Point, to: Point| from.plus(to.minus(from).times(t));
    let (first, second, third) = (between(start, one), between(one, two), between(two, end));
    let (before, after) = (between(first, second), between(second, third));
    let on = between(before, after);
    ([start, first, before, on], [on, after, third, end])
}
