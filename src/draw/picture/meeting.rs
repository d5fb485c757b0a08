//! Where the bands of two rings lie over one another for the viewer, piece of ring by piece of ring.

use super::ellipse::Ellipse;
use crate::draw::plane::{number, seen};
use glam::DVec3;
use std::f64::consts::TAU;

/// Pieces of a ring. Each is much shorter than its wire is thick.
pub const PIECES: usize = 120;
/// Bands closer together than this part of their wire meet: the gap beside the nearer one is drawn over the other.
const BESIDE: f64 = 0.2;
/// Pieces of one ring that are fewer pieces apart run into one another.
const BEND: usize = 6;
/// Wires overlap if their depths differ by at least this part of them; others touch side by side.
const CLEAR: f64 = 0.25;
/// Pieces whose depths differ by less than this part of their wire only touch side by side.
const LEVEL: f64 = 0.05;

/// Two pieces of two rings, one over the other.
#[derive(Clone, Copy, Debug)]
pub struct Meeting {
    /// The number of the piece on the first ring and on the second.
    pub pieces: [usize; 2],
    /// Whether the first is nearer to the viewer.
    pub first_over: bool,
    /// Whether the bands overlap; else the one only comes into the gap beside the other.
    pub overlap: bool,
}

/// The middle of a piece, as an angle.
pub fn angle(piece: usize) -> f64 {
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
            let overlap = seen(*p - *q).hypot2() < wire * wire && (p.z - q.z).abs() > CLEAR * wire;
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
    // Pieces outside of the other's box meet nothing.
    let around = b.0.bounds().inflate(wire, wire);
    let inside = |p: &DVec3| p.x > around.x0 && p.x < around.x1 && p.y > around.y0 && p.y < around.y1;
    let mut all = Vec::new();
    for (one, p) in a.1.iter().enumerate().filter(|(_, p)| inside(p)) {
        for (other, q) in b.1.iter().enumerate() {
            let far = seen(*p - *q).hypot2();
            if far < within * within && (p.z - q.z).abs() > LEVEL * wire {
                let overlap = far < wire * wire && (p.z - q.z).abs() > CLEAR * wire;
                all.push(Meeting { pieces: [one, other], first_over: p.z > q.z, overlap });
            }
        }
    }
    all
}
