//! The closed curves that rings are drawn as: cubic pieces that run clockwise, as a ring's path runs when its front faces the
//! maker. Lengths in mm, y downwards.
//!
//! Of kurbo this uses sums, products and square roots only, so that the same text gives the same bytes on every machine.

use crate::draw::plane::{bounds, direction, length, number};
use kurbo::{BezPath, CubicBez, Line, ParamCurve, ParamCurveNearest, Point, Rect, Vec2};

/// How far along its tangent a cubic's control point lies to follow a quarter circle of radius 1.
const QUARTER: f64 = 0.552_284_75;
/// Sample points on each piece, for crossings and distances.
const STEPS: u32 = 16;

/// A closed clockwise curve. A place on it is a number: the number of a piece and the part of the piece.
#[derive(Clone, Debug, Default)]
pub struct Curve {
    pieces: Vec<CubicBez>,
    samples: Vec<Point>,
    bounds: Rect,
}

impl Curve {
    fn of(pieces: Vec<CubicBez>) -> Self {
        let part = |step: u32| f64::from(step) / f64::from(STEPS);
        let samples: Vec<Point> = pieces.iter().flat_map(|p| (0..STEPS).map(move |s| on(*p, part(s)))).collect();
        Self { bounds: bounds(&samples), pieces, samples }
    }

    /// A circle, from its leftmost point.
    pub fn circle(centre: Point, radius: f64) -> Self {
        let side = Vec2::new(radius, 0.0);
        Self::oval(centre - side, centre + side, [radius, radius])
    }

    /// From `from` to `to` and back in two half ellipses. Their heights are given: that on the left hand of the way first.
    /// Threading to the right, left is up.
    pub fn oval(from: Point, to: Point, [left, right]: [f64; 2]) -> Self {
        let half = (to - from) * 0.5;
        let along = direction(half).unwrap_or(Vec2::new(1.0, 0.0));
        let out = Vec2::new(along.y, -along.x);
        let centre = from + half;
        let (up, down) = (out * left, out * -right);
        let (top, bottom) = (centre + up, centre + down);
        let (up, down, half) = (up * QUARTER, down * QUARTER, half * QUARTER);
        Self::of(vec![
            CubicBez::new(from, from + up, top - half, top),
            CubicBez::new(top, top + half, to + up, to),
            CubicBez::new(to, to + down, bottom + half, bottom),
            CubicBez::new(bottom, bottom - half, from + down, from),
        ])
    }

    /// A smooth curve through points given in order.
    pub fn through(points: &[Point]) -> Self {
        let count = points.len();
        let get = |i: usize| points.get(i % count.max(1)).copied().unwrap_or_default();
        let tangent = |i: usize| direction(get(i + 1) - get(i + count - 1)).unwrap_or(Vec2::new(1.0, 0.0));
        let piece = |i: usize| {
            let (start, end) = (get(i), get(i + 1));
            // 0.39 of the way between two points follows a circle through four of them.
            let reach = length(end - start) * 0.39;
            CubicBez::new(start, start + tangent(i) * reach, end - tangent(i + 1) * reach, end)
        };
        Self::of((0..count).map(piece).collect())
    }

    /// The same curve elsewhere.
    #[must_use]
    pub fn moved(&self, by: Vec2) -> Self {
        let piece = |p: &CubicBez| CubicBez::new(p.p0 + by, p.p1 + by, p.p2 + by, p.p3 + by);
        Self {
            pieces: self.pieces.iter().map(piece).collect(),
            samples: self.samples.iter().map(|p| *p + by).collect(),
            bounds: self.bounds + by,
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

    /// The box round it.
    pub fn bounds(&self) -> Rect {
        self.bounds
    }

    /// The piece a place is on, and the part of it.
    fn piece(&self, place: f64) -> (CubicBez, f64) {
        let wrapped = place.rem_euclid(self.end().max(1.0));
        let number_of = (1..self.pieces.len()).take_while(|piece| number(*piece) <= wrapped).count();
        let piece = self.pieces.get(number_of).copied();
        (
            piece.unwrap_or(CubicBez::new(Point::ZERO, Point::ZERO, Point::ZERO, Point::ZERO)),
            wrapped - number(number_of),
        )
    }

    /// The point at a place.
    pub fn at(&self, place: f64) -> Point {
        let (piece, part) = self.piece(place);
        on(piece, part)
    }

    /// The direction of the way at a place; its length is the speed in mm a piece.
    pub fn speed(&self, place: f64) -> Vec2 {
        (self.at(place + 0.01) - self.at(place - 0.01)) * 50.0
    }

    /// The place nearest to a point.
    pub fn nearest(&self, to: Point) -> f64 {
        let best = self.samples.iter().enumerate().min_by(|a, b| length(*a.1 - to).total_cmp(&length(*b.1 - to)));
        best.map_or(0.0, |(i, _)| number(i) / f64::from(STEPS))
    }

    /// The part from one place to a later one.
    pub fn part(&self, from: f64, to: f64) -> BezPath {
        let mut path = BezPath::new();
        path.move_to(self.at(from));
        let mut here = from;
        while here < to - 1e-6 {
            let next = (libm::floor(here + 1e-6) + 1.0).min(to);
            let (piece, part) = self.piece(here + 1e-7);
            let cubic = piece.subsegment(part..(part + next - here).min(1.0));
            path.curve_to(cubic.p1, cubic.p2, cubic.p3);
            here = next;
        }
        path
    }

    /// The whole of it.
    pub fn whole(&self) -> BezPath {
        let mut path = self.part(0.0, self.end());
        path.close_path();
        path
    }

    fn sides(&self) -> impl Iterator<Item = (f64, Line)> {
        let next = self.samples.iter().cycle().skip(1);
        let sides = self.samples.iter().zip(next).enumerate();
        sides.map(|(i, (a, b))| (number(i) / f64::from(STEPS), Line::new(*a, *b)))
    }

    /// How far a point is from the box round the curve; 0 inside.
    pub fn beyond(&self, of: Point) -> f64 {
        let out = |low: f64, at: f64, high: f64| (low - at).max(at - high).max(0.0);
        let Rect { x0, y0, x1, y1 } = self.bounds;
        length(Vec2::new(out(x0, of.x, x1), out(y0, of.y, y1)))
    }

    /// Where two curves cross: the place on this one and on the other.
    pub fn crossings(&self, other: &Self) -> Vec<(f64, f64)> {
        let mut found = Vec::new();
        if !self.bounds.overlaps(other.bounds) {
            return found;
        }
        for (place, side) in self.sides() {
            let way = side.p1 - side.p0;
            for (other_place, other_side) in other.sides() {
                let other_way = other_side.p1 - other_side.p0;
                let turn = way.cross(other_way);
                if turn.abs() < 1e-12 {
                    continue;
                }
                let apart = other_side.p0 - side.p0;
                let (s, t) = (apart.cross(other_way) / turn, apart.cross(way) / turn);
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
        for (_, side) in self.sides() {
            let Line { p0: a, p1: b } = side;
            nearest = nearest.min(length(of - side.eval(side.nearest(of, 0.0).t)));
            // A ray to the right crosses the outline an odd number of times.
            if (a.y > of.y) != (b.y > of.y) && of.x < a.x + (of.y - a.y) / (b.y - a.y) * (b.x - a.x) {
                inside = !inside;
            }
        }
        if inside { nearest } else { -nearest }
    }
}

/// The point at a part of a cubic, by de Casteljau: mirrored cubics have mirrored points to the last bit, so that places that
/// are equally good stay so.
fn on(CubicBez { p0, p1, p2, p3 }: CubicBez, part: f64) -> Point {
    let (first, second, third) = (p0.lerp(p1, part), p1.lerp(p2, part), p2.lerp(p3, part));
    first.lerp(second, part).lerp(second.lerp(third, part), part)
}
