//! Made-up pairs of rings, the same in every run, and the poses of check-values.

use byrnie::settle::Circle;
use glam::DVec3;

/// `SplitMix64` (Steele, Lea, Flood, OOPSLA 2014, from memory): a few lines, the same everywhere.
pub struct Dice(pub u64);

impl Dice {
    pub fn roll(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        f64::from(u32::try_from((z ^ (z >> 31)) >> 32).unwrap()) / 4_294_967_296.0
    }

    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.roll()
    }

    pub fn inside_ball(&mut self, radius: f64) -> DVec3 {
        loop {
            let v = DVec3::new(self.between(-1.0, 1.0), self.between(-1.0, 1.0), self.between(-1.0, 1.0));
            if v.length_squared() <= 1.0 && v.length_squared() > 1e-6 {
                return v * radius;
            }
        }
    }

    /// A pair like those of a weave: radii 4 to 6 mm, every other pair of equal rings, centres within
    /// two radii.
    pub fn pair(&mut self) -> (Circle, Circle) {
        let radius = self.between(4.0, 6.0);
        let other = if self.roll() < 0.5 { radius } else { self.between(4.0, 6.0) };
        let centre = self.inside_ball(20.0);
        let a = Circle::new(centre, self.inside_ball(1.0), radius).unwrap();
        let b = Circle::new(centre + self.inside_ball(2.0 * radius), self.inside_ball(1.0), other).unwrap();
        (a, b)
    }

    fn step(&mut self, steps: u32) -> f64 {
        (self.roll() * f64::from(steps)).floor()
    }

    fn lattice(&mut self, steps: u32) -> DVec3 {
        let middle = f64::from(steps / 2);
        DVec3::new(self.step(steps) - middle, self.step(steps) - middle, self.step(steps) - middle)
    }

    /// A pair as regular as poses of weaves are: normals along edges and diagonals of a cube, centres
    /// and radii in half millimetres. Many touch, cross, lie in one plane or on each other's axis.
    pub fn regular_pair(&mut self) -> (Circle, Circle) {
        loop {
            let (radius, other) = (1.0 + 0.5 * self.step(5), 1.0 + 0.5 * self.step(5));
            let a = Circle::new(DVec3::ZERO, self.lattice(3), radius);
            let b = Circle::new(self.lattice(9) * 0.5, self.lattice(3), other);
            if let (Some(a), Some(b)) = (a, b) {
                return (a, b);
            }
        }
    }
}

pub fn pairs(seed: u64, count: usize) -> Vec<(Circle, Circle)> {
    let mut dice = Dice(seed);
    (0..count).map(|_| dice.pair()).collect()
}

pub fn regular_pairs(seed: u64, count: usize) -> Vec<(Circle, Circle)> {
    let mut dice = Dice(seed);
    (0..count).map(|_| dice.regular_pair()).collect()
}
