//! The shape of a loop woven through the rows: where its marks should lie, and the way through them.

use super::curve::Curve;
use super::layout::Layout;
use super::scene::Mark;
use super::threadings::Name;
use crate::draw::plane::{bounds, direction, length, middle};
use crate::notation::Side;
use crate::pattern::Lattice;
use kurbo::{Point, Vec2};

/// How far a mark moves towards the middle of its loop, in radii. In an eye it moves along the eye only.
pub fn inwards(towards: Vec2, through: &[Name], layout: &Layout) -> Vec2 {
    let towards = direction(towards).unwrap_or_default();
    match through {
        [first, .., last] => {
            let apart = direction(layout.at(*last) - layout.at(*first)).unwrap_or(Vec2::new(1.0, 0.0));
            let along = Vec2::new(-apart.y, apart.x);
            along * (towards.dot(along) * 0.3)
        }
        _ => towards * 0.4,
    }
}

/// Which way to move a mark that lies on a line between others, so that the loop can come back. `before` marks have a place
/// already; marks move to either side in turn.
pub fn beside(at: Point, all: &[Point], before: usize) -> Vec2 {
    let around = bounds(all);
    let (width, height) = (around.width(), around.height());
    let wide = width > height;
    let flat = all.len() > 2 && width.min(height) < 0.05 * width.max(height);
    let inner = if wide {
        at.x > around.x0 + 1e-6 && at.x < around.x1 - 1e-6
    } else {
        at.y > around.y0 + 1e-6 && at.y < around.y1 - 1e-6
    };
    let way = if before.is_multiple_of(2) { 1.0 } else { -1.0 };
    match (flat && inner, wide) {
        (false, _) => Vec2::ZERO,
        (true, true) => Vec2::new(0.0, way),
        (true, false) => Vec2::new(way, 0.0),
    }
}

/// A clockwise loop through marks; sorts the marks into the order of its way.
pub fn loop_through(marks: &mut [Mark], radius: f64, side: Option<Side>, lattice: Lattice) -> Curve {
    let points: Vec<Point> = marks.iter().map(|m| m.at).collect();
    let centre = middle(&points);
    match points.as_slice() {
        [] => Curve::circle(Point::ZERO, radius),
        [only] => {
            let up = if side == Some(Side::Near) { 1.0 } else { -1.0 };
            Curve::oval(*only, *only + Vec2::new(0.0, up * 1.5 * radius), [0.5 * radius, 0.5 * radius])
        }
        [_, _] => {
            // From the left one of a pair to the right one; from the upper to the lower.
            marks.sort_by(|a, b| {
                let steep = (a.at.x - b.at.x).abs() < 0.3 * (a.at.y - b.at.y).abs();
                if steep { a.at.y.total_cmp(&b.at.y) } else { a.at.x.total_cmp(&b.at.x) }
            });
            let (from, to) = (marks.first().map_or(centre, |m| m.at), marks.last().map_or(centre, |m| m.at));
            let most = if lattice == Lattice::Sheet { 0.55 } else { 0.75 };
            let round = (0.42 * length(to - from)).clamp(0.3 * radius, most * radius);
            let high = 0.3 * (radius + length(to - from));
            let heights = match side {
                Some(Side::Far) => [high, 0.3 * radius],
                Some(Side::Near) => [0.3 * radius, high],
                None => [round, round],
            };
            Curve::oval(from, to, heights)
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

/// Three marks nearly in line leave no room to come back. A point opposite the middle mark makes room; the number says where
/// in the way it belongs.
fn way_back(points: &[Point], radius: f64) -> Option<(usize, Point)> {
    let [one, two, three] = points else { return None };
    let corners = [(*one, *two, *three), (*two, *three, *one), (*three, *one, *two)];
    let sharp = corners.iter().position(|(before, at, after)| {
        let (a, b) = (*before - *at, *after - *at);
        a.dot(b) < -0.5 * length(a) * length(b)
    })?;
    let (before, at, after) = corners.get(sharp)?;
    let across = before.midpoint(*after);
    let away = direction(across - *at).unwrap_or(Vec2::new(0.0, 1.0));
    // The middle mark is the one after `sharp` in turn; the way back runs between the other two.
    Some(((sharp + 2) % 3 + 1, across + away * (0.5 * radius)))
}
