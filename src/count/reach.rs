//! How far a piece reaches along a way when it is drawn out, end rings included.
//!
//! It is more than whole repeats: the first and the last rings reach beyond the repeats they belong to, and `ends`
//! drops some. The settled pose gives the place of every ring, and so both ends.

use crate::pattern::{EndPlace, Lattice, Pattern, Repeats, some_stretch};
use crate::rings::Piece;
use crate::settle::{Homes, Pose, Settled, Sizes};
use crate::weave::Weave;
use glam::DVec3;

/// The most rings of a piece that is as short as its ends allow; `ends` may name a ring far inside.
const MOST_AT_ENDS: u32 = 50_000;

/// From edge to edge along a way of a piece, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Edges {
    /// From the outer edge of the first ring to the outer edge of the last, as a ruler on the bench shows it.
    pub outer_mm: f64,
    /// From the edge of the first hole to the edge of the last, between the loops of a clasp.
    pub inside_mm: f64,
}

/// One ring of the settled repeat along one way.
#[derive(Clone, Copy, Debug)]
struct Stand {
    /// Its centre.
    place: f64,
    /// Half of its core circle, as it lies.
    half: f64,
    /// Its wire.
    wire: f64,
}

/// How far the rings of a settled weave reach.
#[derive(Clone, Debug)]
pub struct Reach {
    homes: Homes,
    /// Length of one repeat of the base along each way, as a ruler measures it, mm: down the rows and across the
    /// columns of a sheet.
    pub pitch_mm: Vec<f64>,
    /// The rings of the settled repeat, along each way.
    rings: Vec<[Stand; 2]>,
}

impl Reach {
    /// Of a weave of this lattice drawn out; settles it. `None` where sizes are not in mm, where the weave does not
    /// close at them, or where rings stretch.
    pub(super) fn of_weave(weave: &Weave, lattice: Lattice) -> Option<Self> {
        let pattern = weave.pattern();
        let rigid = pattern.lattice == lattice && Sizes::of(pattern).all_in_mm && !some_stretch(pattern);
        if rigid { Self::of(weave.settled().ok()?) } else { None }
    }

    /// Of a settled weave drawn out. `None` where it does not close, or where no length is known.
    pub fn of(settled: &Settled) -> Option<Self> {
        let natural = settled.natural.as_ref().filter(|_| settled.closes() == Some(true))?;
        Self::of_pose(settled, &settled.view.pose, settled.wire, natural)
    }

    /// Of the weave with rings of this aspect ratio and an inner diameter of 1 mm; `None` below the floor, for a unit,
    /// and where rings differ in size.
    pub fn at_ratio(settled: &Settled, ratio: f64) -> Option<Self> {
        let (pose, wire) = settled.drawn_out_at(ratio)?;
        let inner = settled.problem.rings.first().map(|r| 2.0 * r.radius - r.wire * wire).filter(|i| *i > 0.0)?;
        Some(Self::of_pose(settled, &pose, wire, &settled.lengths(&pose))?.scaled(1.0 / inner))
    }

    fn of_pose(settled: &Settled, pose: &Pose, wire: f64, natural: &[f64]) -> Option<Self> {
        let directions = directions(settled.lattice, pose)?;
        let pitch = natural.iter().zip(directions).zip(pose.ways).map(|((mm, along), way)| {
            // In a skew sheet the height of a row is less than the distance from row to row.
            mm * way.normalize_or_zero().dot(along).abs()
        });
        let pitch_mm: Vec<f64> = pitch.collect();
        if pitch_mm.is_empty() || !pitch_mm.iter().all(|mm| mm.is_finite() && *mm > 0.0) {
            return None;
        }
        let rings = pose.rings.iter().zip(&settled.problem.rings).map(|(circle, size)| {
            directions.map(|along| {
                let tilt = circle.normal.dot(along);
                let half = circle.radius * libm::sqrt((1.0 - tilt * tilt).max(0.0));
                Stand { place: circle.centre.dot(along), half, wire: size.wire * wire }
            })
        });
        Some(Self { homes: Homes::of(settled), pitch_mm, rings: rings.collect() })
    }

    /// The same with all rings `by` times as large.
    #[must_use]
    pub fn scaled(&self, by: f64) -> Self {
        let grown = |s: &Stand| Stand { place: s.place * by, half: s.half * by, wire: s.wire * by };
        Self {
            homes: self.homes.clone(),
            pitch_mm: self.pitch_mm.iter().map(|mm| mm * by).collect(),
            rings: self.rings.iter().map(|both| both.each_ref().map(grown)).collect(),
        }
    }

    /// From edge to edge of a piece along a way: 0 along a chain or down the rows of a sheet, 1 across its columns.
    /// Rings that `ends` adds where the repeat has none are left out, since it is not known how they lie. `None` where
    /// the piece has no ring, where its ends have too many, or where the weave does not repeat that way.
    pub fn edges(&self, weave: &Weave, size: Repeats, way: usize) -> Option<Edges> {
        let pitch = *self.pitch_mm.get(way)?;
        let short = self.short(weave.pattern(), size);
        let families = u32::try_from(weave.pattern().families.len()).unwrap_or(u32::MAX);
        if short.0.iter().fold(families, |all, n| all.saturating_mul(*n)) > MOST_AT_ENDS {
            return None;
        }
        let left_out = f64::from(size.0.get(way)? - short.0.get(way)?) * pitch;
        let piece = weave.piece(short).ok()?;
        let [outer, inside] = self.ends(&piece, way, pitch)?;
        Some(Edges { outer_mm: outer + left_out, inside_mm: inside + left_out })
    }

    /// The number of repeats along a way that comes nearest to `asked` mm, from 1 to `most`; `length` gives the length
    /// of a number of repeats.
    pub(super) fn nearest(
        &self,
        asked: f64,
        way: usize,
        most: u32,
        length: impl Fn(u32) -> Option<f64>,
        pitch: f64,
    ) -> Option<u32> {
        let near = |repeats: f64| {
            #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // Clamped to what a u32 holds.
            let near = libm::round(repeats).clamp(1.0, f64::from(most)) as u32;
            near
        };
        let mut repeats = near(asked / pitch);
        for _ in 0..3 {
            repeats = near(f64::from(repeats) + (asked - length(repeats)?) / pitch);
        }
        // Ends differ with the accents that fall on them.
        let around = self.homes.repeats().along(way).unsigned_abs().clamp(2, 16);
        let tried = repeats.saturating_sub(around).max(1)..=repeats.saturating_add(around).min(most);
        let off = |n: u32| length(n).map(|mm| (asked - mm).abs());
        // Of two that come equally near, the first.
        let best = tried
            .filter_map(|n| Some((n, off(n)?)))
            .reduce(|best, next| if next.1 < best.1 - 1e-9 { next } else { best });
        best.map(|(n, _)| n)
    }

    /// Outer and inner extent of the rings of a piece along a way.
    fn ends(&self, piece: &Piece, way: usize, pitch: f64) -> Option<[f64; 2]> {
        let settled_repeat = pitch * f64::from(self.homes.repeats().along(way));
        let mut ends: Option<[[f64; 2]; 2]> = None;
        for ring in piece.graph.node_weights() {
            let Some((home, shift)) = self.homes.of_ring(ring.family, ring.at) else { continue };
            let stand = self.rings.get(home)?.get(way)?;
            let place = stand.place + settled_repeat * f64::from(shift.along(way));
            let reaches = [stand.half + 0.5 * stand.wire, stand.half - 0.5 * stand.wire];
            let own = reaches.map(|reach| [place - reach, place + reach]);
            ends = Some(match ends {
                None => own,
                Some([outer, inside]) => [wider(outer, own[0]), wider(inside, own[1])],
            });
        }
        ends.map(|ends| ends.map(|[low, high]| high - low))
    }

    /// A piece with the same ends as one of this size, and as short as may be.
    fn short(&self, pattern: &Pattern, size: Repeats) -> Repeats {
        let mut short = size;
        for (way, repeats) in short.0.iter_mut().enumerate() {
            let Some(pitch) = self.pitch_mm.get(way) else { continue };
            let named = pattern.ends.iter().filter_map(|e| e.at.get(way)).map(|place| match place {
                EndPlace::At(n) | EndPlace::Last(n) => n.unsigned_abs(),
                EndPlace::All => 0,
            });
            let from = pattern.accents.iter().map(|a| a.from.along(way).unsigned_abs());
            let widest =
                self.rings.iter().filter_map(|r| r.get(way)).map(|s| 2.0 * s.half + s.wire).fold(0.0, f64::max);
            #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // Clamped.
            let widest = libm::ceil(widest / pitch).clamp(0.0, 1e6) as u32;
            let period = self.homes.repeats().along(way).unsigned_abs();
            let least = named.max().unwrap_or(0).saturating_mul(2);
            let least = least.saturating_add(from.max().unwrap_or(0)).saturating_add(2 * (widest + period + 2));
            if *repeats > least {
                *repeats = least + (*repeats - least) % period;
            }
        }
        short
    }
}

fn wider(one: [f64; 2], other: [f64; 2]) -> [f64; 2] {
    [one[0].min(other[0]), one[1].max(other[1])]
}

/// The directions in which a piece is measured: a chain along its length; a sheet across its columns, and at right
/// angles to that down its rows. `None` for a unit.
fn directions(lattice: Lattice, pose: &Pose) -> Option<[DVec3; 2]> {
    match lattice {
        Lattice::Unit => None,
        Lattice::Chain => Some([DVec3::X, DVec3::X]),
        Lattice::Sheet => {
            let across = pose.ways[1].normalize_or_zero();
            let down = pose.ways[0] - across * across.dot(pose.ways[0]);
            Some([down.normalize_or_zero(), across])
        }
    }
}
