//! The way downhill to a pose: its slopes against central differences, and how surely it arrives.

use super::pairs::{Dice, pairs};
use crate::common::compile;
use byrnie::pattern::Shift;
use byrnie::settle::{Circle, Pose, Problem, RingSize, Wanted, crossing, find, has_links, margin_and_slope, shortfall};
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
    let link = |from, to, [row, column]: [i32; 2], sign| Wanted { from, to, shift: Shift::new(row, column), sign };
    let mut links = vec![link(1, 0, [0, 0], 1), link(2, 0, [0, 0], -1)];
    if ways > 0 {
        links.extend([link(1, 0, [1, 0], -1), link(0, 2, [-2, 0], 1), link(2, 2, [1, 0], 1)]);
    }
    if ways > 1 {
        links.extend([link(1, 2, [1, -1], 1), link(0, 1, [0, 1], -1)]);
    }
    Problem { rings: vec![size(4.0), size(5.0), size(6.5)], links, ways, spiral, times: Shift::ONE }
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

fn problem(text: &str) -> Problem {
    let weave = compile(text);
    assert!(weave.pattern().whole, "{text}");
    Problem::of(weave.pattern(), weave.cell().as_ref().unwrap(), |_| RingSize { radius: 1.0, wire: 1.0 })
}

/// How many of 32 starts arrive, and whether the first does.
fn arriving(problem: &Problem, turned: [bool; 2]) -> (usize, bool) {
    let found: Vec<Option<Pose>> = (0..32).map(|start| find(problem, turned, start)).collect();
    assert!(found.iter().flatten().all(|pose| has_links(problem, pose)));
    (found.iter().flatten().count(), found[0].is_some())
}

/// Weaves without rows are found from rings thrown at random, most of the time.
#[test]
fn units_and_spirals_are_found_from_most_starts() {
    for (text, least) in [
        ("ring a, b\nb down a", 30),
        ("ring a, b, c\nb down a\nc down a, b", 28),
        ("ring a, b, c, d, e\nb down a\nc down a, b\nd down a, b, c\ne down a, b, c, d", 20),
        ("spiral\nring a\nrepeat n\na[n] down a[n-1], a[n-2]", 20),
    ] {
        let (count, _) = arriving(&problem(text), [false, false]);
        assert!(count >= least, "{count}: {text}");
    }
}

/// Chains and sheets of flat rings with others woven through are found from the first start, laid out as their
/// links suggest. Which rings are turned over is part of how the signs are written.
#[test]
fn rows_are_found_from_the_first_start() {
    for (text, turned) in [
        ("ring a, b\nrepeat n\nb[n] down a[n], a[n+1]", [true, false]),
        ("ring a, b\nrepeat n\nb[n] through eye(a[n], a[n+1]), around eye(a[n-1], a[n])", [false, false]),
        (JAPANESE_4, [true, true]),
        (JAPANESE_6, [false, false]),
        (EUROPEAN_4, [false, false]),
        (EUROPEAN_6, [false, false]),
    ] {
        let (count, first) = arriving(&problem(text), turned);
        assert!(first && count >= 8, "{count} {first}: {text}");
    }
}

/// Every second ring of a chain, or of each column of a sheet, written as one family: two repeats taken as one
/// have rows, one repeat has none to find.
#[test]
fn one_family_is_found_when_two_repeats_are_taken_as_one() {
    for text in [
        "ring a\nrepeat n\na[n] down a[n-1]",
        "ring a, b\nrepeat n\na[n] down a[n-1], b[n-1]\nb[n] down a[n-1], b[n-1]",
        "ring a\nrepeat row r, column c\na[r,c] down a[r-1,c], a[r-1,c+1]",
    ] {
        let problem = problem(text);
        for turned in [[false, false], [true, false]] {
            assert_eq!(arriving(&problem, turned), (0, false), "{text}");
        }
        let found = [[false, false], [true, false]].map(|turned| arriving(&problem.doubled(0), turned));
        assert!(found.iter().any(|(_, first)| *first), "{found:?}: {text}");
    }
}

/// Sizes that are no sizes, and rings linked twice, find nothing and do no harm.
#[test]
fn odd_problems_do_no_harm() {
    let sound = problem(JAPANESE_4);
    for radius in [f64::NAN, f64::INFINITY, 1e300, 0.0, -1.0, 5e-324] {
        let odd = Problem { rings: vec![RingSize { radius, wire: 1.0 }; 3], ..sound.clone() };
        for start in [0, 5] {
            let _ = find(&odd, [true, true], start);
        }
    }
    let bare = Problem { links: Vec::new(), ..sound.clone() };
    let none = Problem { rings: Vec::new(), links: Vec::new(), ..sound.clone() };
    let lost = Problem { rings: sound.rings[..1].to_vec(), ..sound };
    for problem in [bare, none, lost] {
        let _ = find(&problem, [false, true], 0);
    }
}

const JAPANESE_4: &str =
    "ring a, h, v\nrepeat row r, column c\nh[r,c] down a[r,c], a[r,c+1]\nv[r,c] down a[r,c], a[r+1,c]";
const JAPANESE_6: &str = "ring a, h, v, d\nrepeat row r, column c\nh[r,c] down a[r,c], up a[r,c+1]\n\
    v[r,c] down a[r,c], up a[r+1,c]\nd[r,c] down a[r,c], up a[r+1,c-1]";
const EUROPEAN_4: &str = "ring a, b\nrepeat row r, column c\nb[r,c] down a[r,c], a[r,c+1], up a[r+1,c], a[r+1,c+1]";
const EUROPEAN_6: &str = "ring a, b\nrepeat row r, column c\nb[r,c] down a[r,c-1], a[r,c], a[r,c+1], \
    up a[r+1,c-1], a[r+1,c], a[r+1,c+1]";
