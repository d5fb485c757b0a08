//! The shape of a loop woven through the rows: where its marks want to be, and the way through them.

use super::curve::{Curve, Point, middle, point};
use super::goings::Name;
use super::layout::Layout;
use super::scene::Mark;
use crate::notation::Side;
use crate::pattern::Lattice;

/// How far a loop's mark is drawn towards the loop's middle, in radii: in an eye along the eye only.
pub fn inwards(way: Point, through: &[Name], layout: &Layout) -> Point {
    let way = way.unit_or(Point::default());
    match through {
        [first, .., last] => {
            let apart = layout.at(*last).minus(layout.at(*first)).unit_or(point(1.0, 0.0));
            let along = point(-apart.y, apart.x);
            along.times((way.x * along.x + way.y * along.y) * 0.3)
        }
        _ => way.times(0.4),
    }
}

/// Which way to draw aside a mark that lies in line between others, so that the loop can come back.
pub fn beside(at: Point, all: &[Point], before: usize) -> Point {
    let (low, high) = Curve::bounds_of(all);
    let wide = high.x - low.x > high.y - low.y;
    let flat = all.len() > 2 && (high.x - low.x).min(high.y - low.y) < 0.05 * (high.x - low.x).max(high.y - low.y);
    let inner =
        if wide { at.x > low.x + 1e-6 && at.x < high.x - 1e-6 } else { at.y > low.y + 1e-6 && at.y < high.y - 1e-6 };
    let way = if before.is_multiple_of(2) { 1.0 } else { -1.0 };
    match (flat && inner, wide) {
        (false, _) => Point::default(),
        (true, true) => point(0.0, way),
        (true, false) => point(way, 0.0),
    }
}

/// A loop through marks, clockwise; the marks come into the order of its way.
pub fn loop_through(marks: &mut [Mark], radius: f64, side: Option<Side>, lattice: Lattice) -> Curve {
    let points: Vec<Point> = marks.iter().map(|m| m.at).collect();
    let centre = middle(&points);
    match points.as_slice() {
        [] => Curve::circle(Point::default(), radius),
        [only] => {
            let up = if side == Some(Side::Near) { 1.0 } else { -1.0 };
            Curve::oval(*only, only.plus(point(0.0, up * 1.5 * radius)), 0.5 * radius, 0.5 * radius)
        }
        [_, _] => {
            // From the left one of a pair to the right one; from the upper to the lower.
            marks.sort_by(|a, b| {
                let steep = (a.at.x - b.at.x).abs() < 0.3 * (a.at.y - b.at.y).abs();
                if steep { a.at.y.total_cmp(&b.at.y) } else { a.at.x.total_cmp(&b.at.x) }
            });
            let (from, to) = (marks.first().map_or(centre, |m| m.at), marks.last().map_or(centre, |m| m.at));
            let most = if lattice == Lattice::Sheet { 0.55 } else { 0.75 };
            let round = (0.42 * to.minus(from).length()).clamp(0.3 * radius, most * radius);
            let high = 0.3 * (radius + to.minus(from).length());
            let (left, right) = match side {
                Some(Side::Far) => (high, 0.3 * radius),
                Some(Side::Near) => (0.3 * radius, high),
                None => (round, round),
            };
            Curve::oval(from, to, left, right)
        }
        _ => {
            let angle = |m: &Mark| libm::atan2(m.at.y - centre.y, m.at.x - centre.x);
            marks.sort_by(|a, b| angle(a).total_cmp(&angle(b)));
            let mut points: Vec<Point> = marks.iter().map(|m| m.at).collect();
            if let Some((after, back)) = way_back(&points, radius) {
                points.insert(after, back);
            }
            Curve::through(&points)
        }
    }
}

/// Three marks nearly in line leave no room to come back: a point opposite the middle one makes it, to
/// be put at this place in the way.
fn way_back(points: &[Point], radius: f64) -> Option<(usize, Point)> {
    let [one, two, three] = points else { return None };
    let corners = [(*one, *two, *three), (*two, *three, *one), (*three, *one, *two)];
    let sharp = corners.iter().position(|(before, at, after)| {
        let (a, b) = (before.minus(*at), after.minus(*at));
        a.x * b.x + a.y * b.y < -0.5 * a.length() * b.length()
    })?;
    let (before, at, after) = corners.get(sharp)?;
    let across = before.plus(*after).times(0.5);
    let away = across.minus(*at).unit_or(point(0.0, 1.0));
    // The middle mark is the one after `sharp` in turn; the way back runs between the other two.
    Some(((sharp + 2) % 3 + 1, across.plus(away.times(0.5 * radius))))
}
