//! Going downhill on a sum of squares that is to come to nothing.

use std::collections::VecDeque;

/// Steps downhill from one start.
const MOST_STEPS: usize = 300;
/// Steps in which at least a twentieth must be won.
const STALLED: usize = 20;
/// Steps remembered to compute the next one.
const REMEMBERED: usize = 40;
/// Places tried for one step.
const MOST_HALVINGS: usize = 30;
/// The longest step: as numbers are in radii and radians, half a ring in all.
const LONGEST: f64 = 0.5;

/// Goes downhill from `at` until the value is no more than `enough`; returns whether that was reached.
/// `value` gives the value at a place and writes its slope against each number.
///
/// Quasi-Newton descent with limited memory (L-BFGS, Nocedal, Mathematics of Computation 35 (1980)), halving
/// steps that do not help. The value has kinks, where one part of a margin takes over from another; methods
/// that remember slopes get along them far better than those that trust the slopes of one place.
pub(crate) fn downhill(value: impl Fn(&[f64], &mut [f64]) -> f64, at: &mut Vec<f64>, enough: f64) -> bool {
    let mut slope = vec![0.0; at.len()];
    let mut here = value(at, &mut slope);
    let mut memory: VecDeque<Remembered> = VecDeque::new();
    let mut before = f64::INFINITY;
    for number in 0..MOST_STEPS {
        if here <= enough {
            return true;
        }
        if number % STALLED == 0 {
            if here > 0.95 * before {
                return false;
            }
            before = here;
        }
        let mut way = quasi_newton(&memory, &slope);
        if dot(&way, &slope) >= 0.0 {
            memory.clear();
            way = quasi_newton(&memory, &slope);
        }
        let Some(found) = along(&value, at, here, &slope, &way) else {
            if memory.is_empty() {
                return false;
            }
            // What was remembered leads nowhere: straight downhill from here.
            memory.clear();
            continue;
        };
        let step: Vec<f64> = found.at.iter().zip(at.iter()).map(|(new, old)| new - old).collect();
        let change: Vec<f64> = found.slope.iter().zip(&slope).map(|(new, old)| new - old).collect();
        let curvature = dot(&step, &change);
        if curvature > 1e-12 {
            if memory.len() == REMEMBERED {
                memory.pop_front();
            }
            memory.push_back(Remembered { step, change, curvature });
        }
        (*at, here, slope) = (found.at, found.value, found.slope);
    }
    false
}

/// A place on the way down.
struct Place {
    at: Vec<f64>,
    value: f64,
    slope: Vec<f64>,
}

/// A place along the way that is lower and less steep: by halving between a share of the way that is too far
/// and one that is not far enough (Lewis, Overton, Mathematical Programming 141 (2013): what the method needs
/// where there are kinks). The farthest that is lower, where none is less steep.
fn along(
    value: &impl Fn(&[f64], &mut [f64]) -> f64,
    from: &[f64],
    here: f64,
    slope: &[f64],
    way: &[f64],
) -> Option<Place> {
    let fall = dot(way, slope);
    let most = LONGEST / dot(way, way).sqrt();
    let mut share = most.min(1.0);
    let (mut near, mut far) = (0.0, f64::INFINITY);
    let mut found = None;
    for _ in 0..MOST_HALVINGS {
        let at: Vec<f64> = from.iter().zip(way).map(|(x, w)| x + share * w).collect();
        let mut there = vec![0.0; at.len()];
        let reached = value(&at, &mut there);
        if reached < here + 1e-4 * share * fall {
            near = share;
            let steep = dot(&there, way) < 0.9 * fall;
            found = Some(Place { at, value: reached, slope: there });
            if !steep || share >= most {
                break;
            }
        } else {
            far = share;
        }
        share = if far.is_finite() { 0.5 * (near + far) } else { (2.0 * near).min(most) };
    }
    found
}

/// A step taken and what it changed of the slope.
struct Remembered {
    step: Vec<f64>,
    change: Vec<f64>,
    /// The product of the two, above zero.
    curvature: f64,
}

/// The step to where the slope would vanish if it went on changing as it did in the steps remembered.
fn quasi_newton(memory: &VecDeque<Remembered>, slope: &[f64]) -> Vec<f64> {
    let mut way: Vec<f64> = slope.iter().map(|s| -s).collect();
    let mut shares = Vec::with_capacity(memory.len());
    for old in memory.iter().rev() {
        let share = dot(&old.step, &way) / old.curvature;
        add(&mut way, &old.change, -share);
        shares.push(share);
    }
    if let Some(last) = memory.back() {
        let scale = last.curvature / dot(&last.change, &last.change);
        for w in &mut way {
            *w *= scale;
        }
    }
    for (old, share) in memory.iter().zip(shares.into_iter().rev()) {
        let back = dot(&old.change, &way) / old.curvature;
        add(&mut way, &old.step, share - back);
    }
    way
}

fn add(to: &mut [f64], other: &[f64], times: f64) {
    to.iter_mut().zip(other).for_each(|(slot, value)| *slot += times * value);
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(x, y)| x * y).sum()
}
