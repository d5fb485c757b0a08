//! What a pose lacks of the wanted links, and how that changes with every number of the pose.

use super::problem::{Pose, Problem};
use crate::pattern::Shift;
use crate::settle::pair::{Circle, Slope, margin_and_slope};
use glam::DVec3;
use std::collections::BTreeMap;

/// The margin of each link, as a part of the mean core radius.
pub(crate) const MARGIN: f64 = 0.12;
/// A repeat is not shorter than this part of the mean core radius.
const SHORTEST: f64 = 0.05;

/// Two rings, and how many repeats on the second is.
type Pair = (usize, usize, Shift);

/// A pose as plain numbers, in units of the mean core radius: centre and normal of each ring (the normal of
/// any length), the length of the first way, both lengths of the second, the twist in radians.
pub(crate) struct Numbers<'p> {
    problem: &'p Problem,
    turned: [bool; 2],
    mean: f64,
    /// Signs of all links, each pair the way [`Pose::pairs`] gives it.
    wanted: BTreeMap<Pair, i8>,
    /// The rings that may move, and nothing else; none where all may.
    moving: &'p [usize],
}

impl<'p> Numbers<'p> {
    /// Poses of a problem with rings of every second repeat turned over along the ways `turned`.
    pub(crate) fn of(problem: &'p Problem, turned: [bool; 2]) -> Self {
        let once = |l: &super::problem::Wanted| {
            let back = -l.shift;
            let swap = l.from > l.to || l.from == l.to && l.shift < back;
            if swap { ((l.to, l.from, back), l.sign) } else { ((l.from, l.to, l.shift), l.sign) }
        };
        // Of a link written twice the first counts, as in `Problem::wanted`.
        let wanted = problem.links.iter().rev().map(once).collect();
        Self { problem, turned, mean: problem.mean_radius(), wanted, moving: &[] }
    }

    /// The same where only some rings move: pairs of other rings do not count, nor does the repeat change.
    pub(crate) fn moving(problem: &'p Problem, turned: [bool; 2], moving: &'p [usize]) -> Self {
        Self { moving, ..Self::of(problem, turned) }
    }

    /// The numbers of a pose.
    pub(crate) fn of_pose(&self, pose: &Pose) -> Vec<f64> {
        let parts = |r: &Circle| (r.centre / self.mean).to_array().into_iter().chain(r.normal.to_array());
        let mut x: Vec<f64> = pose.rings.iter().flat_map(parts).collect();
        let lengths = [pose.ways[0].x, pose.ways[1].x, pose.ways[1].y].into_iter().map(|l| l / self.mean);
        x.extend(lengths.take(self.twist() - self.way()));
        if self.problem.spiral {
            x.push(pose.twist);
        }
        x
    }

    /// The number of the first length of a way.
    fn way(&self) -> usize {
        6 * self.problem.rings.len()
    }

    fn twist(&self) -> usize {
        self.way() + [0, 1, 3].get(self.problem.ways).copied().unwrap_or(3)
    }

    /// The pose that these numbers describe.
    pub(crate) fn pose(&self, x: &[f64]) -> Pose {
        let at = |col: usize| x.get(col).copied().unwrap_or(0.0);
        let point = |col: usize| DVec3::new(at(col), at(col + 1), at(col + 2));
        let ring = |(number, size): (usize, &super::problem::RingSize)| Circle {
            centre: point(6 * number) * self.mean,
            normal: point(6 * number + 3).try_normalize().unwrap_or(DVec3::Z),
            radius: size.radius,
        };
        let way = self.way();
        let mut ways = [DVec3::ZERO; 2];
        if self.problem.ways >= 1 {
            ways[0] = DVec3::X * at(way).abs().max(SHORTEST) * self.mean;
        }
        if self.problem.ways >= 2 {
            ways[1] = DVec3::new(at(way + 1), at(way + 2).abs().max(SHORTEST), 0.0) * self.mean;
        }
        let twist = if self.problem.spiral { at(self.twist()) } else { 0.0 };
        Pose { rings: self.problem.rings.iter().enumerate().map(ring).collect(), ways, twist, turned: self.turned }
    }

    /// What the pose of these numbers lacks: the sum of the squares of what each pair lacks of its margin, in
    /// mean core radii. Writes its slope against each number.
    pub(crate) fn lack(&self, x: &[f64], slope: &mut [f64]) -> f64 {
        slope.fill(0.0);
        let pose = self.pose(x);
        let pairs = pose.pairs(MARGIN * self.mean);
        let links = self.wanted.iter().map(|(pair, sign)| (*pair, *sign));
        // Linked rings count however far apart they are.
        let others = pairs.into_iter().filter(|pair| !self.wanted.contains_key(pair)).map(|pair| (pair, 0));
        let mut sum = 0.0;
        for (pair, wanted) in links.chain(others) {
            let (from, to, shift) = pair;
            if !self.moving.is_empty() && !self.moving.contains(&from) && !self.moving.contains(&to) {
                continue;
            }
            let (Some(a), Some(image)) = (pose.rings.get(from), pose.image(to, shift)) else { continue };
            let mut falling = Slope::default();
            let mut lacks = |value: f64, margin: Slope| {
                if value > 0.0 {
                    sum += value * value;
                    falling = falling.plus(margin.times(2.0 * value));
                }
            };
            // Seen from either ring a link has the same sign but another margin; both are wanted.
            let (margin, slope_of) = margin_and_slope(a, &image, wanted);
            lacks(MARGIN * self.mean - margin, slope_of);
            let (margin, slope_of) = margin_and_slope(&image, a, wanted);
            lacks(MARGIN * self.mean - margin, slope_of.exchanged());
            // Linked rings that are far apart must be drawn together.
            let between = image.centre - a.centre;
            if wanted != 0 {
                let nearing = Slope { centre: -between.normalize_or_zero(), ..Slope::default() };
                lacks(between.length() - a.radius - image.radius, nearing);
            }
            let circles = PairSlope { pair, image, slope: falling.times(-1.0 / self.mean) };
            self.add(x, &pose, &circles, slope);
        }
        if !self.moving.is_empty() {
            for (col, slot) in slope.iter_mut().enumerate() {
                if col >= self.way() || !self.moving.contains(&(col / 6)) {
                    *slot = 0.0;
                }
            }
        }
        sum / (self.mean * self.mean)
    }

    /// Adds the slope of a pair, turned from one against its circles into one against the numbers.
    fn add(&self, x: &[f64], pose: &Pose, pair: &PairSlope, slope: &mut [f64]) {
        let PairSlope { pair: (from, to, shift), image, slope: circles } = *pair;
        if circles == Slope::default() {
            return;
        }
        // The second ring is moved in the first repeat, and its image as it is turned on.
        let back = -shift;
        let still = Circle { centre: DVec3::ZERO, normal: circles.normal_b, radius: image.radius };
        let home = pose.moved(still, back);
        let centre = pose.moved(Circle { centre: circles.centre, ..still }, back).centre - home.centre;
        ring(x, from, -circles.centre, circles.normal_a / self.mean, slope);
        ring(x, to, centre, home.normal / self.mean, slope);
        let mut add = |col: usize, by: f64| {
            if let Some(slot) = slope.get_mut(col) {
                *slot += by;
            }
        };
        let [row, column] = shift.to_array().map(f64::from);
        let growing = |col: usize| match x.get(col) {
            Some(length) if length.abs() > SHORTEST => length.signum(),
            _ => 0.0,
        };
        let way = self.way();
        if self.problem.ways >= 1 {
            add(way, row * circles.centre.x * growing(way));
        }
        if self.problem.ways >= 2 {
            add(way + 1, column * circles.centre.x);
            add(way + 2, column * circles.centre.y * growing(way + 2));
        }
        if self.problem.spiral {
            let turning = DVec3::X.cross(image.centre).dot(circles.centre);
            let tilting = DVec3::X.cross(image.normal).dot(circles.normal_b);
            add(self.twist(), row * (turning + tilting) / self.mean);
        }
    }
}

/// The slope of what a pair of rings lacks.
struct PairSlope {
    pair: Pair,
    /// The circle of the second ring where the pair meets.
    image: Circle,
    /// Against the first ring and the image of the second.
    slope: Slope,
}

/// Adds the part of one ring to a slope.
fn ring(x: &[f64], ring: usize, centre: DVec3, normal: DVec3, slope: &mut [f64]) {
    let at = |col: usize| x.get(6 * ring + col).copied().unwrap_or(0.0);
    let own = DVec3::new(at(3), at(4), at(5));
    let length = own.length().max(f64::MIN_POSITIVE);
    let own = own / length;
    let normal = (normal - own * own.dot(normal)) / length;
    let parts = centre.to_array().into_iter().chain(normal.to_array());
    for (slot, part) in slope.iter_mut().skip(6 * ring).zip(parts) {
        *slot += part;
    }
}

/// How far the pose of these numbers is from the links wanted, and the slope of that against every number: for
/// checking the one against the other. The numbers are, in mean core radii and radians: centre and normal of
/// each ring, the length of the first way, both lengths of the second, the twist.
pub fn shortfall(problem: &Problem, turned: [bool; 2], numbers: &[f64]) -> (f64, Vec<f64>) {
    let mut slope = vec![0.0; numbers.len()];
    (Numbers::of(problem, turned).lack(numbers, &mut slope), slope)
}
