//! The meshes of a model.

use super::glb::Numbers;
use super::torus;
use serde_json::{Value, json};
use std::collections::BTreeMap;

/// The meshes so far. All of them share normals and triangles, and those of one size their corners.
pub struct Meshes {
    /// The numbers they consist of.
    pub numbers: Numbers,
    normals: usize,
    triangles: usize,
    corners: BTreeMap<[u64; 2], usize>,
    known: BTreeMap<([u64; 2], usize), usize>,
    /// The meshes, as JSON.
    pub all: Vec<Value>,
}

impl Meshes {
    /// None yet.
    pub fn new() -> Self {
        let mut numbers = Numbers::default();
        let (normals, triangles) = (numbers.directions(&torus::normals()), numbers.triangles(&torus::triangles()));
        Self { numbers, normals, triangles, corners: BTreeMap::new(), known: BTreeMap::new(), all: Vec::new() }
    }

    /// The number of the mesh of a core radius and a wire, in metres, and a paint; made if it is not there.
    pub fn of(&mut self, [core_radius, wire]: [f64; 2], paint: usize, name: &str) -> usize {
        let size = [core_radius.to_bits(), wire.to_bits()];
        if let Some(known) = self.known.get(&(size, paint)) {
            return *known;
        }
        let numbers = &mut self.numbers;
        let corners = *self.corners.entry(size).or_insert_with(|| numbers.places(&torus::positions(core_radius, wire)));
        let (inner, wire) = ((2.0 * core_radius - wire) * 1e3, wire * 1e3);
        self.all.push(json!({
            "name": format!("ring, wire {wire:.2} mm, inner {inner:.2} mm, {name}"),
            "primitives": [{
                "attributes": { "POSITION": corners, "NORMAL": self.normals },
                "indices": self.triangles,
                "material": paint,
            }],
        }));
        self.known.insert((size, paint), self.all.len() - 1);
        self.all.len() - 1
    }
}
