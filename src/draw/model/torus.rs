//! A ring as a mesh of triangles, lying flat, its front up.

use std::f64::consts::TAU;

/// Corners round the ring and round its wire: multiples of four, so that the mesh is as wide and as thick as the ring.
const AROUND: u16 = 48;
const ACROSS: u16 = 16;

/// Every corner as its place along the ring and round the wire: the direction out from the middle of the hole, and the
/// sine and cosine of how far round the wire it is, from the outside.
fn corners() -> impl Iterator<Item = ([f64; 2], (f64, f64))> {
    let part = |n: u16, of: u16| libm::sincos(TAU * f64::from(n) / f64::from(of));
    (0..AROUND).flat_map(move |i| {
        let (s, c) = part(i, AROUND);
        (0..ACROSS).map(move |j| ([c, s], part(j, ACROSS)))
    })
}

/// glTF has single precision.
#[expect(clippy::cast_possible_truncation)]
fn single(v: [f64; 3]) -> [f32; 3] {
    v.map(|x| x as f32)
}

/// The corners of a ring about the z axis.
pub fn positions(core_radius: f64, wire: f64) -> Vec<[f32; 3]> {
    let half = 0.5 * wire;
    let at = |([x, y], (s, c)): ([f64; 2], (f64, f64))| {
        let out = core_radius + half * c;
        single([x * out, y * out, half * s])
    };
    corners().map(at).collect()
}

/// The way out of the wire at every corner: the same whatever the size.
pub fn normals() -> Vec<[f32; 3]> {
    corners().map(|([x, y], (s, c))| single([x * c, y * c, s])).collect()
}

/// Three corners for each triangle, anticlockwise as seen from outside the wire.
pub fn triangles() -> Vec<u16> {
    let number = |i: u16, j: u16| (i % AROUND) * ACROSS + j % ACROSS;
    let square = |i: u16, j: u16| {
        let [a, b, c, d] = [number(i, j), number(i + 1, j), number(i + 1, j + 1), number(i, j + 1)];
        [a, b, c, a, c, d]
    };
    (0..AROUND).flat_map(|i| (0..ACROSS).flat_map(move |j| square(i, j))).collect()
}
