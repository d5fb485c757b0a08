//! Where the rings are drawn: families in rows. Lengths are in ring radii.
//!
//! Rings that go through nothing, and rings that go through one another in a circle, make up the rows, in the order the text
//! declares them. In a row, rings overlap if they share an eye or go through one another; others keep apart. Every other ring
//! lies in the middle of the rings it goes through.

use super::families::{depths, group_rows, looks, together, twins};
use super::threadings::{Name, Threading, by_family};
use crate::draw::plane::{length, middle, number};
use crate::pattern::{FamilyId, Lattice, Pattern, PerFamily, Shift};
use kurbo::{Point, Vec2};
use std::collections::BTreeMap;

pub use super::families::Look;

/// The places of all rings.
pub struct Layout {
    looks: PerFamily<Look>,
    depths: PerFamily<Option<usize>>,
    lattice: Lattice,
    base: PerFamily<Point>,
    /// From one repeat (one row of a sheet) to the next, and from column to column.
    steps: [Vec2; 2],
}

/// Distance of rings that keep apart, and of the rows of a sheet.
const APART: f64 = 2.6;
const ROWS: f64 = 2.2;
/// Distance of two rings that overlap: the lens is as wide as what is left of each ring beside it.
const OVERLAP: f64 = 1.3;
/// How far below its twin a ring lies.
const TWIN: f64 = 0.55;
/// More neighbours than this cannot be told apart in a row.
const MOST_OVERLAPPING: i32 = 6;

impl Layout {
    /// The places of a pattern's rings.
    pub fn of(pattern: &Pattern, threadings: &[Threading]) -> Self {
        let depths = depths(pattern, threadings);
        let looks = looks(pattern, threadings, &depths);
        let mut layout = Self {
            looks,
            depths,
            lattice: pattern.lattice,
            base: pattern.families.map(|_| Point::ZERO),
            steps: [Vec2::ZERO; 2],
        };
        let rooted: Vec<FamilyId> = pattern
            .families
            .ids()
            .filter(|f| {
                layout.look(*f) == Look::Circle
                    && (layout.lattice == Lattice::Unit || layout.depth(*f).is_none_or(|d| d == 0))
            })
            .collect();
        if layout.lattice == Lattice::Unit {
            layout.round(&rooted, threadings);
        } else {
            layout.rows(&rooted, threadings);
        }
        layout.amidst(&rooted, threadings);
        layout
    }

    /// How a family is drawn.
    pub fn look(&self, family: FamilyId) -> Look {
        self.looks[family]
    }

    /// How many layers of rings a family rests on; none where rings go through one another in a circle.
    pub fn depth(&self, family: FamilyId) -> Option<usize> {
        self.depths[family]
    }

    /// The centre of a ring.
    pub fn at(&self, (family, offset): Name) -> Point {
        self.base[family] + self.steps[0] * f64::from(offset.row) + self.steps[1] * f64::from(offset.column)
    }

    /// The centre of a ring in mm, where circles have this radius.
    pub fn centre(&self, ring: Name, radius: f64) -> Point {
        (self.at(ring).to_vec2() * radius).to_point()
    }

    /// The middle of all rings a threading goes through.
    pub fn middle_of(&self, threading: &Threading) -> Point {
        middle(&threading.through.iter().map(|n| self.at(*n)).collect::<Vec<_>>())
    }

    fn set(&mut self, family: FamilyId, at: Point) {
        self.base[family] = at;
    }

    /// The rings of a unit, on a circle in the order of the text. Of two rings the first is on the left, of more it is at the
    /// top.
    fn round(&mut self, rooted: &[FamilyId], threadings: &[Threading]) {
        let count = rooted.len();
        let slots: BTreeMap<FamilyId, usize> =
            rooted.iter().enumerate().map(|(slot, family)| (*family, slot)).collect();
        let far = together(threadings, &slots)
            .map(|(one, other)| {
                let d = one.0.abs_diff(other.0);
                d.min(count.saturating_sub(d))
            })
            .max()
            .unwrap_or(0);
        let turn = |slots: usize| core::f64::consts::PI * number(slots) / number(count.max(1));
        let radius = match (count, far) {
            (0 | 1, _) => 0.0,
            (_, 0) => APART / 2.0 / libm::sin(turn(1)),
            (2, _) => OVERLAP / 2.0,
            _ => 0.7 / libm::sin(turn(far)),
        };
        for (slot, family) in rooted.iter().enumerate() {
            let start = if count == 2 { core::f64::consts::PI } else { -core::f64::consts::FRAC_PI_2 };
            let angle = start + 2.0 * turn(slot);
            self.set(*family, Point::new(radius * libm::cos(angle), radius * libm::sin(angle)));
        }
    }

    /// The rings of a chain or sheet, in rows.
    fn rows(&mut self, rooted: &[FamilyId], threadings: &[Threading]) {
        let across = usize::from(self.lattice == Lattice::Sheet);
        let twins = twins(rooted, threadings);
        let firsts: Vec<FamilyId> = rooted.iter().filter(|f| !twins.contains_key(f)).copied().collect();
        let rows = group_rows(&firsts, threadings);
        let mut slots: BTreeMap<FamilyId, usize> =
            rows.iter().flat_map(|row| row.iter().enumerate().map(|(s, f)| (*f, s))).collect();
        let mut row_of: BTreeMap<FamilyId, usize> =
            rows.iter().enumerate().flat_map(|(r, row)| row.iter().map(move |f| (*f, r))).collect();
        for (twin, (first, _)) in &twins {
            for map in [&mut slots, &mut row_of] {
                map.get(first).copied().map(|value| map.insert(*twin, value));
            }
        }
        let mut reach = vec![0_i32; rows.len()];
        let mut reach_down = 0_i32;
        for (one, other) in together(threadings, &slots) {
            let row = row_of.get(&one.1.0).copied().unwrap_or(0);
            let wide = i32::try_from(rows.get(row).map_or(1, Vec::len)).unwrap_or(1);
            let along =
                |end: &(usize, (FamilyId, Shift))| end.1.1.along(across) * wide + i32::try_from(end.0).unwrap_or(0);
            if let Some(reach) = reach.get_mut(row) {
                *reach = (*reach).max((along(&one) - along(&other)).abs());
            }
            if across == 1 {
                reach_down = reach_down.max((one.1.1.row - other.1.1.row).abs());
            }
        }
        let width =
            rows.iter().zip(&reach).map(|(row, reach)| number(row.len()) * pitch(*reach, APART)).fold(0.0, f64::max);
        let width = if width > 0.0 { width } else { APART };
        let eyed = reach.iter().any(|r| *r > 0);
        let down = pitch(reach_down, if eyed { ROWS } else { APART });
        let height = number(rows.len().max(1)) * down;
        self.steps = if across == 1 {
            [Vec2::new(0.0, height), Vec2::new(width, 0.0)]
        } else {
            [Vec2::new(width, 0.0), Vec2::ZERO]
        };
        for (line, row) in rows.iter().enumerate() {
            for (slot, family) in row.iter().enumerate() {
                self.set(*family, Point::new(width * number(slot) / number(row.len()), number(line) * down));
            }
        }
        for (twin, (first, nth)) in twins {
            self.set(twin, self.at((first, Shift::ZERO)) + Vec2::new(0.0, TWIN * number(nth)));
        }
    }

    /// Every other ring lies in the middle of what it goes through; a circle moves down where a ring is already.
    fn amidst(&mut self, rooted: &[FamilyId], threadings: &[Threading]) {
        let of = by_family(threadings);
        let mut order: Vec<FamilyId> = self.looks.ids().filter(|f| !rooted.contains(f)).collect();
        order.sort_by_key(|f| self.depth(*f).unwrap_or(usize::MAX));
        let mut taken: Vec<FamilyId> = rooted.to_vec();
        for family in order {
            let passed = of.get(&family).map_or(&[][..], Vec::as_slice);
            let mut at = middle(&passed.iter().map(|g| self.middle_of(g)).collect::<Vec<_>>());
            if self.look(family) == Look::Circle {
                let near = |at: Point| {
                    taken.iter().take(60).any(|t| {
                        (-3..=3).any(|step| {
                            let offset =
                                if self.lattice == Lattice::Sheet { Shift::new(0, step) } else { Shift::new(step, 0) };
                            length(self.at((*t, offset)) - at) < 0.4
                        })
                    })
                };
                for _ in 0..5 {
                    if near(at) {
                        at += Vec2::new(0.0, 0.8);
                    }
                }
                taken.push(family);
            }
            self.set(family, at);
        }
    }
}

/// Distance of neighbours in a row when rings up to `reach` places apart overlap and no others do.
fn pitch(reach: i32, apart: f64) -> f64 {
    match reach.min(MOST_OVERLAPPING) {
        0 => apart,
        1 => OVERLAP,
        reach => 2.28 / (f64::from(reach) + 1.0),
    }
}
