//! What a pose must satisfy: rings with their sizes, how they repeat, which of them are linked.

use crate::pattern::{FamilyId, Lattice, Pattern, Shift};
use crate::rings::Cell;
use crate::settle::pair::Circle;
use glam::DVec3;
use petgraph::graph::NodeIndex;
use petgraph::visit::EdgeRef;

/// The size of a ring.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RingSize {
    /// Core radius, mm: half of inner diameter plus wire.
    pub radius: f64,
    /// Wire diameter, mm.
    pub wire: f64,
}

impl RingSize {
    /// The size of a ring where the text gives none.
    pub(crate) const UNKNOWN: Self = Self { radius: 1.0, wire: 1.0 };
}

/// A link the weave has: between ring `from` and the image of ring `to` that is `shift` repeats on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Wanted {
    /// Number of the ring.
    pub from: usize,
    /// Number of the other.
    pub to: usize,
    /// Repeats from one to the other.
    pub shift: Shift,
    /// +1 down, −1 up.
    pub sign: i8,
}

/// Rings of one repeat, how the repeat goes on, and the links. All other pairs must be unlinked.
#[derive(Clone, Debug)]
pub struct Problem {
    /// Sizes, in the order of the rings of the repeat.
    pub rings: Vec<RingSize>,
    /// Links, each once.
    pub links: Vec<Wanted>,
    /// Along how many ways it repeats: 0, 1 or 2.
    pub ways: usize,
    /// Whether a repeat may turn about the length of the chain.
    pub spiral: bool,
    /// How many repeats of the weave are taken as one, along each way: 1 or 2. The rings of the second follow
    /// those of the first.
    pub times: Shift,
}

impl Problem {
    /// The problem of a repeat, its rings sized by `size`.
    pub fn of(pattern: &Pattern, cell: &Cell, size: impl Fn(FamilyId) -> RingSize) -> Self {
        let rings = cell.graph.node_weights().map(|r| size(r.family)).collect();
        let links = cell
            .graph
            .edge_references()
            .map(|e| Wanted {
                from: e.source().index(),
                to: e.target().index(),
                shift: e.weight().shift,
                sign: e.weight().sign,
            })
            .collect();
        let spiral = pattern.spiral && pattern.lattice == Lattice::Chain;
        Self { rings, links, ways: pattern.lattice.dimensions(), spiral, times: Shift::ONE }
    }

    /// The mean core radius, mm: the measure of every step and margin.
    pub fn mean_radius(&self) -> f64 {
        let count = u32::try_from(self.rings.len()).map_or(f64::INFINITY, f64::from);
        self.rings.iter().map(|r| r.radius).sum::<f64>() / count.max(1.0)
    }

    /// The same weave with two repeats along `way` (0 or 1) taken as one: rings of every second repeat may
    /// lie otherwise, as those of a plain chain do, which stand crosswise.
    #[must_use]
    pub fn doubled(&self, way: usize) -> Self {
        let count = self.rings.len();
        let mut links = Vec::new();
        for link in &self.links {
            for half in 0..2 {
                let mut shift = link.shift;
                let there = half + shift.along(way);
                *shift.along_mut(way) = there.div_euclid(2);
                let number = |ring: usize, half: i32| if half == 0 { ring } else { count + ring };
                links.push(Wanted {
                    from: number(link.from, half),
                    to: number(link.to, there.rem_euclid(2)),
                    shift,
                    sign: link.sign,
                });
            }
        }
        let mut times = self.times;
        *times.along_mut(way) *= 2;
        Self { rings: [self.rings.clone(), self.rings.clone()].concat(), links, times, ..self.clone() }
    }

    /// Every way of turning rings over in every second repeat that is tried. None of them changes a link.
    pub(crate) fn turnings(&self) -> &'static [[bool; 2]] {
        match self.ways {
            0 => &[[false, false]],
            1 => &[[false, false], [true, false]],
            _ => &[[false, false], [true, false], [false, true], [true, true]],
        }
    }

    /// The ring of this problem that a ring of the weave's own repeat is, `shift` such repeats on: its number and shift.
    pub fn place(&self, ring: usize, shift: Shift) -> (usize, Shift) {
        let mut count = self.rings.len();
        let mut ring = ring;
        let (half, shift) = shift.fold(self.times);
        for way in [0, 1].into_iter().filter(|way| self.times.along(*way) == 2) {
            count /= 2;
            ring += if half.along(way) == 1 { count } else { 0 };
        }
        (ring, shift)
    }

    /// The ring of the weave's own repeat that a ring of this problem is, and in which of the repeats taken as one:
    /// the other way round than [`place`](Self::place).
    pub fn home(&self, ring: usize) -> (usize, Shift) {
        let mut count = self.rings.len();
        let (mut ring, mut half) = (ring, Shift::ZERO);
        for way in [0, 1].into_iter().filter(|way| self.times.along(*way) == 2) {
            count /= 2;
            if ring >= count {
                ring -= count;
                *half.along_mut(way) = 1;
            }
        }
        (ring, half)
    }

    /// The family of a ring and the repeat of the base it stands in, from 0; `cell` is the weave's own repeat.
    pub(crate) fn stands(&self, cell: &Cell, ring: usize) -> Option<(FamilyId, Shift)> {
        let (ring, half) = self.home(ring);
        let ring = cell.graph.node_weight(NodeIndex::new(ring))?;
        Some((ring.family, ring.phase + half.times(cell.period)))
    }

    /// The sign wanted of a pair; 0 for rings that are not to be linked.
    pub fn wanted(&self, from: usize, to: usize, shift: Shift) -> i8 {
        let back = -shift;
        let link = self
            .links
            .iter()
            .find(|l| (l.from, l.to, l.shift) == (from, to, shift) || (l.to, l.from, l.shift) == (from, to, back));
        link.map_or(0, |l| l.sign)
    }
}

/// Where the rings of one repeat lie and how the repeat goes on.
#[derive(Clone, Debug, PartialEq)]
pub struct Pose {
    /// The rings of the repeat.
    pub rings: Vec<Circle>,
    /// Shift of one repeat along each way, mm; zero where it does not repeat that way. A chain runs along x.
    pub ways: [DVec3; 2],
    /// How far each repeat turns about the x axis, radians.
    pub twist: f64,
    /// Along which ways the rings of every second repeat are turned over: front to back, where they lie.
    pub turned: [bool; 2],
}

impl Pose {
    /// The image of a ring `shift` repeats on.
    pub fn image(&self, ring: usize, shift: Shift) -> Option<Circle> {
        let circle = *self.rings.get(ring)?;
        Some(self.moved(circle, shift))
    }

    /// A circle moved on by `shift` repeats.
    pub fn moved(&self, circle: Circle, shift: Shift) -> Circle {
        let away = self.ways[0] * f64::from(shift.row) + self.ways[1] * f64::from(shift.column);
        let circle = if turned_over(self.turned, shift) { circle.turned_over() } else { circle };
        if self.twist == 0.0 {
            return Circle { centre: circle.centre + away, ..circle };
        }
        let (sin, cos) = libm::sincos(self.twist * f64::from(shift.row));
        Circle { centre: turn(circle.centre, sin, cos) + away, normal: turn(circle.normal, sin, cos), ..circle }
    }

    /// The same pose `by` times as large.
    #[must_use]
    pub(crate) fn scaled(&self, by: f64) -> Self {
        let rings = self.rings.iter().map(|r| Circle { centre: r.centre * by, radius: r.radius * by, ..*r });
        Self { rings: rings.collect(), ways: self.ways.map(|way| way * by), ..self.clone() }
    }

    /// A direction turned on by `shift` repeats.
    pub fn turned_on(&self, v: DVec3, shift: Shift) -> DVec3 {
        if self.twist == 0.0 {
            return v;
        }
        let (sin, cos) = libm::sincos(self.twist * f64::from(shift.row));
        turn(v, sin, cos)
    }

    /// What is pulled at, mm: the length of the repeat, of a sheet along both ways together.
    pub fn length(&self) -> f64 {
        self.ways[0].x + self.ways[1].y
    }

    /// Every pair of rings near enough to matter, each once: numbers of the two and the shift of the
    /// second, for all pairs whose centres are nearer than both radii and `more` mm.
    pub fn pairs(&self, more: f64) -> Vec<(usize, usize, Shift)> {
        let mut pairs = Vec::new();
        let far = Shift::new(self.reach(self.ways[0], more), self.reach(self.ways[1], more));
        for (i, a) in self.rings.iter().enumerate() {
            for (j, b) in self.rings.iter().enumerate().skip(i) {
                for shift in (-far).up_to(far) {
                    // Of a ring and its own images each pair is seen from both ends.
                    if i == j && shift <= Shift::ZERO {
                        continue;
                    }
                    let image = self.moved(*b, shift);
                    let limit = a.radius + b.radius + more;
                    if a.centre.distance_squared(image.centre) < limit * limit {
                        pairs.push((i, j, shift));
                    }
                }
            }
        }
        pairs
    }

    /// How many repeats away along a way a ring can still be near; 0 where it does not repeat that way.
    fn reach(&self, way: DVec3, more: f64) -> i32 {
        const MOST: i32 = 12;
        if way == DVec3::ZERO {
            return 0;
        }
        let widest = self.rings.iter().map(|r| r.radius).fold(0.0, f64::max);
        let low = self.rings.iter().map(|r| r.centre).fold(DVec3::INFINITY, DVec3::min);
        let high = self.rings.iter().map(|r| r.centre).fold(DVec3::NEG_INFINITY, DVec3::max);
        // Along a slanting second way a repeat brings less than its length.
        let other = if self.ways[1] == DVec3::ZERO { 0.0 } else { self.ways[0].length().max(self.ways[1].length()) };
        let far = 2.0 * widest + more + (high - low).length() + other;
        (1..MOST).find(|n| f64::from(*n) * way.length() > far).unwrap_or(MOST)
    }
}

/// Whether a ring so many repeats on is turned over, where those of every second repeat along the ways `turned`
/// are.
pub(crate) fn turned_over(turned: [bool; 2], shift: Shift) -> bool {
    turned.iter().zip(shift.to_array()).filter(|(turned, shift)| **turned && shift.rem_euclid(2) == 1).count() == 1
}

fn turn(v: DVec3, sin: f64, cos: f64) -> DVec3 {
    DVec3::new(v.x, cos * v.y - sin * v.z, sin * v.y + cos * v.z)
}
