//! Where the bands of two rings lie over one another as they are seen, piece of ring by piece of ring.

use super::ellipse::Ellipse;
use glam::DVec3;
use std::f64::consts::TAU;

/// Pieces a ring is looked at in. Each is much shorter than its wire is thick.
pub const PIECES: usize = 120;
/// Bands nearer than this part of their wire meet: the gap beside the nearer one is drawn over the other.
const BESIDE: f64 = 0.2;
/// Pieces of one ring that are fewer apart run into one another.
const BEND: usize = 6;
/// Wires that overlap as they are seen are in depth as far apart as this part of them, at least; others touch side by side.
const CLEAR: f64 = 0.25;
/// Pieces whose depths differ by less than this part of their wire only touch side by side.
const LEVEL: f64 = 0.05;

/// Two pieces that lie over one another: their numbers on the one ring and on the other, and whether the first is
/// nearer to the viewer.
#[derive(Clone, Copy, Debug)]
pub struct Meeting {
    /// Numbers of the pieces.
    pub pieces: [usize; 2],
    /// Whether the one is over the other.
    pub first_over: bool,
    /// Whether the bands really overlap; else the one only comes into the gap beside the other.
    pub overlap: bool,
}

/// The middle of a piece, as an angle.
pub fn angle(piece: usize) -> f64 {
    let number = |n: usize| u32::try_from(n).map_or(0.0, f64::from);
    TAU * number(piece) / number(PIECES)
}

/// The points in the middle of all pieces of a ring.
pub fn points(ellipse: &Ellipse) -> Vec<DVec3> {
    (0..PIECES).map(|piece| ellipse.at(angle(piece))).collect()
}

/// Where a ring lies over itself: the near half of a narrow one over its far half.
pub fn own_meetings(ellipse: &Ellipse, points: &[DVec3]) -> Vec<Meeting> {
    let wire = ellipse.wire;
    let mut all = Vec::new();
    if ellipse.half_short() > wire {
        return all;
    }
    for (one, p) in points.iter().enumerate() {
        for (other, q) in points.iter().enumerate().skip(one + BEND) {
            let round = one + PIECES - other >= BEND;
            let overlap = (*p - *q).truncate().length_squared() < wire * wire && (p.z - q.z).abs() > CLEAR * wire;
            if round && overlap {
                all.push(Meeting { pieces: [one, other], first_over: p.z > q.z, overlap });
            }
        }
    }
    all
}

/// Every meeting of two rings, given their points.
pub fn meetings(a: (&Ellipse, &[DVec3]), b: (&Ellipse, &[DVec3])) -> Vec<Meeting> {
    let wire = 0.5 * (a.0.wire + b.0.wire);
    let within = wire * (1.0 + BESIDE);
    // Pieces outside of the other's frame meet nothing.
    let [left, low, right, high] = b.0.reach();
    let inside = |p: &DVec3| p.x > left - wire && p.x < right + wire && p.y > low - wire && p.y < high + wire;
    let mut all = Vec::new();
    for (one, p) in a.1.iter().enumerate().filter(|(_, p)| inside(p)) {
        for (other, q) in b.1.iter().enumerate() {
            let away = (*p - *q).truncate();
            let far = away.length_squared();
            if far < within * within && (p.z - q.z).abs() > LEVEL * wire {
                let overlap = far < wire * wire && (p.z - q.z).abs() > CLEAR * wire;
                all.push(Meeting { pieces: [one, other], first_over: p.z > q.z, overlap });
            }
        }
    }
    all
}
