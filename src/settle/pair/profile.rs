//! The distance from a point that goes round one circle to all of another.

use super::bernstein::Quadratic;
use super::circle::Circle;
use super::stretch::Stretch;
use glam::DVec3;

/// Slopes smaller than this, against what they are made of, are lost in rounding.
const NOISE: f64 = 1e-14;

/// mean + cos · cos t + sin · sin t.
#[derive(Clone, Copy, Debug)]
struct Wave {
    mean: f64,
    cos: f64,
    sin: f64,
}

impl Wave {
    fn at(self, (cos, sin): (f64, f64)) -> f64 {
        self.mean + self.cos * cos + self.sin * sin
    }

    /// Its derivative by t.
    fn slope(self) -> Self {
        Self { mean: 0.0, cos: self.sin, sin: -self.cos }
    }

    /// The wave times (1 + x²)/2 over a half turn, −1 ≤ x ≤ 1, where (cos t, sin t) is ±(1 − x², 2x)/(1 + x²).
    fn over(self, half: f64) -> Quadratic {
        Quadratic([self.mean - half * self.sin, 2.0 * half * self.cos, self.mean + half * self.sin])
    }
}

/// Where a point is on its circle. Turns run from 0 to 4; each half turn is measured by the tangent of
/// half the angle from its middle, so that sines and cosines are quotients of polynomials.
pub type Turn = f64;

/// Cosine and sine of the angle that belongs to a turn, and the turn's rate against the angle.
fn direction(turn: Turn) -> ((f64, f64), f64) {
    let turn = if turn < 4.0 { turn } else { turn - 4.0 };
    let (x, half) = if turn < 2.0 { (turn - 1.0, 1.0) } else { (turn - 3.0, -1.0) };
    let square = 1.0 + x * x;
    ((half * (1.0 - x) * (1.0 + x) / square, half * 2.0 * x / square), 0.5 * square)
}

/// Half of the squared distance from the point at angle t of one circle, the *runner's*, to another
/// circle, the *fixed* one, as a function of t; all lengths divided by the largest of the pair.
///
/// In the frame of the fixed circle (radius r) the point has coordinates x, y, z, each a wave in t.
/// With ρ = √(x² + y²) its squared distance to the circle is z² + (ρ − r)² = x² + y² + z² + r² − 2rρ.
/// Half its derivative is (ρ − r)ρ′ + zz′ with ρ′ = (xx′ + yy′)/ρ, which is also S − rρ′, S being half
/// the derivative of x² + y² + z²: a wave too, since the point stays on its own circle. The first form
/// rounds well, the second makes a polynomial of low degree.
#[derive(Clone, Copy, Debug)]
pub struct Profile {
    runner: Circle,
    fixed: Circle,
    runner_axes: (DVec3, DVec3),
    fixed_axes: (DVec3, DVec3),
    unit: f64,
    radius: f64,
    x: Wave,
    y: Wave,
    z: Wave,
    /// S above.
    whole: Wave,
    /// Radius of the runner's circle.
    size: f64,
}

impl Profile {
    /// `None` if a number is not finite or a radius not positive.
    pub fn new(runner: Circle, fixed: Circle) -> Option<Self> {
        let between = runner.centre - fixed.centre;
        if !(runner.is_sound() && fixed.is_sound() && between.is_finite()) {
            return None;
        }
        let unit = between.abs().max_element().max(runner.radius).max(fixed.radius);
        let (between, size, radius) = (between / unit, runner.radius / unit, fixed.radius / unit);
        // Turned by an odd angle, so that symmetric poses do not have their minima where stretches end: the
        // tangents of half of it and of its complement, 1/5 and 2/3, are not reached by halving.
        let (u, v) = runner.axes();
        let runner_axes = ((u * 12.0 + v * 5.0) / 13.0, (v * 12.0 - u * 5.0) / 13.0);
        let fixed_axes = fixed.axes();
        let wave = |axis: DVec3| Wave {
            mean: between.dot(axis),
            cos: size * runner_axes.0.dot(axis),
            sin: size * runner_axes.1.dot(axis),
        };
        Some(Self {
            runner,
            fixed,
            runner_axes,
            fixed_axes,
            unit,
            radius,
            x: wave(fixed_axes.0),
            y: wave(fixed_axes.1),
            z: wave(fixed.normal),
            whole: Wave { mean: 0.0, cos: size * between.dot(runner_axes.1), sin: -size * between.dot(runner_axes.0) },
            size,
        })
    }

    /// Sign of the slope; 0 where it is lost in rounding or the point is on the fixed circle's axis.
    pub fn sign(&self, turn: Turn) -> i8 {
        let (at, _) = direction(turn);
        let (x, y, z) = (self.x.at(at), self.y.at(at), self.z.at(at));
        let turning = x * self.x.slope().at(at) + y * self.y.slope().at(at);
        let rho = (x * x + y * y).sqrt();
        let (gap, rise) = (rho - self.radius, rho * self.z.slope().at(at));
        let slope = gap * turning + z * rise;
        // Each coordinate is known to a few units in the last place of the pair's size, which is 1 here,
        // so near the axis not even the direction from it is known.
        let noise = NOISE * (turning.abs() + rise.abs() + (gap.abs() + z.abs()) * self.size);
        i8::from(slope > noise) - i8::from(slope < -noise)
    }

    /// The slope, and the step of the turn that Newton's method takes from here.
    pub fn newton(&self, turn: Turn) -> (f64, f64) {
        let (at, rate) = direction(turn);
        let (x, y, z) = (self.x.at(at), self.y.at(at), self.z.at(at));
        let (xs, ys, zs) = (self.x.slope().at(at), self.y.slope().at(at), self.z.slope().at(at));
        let rho = (x * x + y * y).sqrt();
        let (gap, lean) = (rho - self.radius, (x * xs + y * ys) / rho);
        // Second derivatives of a wave are its distance from its mean, turned round.
        let bend = xs * xs + ys * ys - x * (x - self.x.mean) - y * (y - self.y.mean);
        let curvature = lean * lean + gap * (bend - lean * lean) / rho + zs * zs - z * (z - self.z.mean);
        let slope = gap * lean + z * zs;
        (slope, if curvature > 0.0 { -rate * slope / curvature } else { f64::NAN })
    }

    /// The first half turn (`half` = 1) or the second (−1).
    pub fn half_turn(&self, half: f64) -> Stretch {
        Stretch {
            x: self.x.over(half),
            y: self.y.over(half),
            x_slope: self.x.slope().over(half),
            y_slope: self.y.slope().over(half),
            whole: self.whole.over(half),
            radius: self.radius,
        }
    }

    /// Distance in mm, the point on the runner's circle and the nearest on the fixed one.
    pub fn pair(&self, turn: Turn) -> (f64, DVec3, DVec3) {
        let (at, _) = direction(turn);
        let (x, y, z) = (self.x.at(at), self.y.at(at), self.z.at(at));
        let rho = (x * x + y * y).sqrt();
        let gap = rho - self.radius;
        let (cos, sin) = if rho > 0.0 { (x / rho, y / rho) } else { (1.0, 0.0) };
        let place = |circle: &Circle, axes: (DVec3, DVec3), (cos, sin): (f64, f64)| {
            circle.centre + (axes.0 * cos + axes.1 * sin) * circle.radius
        };
        let on_runner = place(&self.runner, self.runner_axes, at);
        (self.unit * (gap * gap + z * z).sqrt(), on_runner, place(&self.fixed, self.fixed_axes, (cos, sin)))
    }
}
