//! A weave as a net: each ring a knot, each link a string of equal pull. Where the knots come to rest says how
//! the rings are arranged before anything is known of their size.

use super::problem::{Problem, turned_over};
use crate::pattern::Shift;
use glam::{DMat2, DVec2, DVec3};

/// The most times every knot is moved between its neighbours.
const MOST_ROUNDS: usize = 1_000;
/// The most ends looked at for that in all.
const MOST_MOVES: usize = 1_000_000;
/// The most times the faces of all rings are gone over.
const MOST_TURNS: usize = 20;

/// One end of a link.
#[derive(Clone, Copy, Debug)]
pub(crate) struct End {
    /// The ring at the other end.
    pub(crate) ring: usize,
    /// Repeats from this ring to that one.
    pub(crate) shift: Shift,
    /// +1 down, −1 up.
    pub(crate) sign: i8,
}

/// The rings at rest, in repeats along each way.
pub(crate) struct Net {
    ends: Vec<Vec<End>>,
    places: Vec<DVec2>,
}

impl Net {
    /// The net of a problem, each ring in the middle of those it is linked with (Tutte, Proc. LMS 13 (1963);
    /// for nets that repeat, Kotani and Sunada's standard realisation; both from memory).
    pub(crate) fn of(problem: &Problem) -> Self {
        let mut ends = vec![Vec::new(); problem.rings.len()];
        for link in &problem.links {
            let back = -link.shift;
            for (own, ring, shift) in [(link.from, link.to, link.shift), (link.to, link.from, back)] {
                if let Some(ends) = ends.get_mut(own) {
                    ends.push(End { ring, shift, sign: link.sign });
                }
            }
        }
        let mut net = Self { places: vec![DVec2::ZERO; ends.len()], ends };
        for _ in 0..MOST_ROUNDS.min(MOST_MOVES / problem.links.len().max(1)) {
            for ring in 0..net.ends.len() {
                net.rest(ring);
            }
        }
        net
    }

    /// Brings a ring to the middle of those it is linked with.
    fn rest(&mut self, ring: usize) {
        let (sum, count) = self
            .ends(ring)
            .iter()
            .fold((DVec2::ZERO, 0.0), |(sum, count), end| (sum + self.span(ring, end), count + 1.0));
        if let Some(place) = self.places.get_mut(ring).filter(|_| count > 0.0) {
            *place += sum / count;
        }
    }

    /// The links of a ring.
    pub(crate) fn ends(&self, ring: usize) -> &[End] {
        self.ends.get(ring).map_or(&[], Vec::as_slice)
    }

    /// Where a ring comes to rest.
    pub(crate) fn place(&self, ring: usize) -> DVec2 {
        self.places.get(ring).copied().unwrap_or_default()
    }

    /// From a ring to one it is linked with.
    pub(crate) fn span(&self, ring: usize, end: &End) -> DVec2 {
        self.place(end.ring) + DVec2::from_array(end.shift.to_array().map(f64::from)) - self.place(ring)
    }

    /// The ways at which the strings pull alike in every direction, the longest string `longest` long: equal
    /// links make square and triangular sheets. `None` where the strings pull along fewer ways than there are.
    pub(crate) fn lattice(&self, ways: usize, longest: f64) -> Option<[DVec3; 2]> {
        let spans =
            || self.ends.iter().enumerate().flat_map(|(ring, ends)| ends.iter().map(move |e| self.span(ring, e)));
        let mut pull = spans().fold(DMat2::ZERO, |pull, s| pull + DMat2::from_cols(s * s.x, s * s.y));
        if ways == 1 {
            pull.y_axis.y = 1.0;
        }
        let least = 1e-9 * pull.x_axis.x * pull.y_axis.y;
        if ways == 0 || least.is_nan() || pull.determinant() <= least {
            return None;
        }
        // A way along which the strings pull hard must be short: the products of the ways with each other are the
        // inverse of those of the strings.
        let products = pull.inverse();
        let first = products.x_axis.x.sqrt();
        let along = products.x_axis.y / first;
        let across = (products.y_axis.y - along * along).max(0.0).sqrt();
        let plane = DMat2::from_cols(DVec2::new(first, 0.0), DVec2::new(along, across));
        let now = spans().map(|s| (plane * s).length()).fold(0.0, f64::max);
        let plane = plane * (longest / now);
        plane.is_finite().then(|| [plane.x_axis.extend(0.0), plane.y_axis.extend(0.0)])
    }

    /// Which rings can lie flat, and with which face up: +1 the front, −1 the back, 0 for a woven ring. No two
    /// flat rings are linked; rings with most links come first. A woven ring does best to go down through as
    /// many as it comes up through, so faces are turned until no turn brings that nearer.
    pub(crate) fn faces(&self, turned: [bool; 2]) -> Vec<i8> {
        let count = self.ends.len();
        let mut order: Vec<usize> = (0..count).collect();
        order.sort_by_key(|ring| std::cmp::Reverse(self.ends(*ring).len()));
        let mut faces = vec![0_i8; count];
        for ring in order {
            let free = |end: &End| end.ring != ring && faces.get(end.ring) == Some(&0);
            let free = self.ends(ring).iter().all(free);
            if let Some(face) = faces.get_mut(ring).filter(|_| free) {
                *face = 1;
            }
        }
        for _ in 0..MOST_TURNS {
            let mut better = false;
            for ring in (0..count).filter(|ring| !self.ends(*ring).is_empty()) {
                let before = self.unevenness(ring, &faces, turned);
                turn(&mut faces, ring);
                if self.unevenness(ring, &faces, turned) < before {
                    better = true;
                } else {
                    turn(&mut faces, ring);
                }
            }
            if !better {
                break;
            }
        }
        faces
    }

    /// By how much the woven rings at the ends of a ring's links go down more often than up, or up than down:
    /// the sum of squares.
    fn unevenness(&self, ring: usize, faces: &[i8], turned: [bool; 2]) -> i32 {
        let excess =
            |end: &End| self.ends(end.ring).iter().map(|end| i32::from(end.passes(faces, turned))).sum::<i32>();
        self.ends(ring).iter().map(|end| excess(end).pow(2)).sum()
    }
}

fn turn(faces: &mut [i8], ring: usize) {
    if let Some(face) = faces.get_mut(ring) {
        *face = -*face;
    }
}

impl End {
    /// Whether the ring passes that at the other end downwards as it lies (1), or upwards (−1); 0 where that
    /// one does not lie flat.
    pub(crate) fn passes(&self, faces: &[i8], turned: [bool; 2]) -> i8 {
        let face = faces.get(self.ring).copied().unwrap_or(0) * self.sign;
        if turned_over(turned, self.shift) { -face } else { face }
    }
}
