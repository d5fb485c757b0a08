//! Looking for the best place of a mark: inside the rings it goes through, outside all others.

use super::curve::{Curve, Point, number, point};

/// What a place must heed.
pub struct Spot<'s> {
    /// Rings it must lie inside of.
    pub inside: Vec<&'s Curve>,
    /// Rings it should lie outside of.
    pub outside: Vec<&'s Curve>,
    /// Marks there are already.
    pub taken: Vec<Point>,
    /// Radius of a circle in mm.
    pub radius: f64,
}

/// Places tried along each way of a ring.
const TRIES: i32 = 24;
/// More room than this round a mark, in radii, is no better.
const ENOUGH: f64 = 0.25;
/// Room between two marks, in radii.
const BETWEEN: f64 = 0.45;

impl Spot<'_> {
    /// The best place near the one wanted; none where the rings have no place in common.
    pub fn near(&self, wanted: Point) -> Option<Point> {
        let (low, high) = self.inside.first().map(|c| c.bounds())?;
        let mut best = (f64::MIN, wanted);
        for row in 0..=TRIES {
            for column in 0..=TRIES {
                let part = |low: f64, high: f64, step: i32| low + (high - low) * f64::from(step) / f64::from(TRIES);
                self.improve(&mut best, point(part(low.x, high.x, column), part(low.y, high.y, row)), wanted);
            }
        }
        self.improve(&mut best, wanted, wanted);
        self.valid(best.1)
    }

    /// The best place on a curve; none where it does not meet the inside of all the rings.
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

    /// How much room between marks is missing: 0 or below.
    fn apart(&self, at: Point) -> f64 {
        self.taken.iter().map(|t| at.minus(*t).length() / self.radius - BETWEEN).fold(0.0, f64::min)
    }

    fn improve(&self, best: &mut (f64, Point), at: Point, wanted: Point) {
        let away = at.minus(wanted).length() / self.radius;
        // Depths are costly: a place that could not win even with room enough is not looked at.
        if 8.0 * ENOUGH - away <= best.0 {
            return;
        }
        let far = ENOUGH * self.radius;
        let depth = |c: &&Curve| if c.beyond(at) > far { -ENOUGH } else { c.depth(at) / self.radius };
        let inside = self.inside.iter().map(|c| c.depth(at) / self.radius).fold(ENOUGH, f64::min);
        let outside = self.outside.iter().map(|c| -depth(c)).fold(ENOUGH, f64::min);
        // Lying inside comes first, then outside of others.
        let must = inside.min(0.05) * 100.0 + outside.min(0.05) * 20.0;
        let value = must - 6.0 + 8.0 * inside.min(outside) + 6.0 * self.apart(at) - away;
        if value > best.0 {
            *best = (value, at);
        }
    }
}
