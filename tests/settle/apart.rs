//! All minima of a pair by brute force over both circles: a grid on the torus of pairs of points, each
//! low cell followed down to its bottom. It shares nothing with the library but the circles.

use super::pairs::pairs;
use byrnie::settle::{Circle, clearances};
use glam::{DMat2, DVec2, DVec3};
use std::f64::consts::TAU;

const GRID: usize = 160;

struct Torus {
    a: Circle,
    b: Circle,
}

impl Torus {
    fn point(circle: &Circle, t: f64) -> (DVec3, DVec3) {
        let (u, v) = circle.axes();
        let (sin, cos) = t.sin_cos();
        (circle.radius * (u * cos + v * sin), circle.radius * (v * cos - u * sin))
    }

    /// Half the squared distance, its gradient and its matrix of second derivatives.
    fn value(&self, at: DVec2) -> (f64, DVec2, DMat2) {
        let ((p, dp), (q, dq)) = (Self::point(&self.a, at.x), Self::point(&self.b, at.y));
        let d = self.a.centre + p - self.b.centre - q;
        let gradient = DVec2::new(d.dot(dp), -d.dot(dq));
        let cross = -dp.dot(dq);
        let xx = dp.length_squared() - d.dot(p);
        let yy = dq.length_squared() + d.dot(q);
        (0.5 * d.length_squared(), gradient, DMat2::from_cols(DVec2::new(xx, cross), DVec2::new(cross, yy)))
    }

    /// Levenberg's damped Newton steps down to a minimum. Squared distances that differ by less than
    /// rounding say nothing about which is lower, so in the end the gradient decides.
    fn descend(&self, mut at: DVec2) -> DVec2 {
        let mut damping = 1.0;
        for _ in 0..500 {
            let (value, gradient, second) = self.value(at);
            let matrix = second + DMat2::from_diagonal(DVec2::splat(damping));
            let step = -(matrix.inverse() * gradient);
            let positive = matrix.x_axis.x > 0.0 && matrix.determinant() > 0.0;
            let (next, next_gradient, _) = self.value(at + step);
            let level = (next - value).abs() <= 1e-13 * value && next_gradient.length() < gradient.length();
            if positive && (next < value || level) {
                at += step;
                damping *= 0.1;
            } else if damping > 1e12 {
                break;
            } else {
                damping = damping.max(1e-12) * 4.0;
            }
            if step.length() < 1e-14 {
                break;
            }
        }
        at
    }

    /// Each minimum once: its distance and its two points.
    fn minima(&self) -> Vec<(f64, DVec3, DVec3)> {
        let angle = |i: usize| f64::from(u32::try_from(i).unwrap()) * TAU / f64::from(u32::try_from(GRID).unwrap());
        let along = |c: &Circle| (0..GRID).map(|i| c.centre + Self::point(c, angle(i)).0).collect::<Vec<_>>();
        let (along_a, along_b) = (along(&self.a), along(&self.b));
        let cells: Vec<f64> = along_a.iter().flat_map(|p| along_b.iter().map(|q| p.distance_squared(*q))).collect();
        let mut found: Vec<(f64, DVec3, DVec3)> = Vec::new();
        for i in 0..GRID {
            for j in 0..GRID {
                let here = cells[i * GRID + j];
                let around = [GRID - 1, 0, 1]
                    .into_iter()
                    .flat_map(|di| [GRID - 1, 0, 1].map(|dj| (di, dj)))
                    .map(|(di, dj)| cells[(i + di) % GRID * GRID + (j + dj) % GRID]);
                if around.into_iter().any(|near| near < here) {
                    continue;
                }
                let at = self.descend(DVec2::new(angle(i), angle(j)));
                let p = self.a.centre + Self::point(&self.a, at.x).0;
                let q = self.b.centre + Self::point(&self.b, at.y).0;
                // A step down from a long valley may end in the bottom another cell has found.
                if !found.iter().any(|(_, r, s)| p.distance(*r) < 1e-3 && q.distance(*s) < 1e-3) {
                    found.push((p.distance(q), p, q));
                }
            }
        }
        found.sort_by(|x, y| x.0.total_cmp(&y.0));
        found
    }
}

#[test]
fn the_same_minima_as_by_brute_force_over_both_circles() {
    let mut counts = [0; 5];
    for (a, b) in pairs(31, 300) {
        let brute = Torus { a, b }.minima();
        let found = clearances(&a, &b);
        counts[found.len()] += 1;
        assert_eq!(found.len(), brute.len(), "{found:?} {brute:?} {a:?} {b:?}");
        for one in &found {
            let like = |(distance, p, q): &&(f64, DVec3, DVec3)| {
                (one.distance - distance).abs() < 1e-9 && one.on_a.distance(*p) < 1e-4 && one.on_b.distance(*q) < 1e-4
            };
            assert_eq!(brute.iter().filter(like).count(), 1, "{found:?} {brute:?} {a:?} {b:?}");
        }
    }
    assert!(counts[1] > 50 && counts[2] > 50, "{counts:?}");
}
