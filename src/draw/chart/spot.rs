//! Finds the best place for a mark: inside the rings it goes through, outside all others.

use super::curve::Curve;
use crate::draw::plane::{length, number};
use kurbo::Point;

/// What decides whether a place is good.
pub struct Spot<'s> {
    /// Rings it must lie inside of.
    pub inside: Vec<&'s Curve>,
    /// Rings it should lie outside of.
    pub outside: Vec<&'s Curve>,
    /// Marks that have a place already.
    pub taken: Vec<Point>,
    /// Radius of a circle in mm.
    pub radius: f64,
}

/// Places tried across a ring and down it.
const TRIES: i32 = 24;
/// Room round a mark that is enough, in radii.
const ENOUGH: f64 = 0.25;
/// Room between two marks, in radii.
const BETWEEN: f64 = 0.45;

impl Spot<'_> {
    /// The best place near the wanted one; none where the rings have no place in common.
    pub fn near(&self, wanted: Point) -> Option<Point> {
        let bounds = self.inside.first()?.bounds();
        let mut best = (f64::MIN, wanted);
        for row in 0..=TRIES {
            for column in 0..=TRIES {
                let part = |low: f64, high: f64, step: i32| low + (high - low) * f64::from(step) / f64::from(TRIES);
                self.improve(
                    &mut best,
                    Point::new(part(bounds.x0, bounds.x1, column), part(bounds.y0, bounds.y1, row)),
                    wanted,
                );
            }
        }
        self.improve(&mut best, wanted, wanted);
        self.valid(best.1)
    }

    /// The best place on a curve; none where the curve has no place inside all the rings.
    pub fn on(&self, curve: &Curve) -> Option<Point> {
        let mut best = (f64::MIN, curve.at(0.0));
        for sample in curve.samples() {
            let depths = |curves: &[&Curve]| curves.iter().map(|c| c.depth(*sample) / self.radius).collect::<Vec<_>>();
            let (inside, outside) = (depths(&self.inside), depths(&self.outside));
            let deep = inside.iter().copied().fold(ENOUGH, f64::min);
            let clear = outside.iter().map(|d| d.abs()).fold(deep, f64::min);
            let strange = number(outside.iter().filter(|d| **d > 0.0).count());
            let value = deep.min(0.0) * 100.0 + 8.0 * clear + 12.0 * self.apart(*sample) - 0.4 * strange;
            if value > best.0 {
                best = (value, *sample);
            }
        }
        self.valid(best.1)
    }

    fn valid(&self, at: Point) -> Option<Point> {
        self.inside.iter().all(|c| c.depth(at) > 0.0).then_some(at)
    }

    /// How much room between marks is missing, in radii: 0 or below.
    fn apart(&self, at: Point) -> f64 {
        self.taken.iter().map(|t| length(at - *t) / self.radius - BETWEEN).fold(0.0, f64::min)
    }

    fn improve(&self, best: &mut (f64, Point), at: Point, wanted: Point) {
        let away = length(at - wanted) / self.radius;
        // Depths take long to find. A place that could not win even with room enough is skipped.
        if 8.0 * ENOUGH - away <= best.0 {
            return;
        }
        let far = ENOUGH * self.radius;
        let depth = |c: &&Curve| if c.beyond(at) > far { -ENOUGH } else { c.depth(at) / self.radius };
        let inside = self.inside.iter().map(|c| c.depth(at) / self.radius).fold(ENOUGH, f64::min);
        let outside = self.outside.iter().map(|c| -depth(c)).fold(ENOUGH, f64::min);
        // To lie inside comes first, then to lie outside of the others.
        let must = inside.min(0.05) * 100.0 + outside.min(0.05) * 20.0;
        let value = must - 6.0 + 8.0 * inside.min(outside) + 6.0 * self.apart(at) - away;
        if value > best.0 {
            *best = (value, at);
        }
    }
}
