//! Polynomials over an interval by their Bernstein coefficients: what proves that no root is missed.
//!
//! The coefficients change sign at least as often as the polynomial has roots inside the interval, and
//! an even number more often (Descartes' rule in Bernstein form; the halving is de Casteljau's; from
//! memory, see G. Farin, "Curves and Surfaces for CAGD"). No change of sign: no root. One change:
//! exactly one.

#![allow(clippy::many_single_char_names)] // coefficients have no other names

/// A polynomial of degree 2, its coefficients already multiplied by the binomials 1 2 1, so that
/// multiplying is plain convolution.
#[derive(Clone, Copy, Debug)]
pub struct Quadratic(pub [f64; 3]);

/// A polynomial of degree 4, its coefficients multiplied by the binomials 1 4 6 4 1.
#[derive(Clone, Copy, Debug)]
pub struct Quartic([f64; 5]);

/// A polynomial of degree 8 over an interval.
#[derive(Clone, Copy, Debug)]
pub struct Octic([f64; 9]);

impl Quadratic {
    pub fn times(self, other: Self) -> Quartic {
        let ([a, b, c], [p, q, r]) = (self.0, other.0);
        Quartic([a * p, a * q + b * p, a * r + b * q + c * p, b * r + c * q, c * r])
    }

    /// The same polynomial over either half of the interval.
    pub fn halves(self) -> (Self, Self) {
        let [a, b, c] = self.0;
        let middle = 0.25 * (a + b + c);
        (Self([a, a + 0.5 * b, middle]), Self([middle, 0.5 * b + c, c]))
    }
}

impl Quartic {
    pub fn plus(self, other: Self) -> Self {
        let ([a, b, c, d, e], [p, q, r, s, t]) = (self.0, other.0);
        Self([a + p, b + q, c + r, d + s, e + t])
    }

    pub fn scaled(self, by: f64) -> Self {
        Self(self.0.map(|c| c * by))
    }

    pub fn times(self, other: Self) -> Octic {
        let ([a, b, c, d, e], [p, q, r, s, t]) = (self.0, other.0);
        Octic([
            a * p,
            (a * q + b * p) / 8.0,
            (a * r + b * q + c * p) / 28.0,
            (a * s + b * r + c * q + d * p) / 56.0,
            (a * t + b * s + c * r + d * q + e * p) / 70.0,
            (b * t + c * s + d * r + e * q) / 56.0,
            (c * t + d * s + e * r) / 28.0,
            (d * t + e * s) / 8.0,
            e * t,
        ])
    }
}

impl Octic {
    pub fn minus(self, other: Self) -> Self {
        let mut coefficients = self.0;
        for (one, two) in coefficients.iter_mut().zip(other.0) {
            *one -= two;
        }
        Self(coefficients)
    }

    /// How often the coefficients change sign, zeros left out.
    pub fn sign_changes(&self) -> usize {
        let mut before = 0.0;
        let mut changes = 0;
        for c in self.0 {
            changes += usize::from(before * c.signum() < 0.0 && c != 0.0);
            before = if c == 0.0 { before } else { c.signum() };
        }
        changes
    }
}
