//! What the signs of the chart mean: each sign that is used, drawn small, with its words.

use super::choice::Role;
use super::curve::{Curve, point};
use super::ink::Pen;
use super::layout::Look;
use super::page::{MARGIN, Page, ROOM, TEXT_SIZE};
use super::scene::Scene;
use super::strands::{Strand, Strands};
use super::{ink, words};
use crate::pattern::Pattern;

/// Width of a sign in mm.
const SIGN: f64 = 13.0;

/// One sign.
enum Sign {
    Down,
    Up,
    Row,
    Woven,
    Gap,
    Open,
    Neighbour,
    Accent(usize),
}

/// Draws the signs that are used in two columns.
pub fn draw(page: &mut Page, pattern: &Pattern, scene: &Scene, strands: &Strands) {
    let signs = used(pattern, scene, strands);
    let column = (ROOM - 4.0) / 2.0;
    for pair in signs.chunks(2) {
        let mut height = 0.0_f64;
        for (sign, x) in pair.iter().zip([MARGIN, MARGIN + column + 4.0]) {
            let used = page.column(&sign.1, TEXT_SIZE, (x + SIGN + 2.0, column - SIGN - 2.0), &[]);
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
    let any = |look: Look| scene.rings.iter().any(|r| r.look == look && r.role != Role::Neighbour);
    add(scene.marks.iter().any(|m| m.down), Sign::Down, "down: through the ring or eye, front to back");
    add(scene.marks.iter().any(|m| !m.down), Sign::Up, "up: through the ring or eye, back to front");
    add(any(Look::Circle) && any(Look::Loop), Sign::Row, "hollow: a ring that others go through");
    add(any(Look::Loop), Sign::Woven, "line: a woven ring; dashed where it runs behind");
    add(strands.strands.iter().any(|s| s.cut), Sign::Gap, "what breaks off lies behind");
    add(strands.open, Sign::Open, "running together: which is in front is not said");
    add(scene.rings.iter().any(|r| r.role == Role::Neighbour), Sign::Neighbour, "grey: the repeats beside it");
    let mut accents: Vec<usize> = scene.rings.iter().filter_map(|r| pattern.families[r.name.0].accent).collect();
    accents.sort_unstable();
    accents.dedup();
    for number in accents.into_iter().take(6) {
        if let Some(accent) = pattern.accents.get(number) {
            signs.push((Sign::Accent(number), words::every(pattern.lattice, accent)));
        }
    }
    signs
}

fn sample(page: &mut Page, sign: &Sign, x: f64) {
    let (middle, left, right) = (page.y + 2.2, x, x + SIGN);
    let centre = point(f64::midpoint(left, right), middle);
    // A stretch along the sign: half of a flat loop.
    let along = Curve::oval(point(left, middle), point(right, middle), 0.0, 0.0);
    let whole = Strand { front: vec![(0.0, 2.0)], ..Strand::default() };
    let pen = |look, role, accent| Pen::of(look, role, accent, 10.0);
    match sign {
        Sign::Down | Sign::Up => ink::mark(&mut page.svg, centre, 1.9, matches!(sign, Sign::Down), &[]),
        Sign::Row | Sign::Neighbour => {
            let role = if matches!(sign, Sign::Row) { Role::Own } else { Role::Neighbour };
            let pen = pen(Look::Circle, role, None);
            pen.outline(&mut page.svg, &along, &whole, &[]);
            pen.core(&mut page.svg, &along, &whole);
        }
        Sign::Woven => {
            let half = Strand { front: vec![(0.0, 1.0)], behind: vec![(1.0, 2.0)], cut: false };
            pen(Look::Loop, Role::Own, None).outline(&mut page.svg, &along, &half, &[]);
        }
        Sign::Gap | Sign::Open => {
            let across = Curve::oval(point(centre.x, middle - 2.6), point(centre.x, middle + 2.6), 0.0, 0.0);
            let pen = pen(Look::Circle, Role::Passed, None);
            let cut = Strand { front: vec![(0.0, 0.78), (1.22, 2.0)], ..Strand::default() };
            let lower = if matches!(sign, Sign::Gap) { &cut } else { &whole };
            pen.outline(&mut page.svg, &along, lower, &[]);
            pen.outline(&mut page.svg, &across, &whole, &[]);
            pen.core(&mut page.svg, &along, lower);
            pen.core(&mut page.svg, &across, &whole);
        }
        Sign::Accent(number) => {
            let pen = pen(Look::Loop, Role::Own, Some(*number));
            pen.outline(&mut page.svg, &along, &whole, &[]);
            pen.core(&mut page.svg, &along, &whole);
        }
    }
}
