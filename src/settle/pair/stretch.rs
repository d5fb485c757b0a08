//! A stretch of a profile as polynomials, which tell how often its slope can change sign there.

use super::bernstein::Quadratic;

/// The waves of a [`Profile`](super::profile::Profile) over one stretch of a turn, each times (1 + x²)/2.
///
/// Stretches are halved wave by wave, and the polynomial of degree 8 is made again for each: near the fixed
/// circle's axis it is far smaller than elsewhere, and would be lost in the rounding of the rest.
#[derive(Clone, Copy, Debug)]
pub struct Stretch {
    pub x: Quadratic,
    pub y: Quadratic,
    pub x_slope: Quadratic,
    pub y_slope: Quadratic,
    /// S, half the slope of x² + y² + z².
    pub whole: Quadratic,
    /// Radius r of the fixed circle.
    pub radius: f64,
}

impl Stretch {
    /// A bound on how often the slope changes sign inside the stretch, exact when 0 or 1: the changes of
    /// sign of S²(x² + y²) − r²(xx′ + yy′)², of degree 4 in sines and cosines, 8 here. It is zero
    /// wherever the slope is, and also where the distance to the *farthest* point of the fixed circle
    /// has no slope.
    pub fn sign_changes(&self) -> usize {
        let turning = self.x.times(self.x_slope).plus(self.y.times(self.y_slope)).scaled(self.radius);
        let square = self.x.times(self.x).plus(self.y.times(self.y));
        self.whole.times(self.whole).times(square).minus(turning.times(turning)).sign_changes()
    }

    /// Both halves of the stretch.
    pub fn halves(&self) -> (Self, Self) {
        let (x, y) = (self.x.halves(), self.y.halves());
        let (x_slope, y_slope) = (self.x_slope.halves(), self.y_slope.halves());
        let whole = self.whole.halves();
        (
            Self { x: x.0, y: y.0, x_slope: x_slope.0, y_slope: y_slope.0, whole: whole.0, ..*self },
            Self { x: x.1, y: y.1, x_slope: x_slope.1, y_slope: y_slope.1, whole: whole.1, ..*self },
        )
    }
}
