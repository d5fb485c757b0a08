//! The legend: each sign that the chart uses, drawn small, and what it means.

use super::choice::Role;
use super::curve::Curve;
use super::description::every;
use super::ink::{Pen, mark};
use super::layout::Look;
use super::page::{Column, MARGIN, Page, ROOM};
use super::scene::Scene;
use super::strands::{Strand, Strands};
use crate::pattern::Pattern;
use crate::steps::Direction;
use kurbo::Point;

/// Width of a sign in mm.
const SIGN: f64 = 13.0;

/// One sign.
enum Sign {
    Way(Direction),
    Circle,
    Loop,
    Gap,
    Open,
    Neighbour,
    Accent(usize),
}

/// Draws the legend, in two columns.
pub fn draw(page: &mut Page, pattern: &Pattern, scene: &Scene, strands: &Strands) {
    let signs = used(pattern, scene, strands);
    let column = (ROOM - 4.0) / 2.0;
    for pair in signs.chunks(2) {
        let mut height = 0.0_f64;
        for (sign, x) in pair.iter().zip([MARGIN, MARGIN + column + 4.0]) {
            let words = Column { left: x + SIGN + 2.0, width: column - SIGN - 2.0 };
            let used = page.column(&sign.1, words);
            sample(page, &sign.0, x);
            height = height.max(used);
        }
        page.y += height.max(5.0) + 1.0;
    }
}

fn used(pattern: &Pattern, scene: &Scene, strands: &Strands) -> Vec<(Sign, String)> {
    let mut signs = Vec::new();
    let mut add = |when: bool, sign: Sign, words: &str| {
        if when {
            signs.push((sign, words.to_owned()));
        }
    };
    let marked = |way: Direction| scene.marks.iter().any(|m| m.way == way);
    let any = |look: Look| scene.rings.iter().any(|r| r.look == look && r.role != Role::Neighbour);
    add(marked(Direction::Down), Sign::Way(Direction::Down), "down: through the ring or eye, front to back");
    add(marked(Direction::Up), Sign::Way(Direction::Up), "up: through the ring or eye, back to front");
    add(any(Look::Circle) && any(Look::Loop), Sign::Circle, "hollow: a ring that others go through");
    add(any(Look::Loop), Sign::Loop, "line: a woven ring; dashed where it runs behind");
    add(strands.strands.iter().any(|s| s.cut), Sign::Gap, "broken off: it lies behind");
    add(strands.open, Sign::Open, "running together: the text does not say which is in front");
    add(scene.rings.iter().any(|r| r.role == Role::Neighbour), Sign::Neighbour, "grey: the neighbouring repeats");
    let mut accents: Vec<usize> = scene.rings.iter().filter_map(|r| pattern.families[r.name.0].accent).collect();
    accents.sort_unstable();
    accents.dedup();
    for number in accents.into_iter().take(6) {
        if let Some(accent) = pattern.accents.get(number) {
            signs.push((Sign::Accent(number), every(pattern.lattice, accent)));
        }
    }
    signs
}

fn sample(page: &mut Page, sign: &Sign, x: f64) {
    let (middle, left, right) = (page.y + 2.2, x, x + SIGN);
    let centre = Point::new(f64::midpoint(left, right), middle);
    // A line along the sign: half of a flat loop.
    let along = Curve::oval(Point::new(left, middle), Point::new(right, middle), [0.0, 0.0]);
    let whole = Strand { front: vec![(0.0, 2.0)], ..Strand::default() };
    let pen = |look, role, accent| Pen::of(look, role, accent, 10.0);
    match sign {
        Sign::Way(way) => mark(&mut page.svg, centre, 1.9, *way, |mark| mark),
        Sign::Circle | Sign::Neighbour => {
            let role = if matches!(sign, Sign::Circle) { Role::Own } else { Role::Neighbour };
            let pen = pen(Look::Circle, role, None);
            pen.outline(&mut page.svg, &along, &whole, |path| path);
            pen.core(&mut page.svg, &along, &whole);
        }
        Sign::Loop => {
            let half = Strand { front: vec![(0.0, 1.0)], behind: vec![(1.0, 2.0)], cut: false };
            pen(Look::Loop, Role::Own, None).outline(&mut page.svg, &along, &half, |path| path);
        }
        Sign::Gap | Sign::Open => {
            let across =
                Curve::oval(Point::new(centre.x, middle - 2.6), Point::new(centre.x, middle + 2.6), [0.0, 0.0]);
            let pen = pen(Look::Circle, Role::Passed, None);
            let cut = Strand { front: vec![(0.0, 0.78), (1.22, 2.0)], ..Strand::default() };
            let lower = if matches!(sign, Sign::Gap) { &cut } else { &whole };
            pen.outline(&mut page.svg, &along, lower, |path| path);
            pen.outline(&mut page.svg, &across, &whole, |path| path);
            pen.core(&mut page.svg, &along, lower);
            pen.core(&mut page.svg, &across, &whole);
        }
        Sign::Accent(number) => {
            let pen = pen(Look::Loop, Role::Own, Some(*number));
            pen.outline(&mut page.svg, &along, &whole, |path| path);
            pen.core(&mut page.svg, &along, &whole);
        }
    }
}
