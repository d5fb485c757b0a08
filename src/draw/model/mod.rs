//! Pose → a model of the piece as binary glTF, which people can turn about on a screen.
//!
//! glTF 2.0 is an open standard (Khronos; ISO/IEC 12113). Lengths in it are in metres, y is up and a thing looks along
//! z, which is how the front picture has it: x along the chain, z to the viewer. So nothing is turned.
//!
//! 1. [`torus`] is a ring as triangles; in [`meshes`] rings of one size and one colour share theirs.
//! 2. Here every ring gets its place, its turn and its name.
//! 3. [`glb`] writes it down.
//!
//! Same weave, same bytes.

mod glb;
mod meshes;
mod torus;

use crate::draw::picture::{NotDrawn, Scene, SceneRing, Viewpoint};
use crate::pattern::{Pattern, Repeats};
use crate::settle::{Known, Settled};
use crate::weave::Weave;
use glam::{DQuat, DVec3};
use meshes::Meshes;
use serde_json::{Value, json};

/// How the wire reflects light: bright, neither a mirror nor chalk.
const METALLIC: f64 = 0.6;
const ROUGHNESS: f64 = 0.4;

/// A model of a piece of this size, drawn out as it was settled: the bytes of a `.glb` file.
///
/// - One node for each ring, named `b[7]`, under a root node named after the weave. Its `translation` is the middle of
///   the hole in metres, its `rotation` turns +z to the ring's front. Its `extras`: `family`, `kind`,
///   `inner_diameter_mm`, `wire_mm`.
/// - One mesh for all rings of the same size and colour; one material for each colour, or for each kind where the text
///   gives none, in the colours of the [picture](crate::draw::picture::picture).
/// - The `extras` of its `asset` say in `sizes` whether sizes are as written. Where none are given in mm, the wire of
///   the first kind is 1 mm; where none are given at all, rings are besides as small as they close with wire 2 %
///   thinner than that allows. `assumed` lists kinds without a size that are taken to be like the first, and
///   `rings_left_out` counts rings that `ends` adds where the repeat has none: nothing is known of how they lie.
///
/// # Errors
/// [`NotDrawn`], where the piece is too large, has no rings or does not close.
pub fn model(weave: &Weave, settled: &Settled, size: Repeats) -> Result<Vec<u8>, NotDrawn> {
    let scene = Scene::of(weave, settled, size, Viewpoint::FRONT)?;
    if scene.rings.is_empty() {
        return Err(NotDrawn::NoRings);
    }
    let unit = millimetres(settled);
    let mut meshes = Meshes::new();
    let mut nodes = vec![json!({ "name": weave.name(), "children": (1..=scene.rings.len()).collect::<Vec<_>>() })];
    for ring in &scene.rings {
        let name = scene.paint(ring).map_or("", |p| p.name.as_str());
        let mesh = meshes.of([ring.circle.radius, ring.wire].map(|x| metres(x, unit)), ring.paint, name);
        nodes.push(node(weave.pattern(), ring, unit, mesh));
    }
    let materials = scene.paints.iter().map(|paint| {
        let [r, g, b] = paint.light.map(|c| fixed(c, 1e6));
        let surface =
            json!({ "baseColorFactor": [r, g, b, 1.0], "metallicFactor": METALLIC, "roughnessFactor": ROUGHNESS });
        json!({ "name": paint.name, "pbrMetallicRoughness": surface })
    });
    let json = json!({
        "asset": { "version": "2.0", "generator": "byrnie", "extras": about(settled, scene.left_out) },
        "scene": 0,
        "scenes": [{ "name": weave.name(), "nodes": [0] }],
        "nodes": nodes,
        "meshes": meshes.all,
        "materials": materials.collect::<Vec<_>>(),
    });
    Ok(meshes.numbers.file(json))
}

/// How many mm a unit of the pose is.
fn millimetres(settled: &Settled) -> f64 {
    match settled.sizes.known {
        Known::Millimetres => 1.0,
        Known::Ratios | Known::Nothing => {
            1.0 / (settled.sizes.rings.iter().next().map_or(1.0, |r| r.wire) * settled.wire)
        }
    }
}

/// What a reader of the sizes has to know.
fn about(settled: &Settled, left_out: usize) -> Value {
    let sizes = match settled.sizes.known {
        Known::Millimetres => "as written",
        Known::Ratios => "none in mm: the wire of the first kind is taken as 1 mm",
        Known::Nothing => {
            "none: rings are as small as they close with wire 2 % thinner than that allows, and the wire of the first kind is taken as 1 mm"
        }
    };
    json!({ "sizes": sizes, "assumed": settled.sizes.assumed, "rings_left_out": left_out })
}

/// The node of a ring.
fn node(pattern: &Pattern, ring: &SceneRing, unit: f64, mesh: usize) -> Value {
    let turn = DQuat::from_rotation_arc(DVec3::Z, ring.circle.normal);
    let family = &pattern.families[ring.family];
    json!({
        "name": ring.name,
        "mesh": mesh,
        "translation": ring.circle.centre.to_array().map(|x| metres(x, unit)),
        "rotation": turn.to_array().map(|x| fixed(x, 1e9)),
        "extras": {
            "family": family.name.value,
            "kind": family.kind,
            "inner_diameter_mm": fixed((2.0 * ring.circle.radius - ring.wire) * unit, 1e6),
            "wire_mm": fixed(ring.wire * unit, 1e6),
        },
    })
}

/// A length of the pose in metres, to the nanometre.
fn metres(length: f64, unit: f64) -> f64 {
    fixed(length * unit * 1e-3, 1e9)
}

/// A number rounded to 1 ÷ `parts`; no zero has a sign.
fn fixed(x: f64, parts: f64) -> f64 {
    libm::round(x * parts) / parts + 0.0
}
