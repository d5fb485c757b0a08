//! The way downhill to a pose: its slopes against central differences, and how surely it arrives.

use super::pairs::{Dice, pairs};
use byrnie::settle::{Circle, Problem, RingSize, Wanted, crossing, find, has_links, margin_and_slope, shortfall};
use glam::DVec3;

/// How a number changes when a circle is moved along and tilted towards each axis, by central differences.
fn differences(circle: &Circle, value: impl Fn(&Circle) -> f64) -> (DVec3, DVec3) {
    const STEP: f64 = 1e-6;
    let change = |moved: &dyn Fn(f64) -> Circle| (value(&moved(STEP)) - value(&moved(-STEP))) / (2.0 * STEP);
    let centre = DVec3::AXES.map(|axis| change(&|by| Circle { centre: circle.centre + axis * by, ..*circle }));
    let normal =
        DVec3::AXES.map(|axis| change(&|by| Circle { normal: (circle.normal + axis * by).normalize(), ..*circle }));
    (DVec3::from_array(centre), DVec3::from_array(normal))
}

#[test]
fn the_slope_of_a_margin_is_that_of_central_differences() {
    let across = |slope: DVec3, normal: DVec3| slope - normal * slope.dot(normal);
    let (mut checked, mut kinks) = (0, 0);
    for (a, b) in pairs(51, 3_000) {
        for wanted in [-1, 0, 1] {
            let (margin, slope) = margin_and_slope(&a, &b, wanted);
            assert_eq!(margin.to_bits(), crossing(&a, &b).margin(wanted).to_bits());
            let (centre_a, normal_a) = differences(&a, |a| crossing(a, &b).margin(wanted));
            let (centre_b, normal_b) = differences(&b, |b| crossing(&a, b).margin(wanted));
            let found =
                [-slope.centre, slope.centre, across(slope.normal_a, a.normal), across(slope.normal_b, b.normal)];
            let off = found.iter().zip([centre_a, centre_b, normal_a, normal_b]).map(|(s, d)| (*s - d).length());
            let size = found.iter().map(|s| s.length()).fold(1.0, f64::max);
            // Differences mean nothing across a kink, where one part of a margin takes over from another.
            let off = off.fold(0.0, f64::max) / size;
            checked += usize::from(off < 1e-4);
            kinks += usize::from(off >= 1e-4);
        }
    }
    assert!(checked > 8_980 && kinks < 20, "{checked} {kinks}");
}

/// Numbers like those of a start: rings within a radius or two, any normal.
fn numbers(problem: &Problem, dice: &mut Dice) -> Vec<f64> {
    let mut numbers: Vec<f64> = problem.rings.iter().flat_map(|_| [(); 6].map(|()| dice.between(-1.0, 1.0))).collect();
    let lattice = [vec![], vec![dice.between(0.3, 1.7)], [0.3, -1.0, 0.3].map(|x| dice.between(x, 1.7)).to_vec()];
    numbers.extend(&lattice[problem.ways]);
    numbers.extend(problem.spiral.then(|| dice.between(-3.1, 3.1)));
    numbers
}

/// Three rings of different sizes, linked with each other and with images of themselves and each other.
fn tangle(ways: usize, spiral: bool) -> Problem {
    let size = |radius| RingSize { radius, wire: 1.0 };
    let link = |from, to, shift, sign| Wanted { from, to, shift, sign };
    let mut links = vec![link(1, 0, [0, 0], 1), link(2, 0, [0, 0], -1)];
    if ways > 0 {
        links.extend([link(1, 0, [1, 0], -1), link(0, 2, [-2, 0], 1), link(2, 2, [1, 0], 1)]);
    }
    if ways > 1 {
        links.extend([link(1, 2, [1, -1], 1), link(0, 1, [0, 1], -1)]);
    }
    Problem { rings: vec![size(4.0), size(5.0), size(6.5)], links, ways, spiral }
}

#[test]
fn the_slope_of_what_a_pose_lacks_is_that_of_central_differences() {
    const STEP: f64 = 1e-7;
    let mut dice = Dice(52);
    for (ways, spiral) in [(0, false), (1, false), (1, true), (2, false)] {
        let problem = tangle(ways, spiral);
        let mut kinks = 0;
        for round in 0..200 {
            let turned = [round % 2 == 1, round % 4 > 1];
            let at = numbers(&problem, &mut dice);
            let (value, slope) = shortfall(&problem, turned, &at);
            assert!(value >= 0.0 && slope.len() == at.len());
            let difference = |col: usize| {
                let by = |by: f64| {
                    let mut moved = at.clone();
                    moved[col] += by;
                    shortfall(&problem, turned, &moved).0
                };
                (by(STEP) - by(-STEP)) / (2.0 * STEP)
            };
            let size = slope.iter().fold(1.0_f64, |most, s| most.max(s.abs()));
            let off = (0..at.len()).map(|col| (slope[col] - difference(col)).abs()).fold(0.0, f64::max);
            kinks += usize::from(off > 1e-4 * size);
        }
        assert!(kinks < 10, "{ways} {spiral}: {kinks} of 200");
    }
}

#[test]
fn what_is_found_has_the_links() {
    for problem in [tangle(0, false), tangle(1, true)] {
        let found: Vec<_> = (0..10).filter_map(|start| find(&problem, [false, false], start)).collect();
        assert!(found.iter().all(|pose| has_links(&problem, pose)));
    }
}
