//! Models: what another library reads back from the bytes is the piece as it settled.

use crate::common::{examples, kept, settle_examples};
use byrnie::draw::model::model;
use byrnie::draw::picture::{MOST_DRAWN, Options, Scene, SceneRing, Viewpoint, picture};
use byrnie::pattern::Repeats;
use byrnie::settle::{Circle, Known, link_sign};
use glam::{DQuat, DVec3};
use gltf::buffer::Target;
use gltf::scene::Transform;
use gltf::{Document, Gltf, Mesh, Node};
use rayon::prelude::*;
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};

/// The piece models are made of in these tests: as asked for, but short.
fn size(text: &str) -> Repeats {
    let Repeats([first, second]) = kept(text).size();
    Repeats([first.min(6), second.min(6)])
}

fn bytes(text: &str) -> Vec<u8> {
    model(kept(text), kept(text).settled().unwrap(), size(text)).unwrap()
}

fn scene(text: &str) -> Scene {
    Scene::of(kept(text), kept(text).settled().unwrap(), size(text), Viewpoint::FRONT).unwrap()
}

fn example(name: &str) -> &'static str {
    examples().into_iter().find(|(n, _)| *n == name).unwrap().1
}

/// How many mm a unit of the scene is: 1, or what makes the wire of the first family 1 mm.
fn unit(text: &str, rings: &[SceneRing]) -> f64 {
    match kept(text).settled().unwrap().sizes.known {
        Known::Millimetres => 1.0,
        Known::Ratios | Known::Nothing => 1.0 / rings.iter().find(|r| r.family.number() == 0).unwrap().wire,
    }
}

/// The nodes of the rings: children of the one root.
fn rings(document: &Document) -> Vec<Node<'_>> {
    let roots: Vec<Node<'_>> = document.default_scene().unwrap().nodes().collect();
    assert!(roots.len() == 1 && roots[0].mesh().is_none());
    roots[0].children().collect()
}

fn number(x: f32) -> f64 {
    f64::from(x)
}

/// A ring as it can be told from a node alone: its core circle and its wire, in metres.
fn ring(node: &Node<'_>) -> (Circle, f64) {
    let Transform::Decomposed { translation, rotation, scale } = node.transform() else { panic!("a matrix") };
    assert!(scale.iter().all(|s| (s - 1.0).abs() < f32::EPSILON));
    let turn = DQuat::from_array(rotation.map(number));
    assert!((turn.length() - 1.0).abs() < 1e-6);
    let ends = node.mesh().unwrap().primitives().next().unwrap().bounding_box();
    let [across, tall, thick] = [0, 1, 2].map(|i| number(ends.max[i]) - number(ends.min[i]));
    assert!((across - tall).abs() < 1e-9);
    let radius = 0.5 * (across - thick);
    (Circle { centre: DVec3::from_array(translation.map(number)), normal: turn * DVec3::Z, radius }, thick)
}

#[test]
fn every_ring_is_a_node_where_the_scene_has_it() {
    for (name, text) in examples() {
        let (weave, scene) = (kept(text), scene(text));
        let read = Gltf::from_slice(&bytes(text)).unwrap();
        let nodes = rings(&read.document);
        assert_eq!(nodes.len(), scene.rings.len(), "{name}");
        assert_eq!(nodes.len(), weave.piece(size(text)).unwrap().graph.node_count(), "{name}");
        let root = read.default_scene().unwrap().nodes().next().unwrap();
        assert_eq!(root.name(), Some(weave.name()));
        assert_eq!(
            root.transform().matrix(),
            glam::Mat4::IDENTITY.to_cols_array_2d(),
            "{name}: seen as in the picture"
        );
        let mm = unit(text, &scene.rings);
        for (node, wanted) in nodes.iter().zip(&scene.rings) {
            assert_eq!(node.name(), Some(wanted.name.as_str()), "{name}");
            let (circle, wire) = ring(node);
            assert!((circle.centre * 1000.0).distance(wanted.circle.centre * mm) < 1e-4, "{name} {}", wanted.name);
            assert!(circle.normal.distance(wanted.circle.normal) < 1e-6, "{name} {}: the front", wanted.name);
            assert!((circle.radius * 1000.0 - wanted.circle.radius * mm).abs() < 1e-5, "{name} {}", wanted.name);
            assert!((wire * 1000.0 - wanted.wire * mm).abs() < 1e-5, "{name} {}", wanted.name);
            let extras: Value = serde_json::from_str(node.extras().as_ref().unwrap().get()).unwrap();
            let family = &weave.pattern().families[wanted.family];
            let words = ["family", "kind"].map(|key| extras[key].as_str().unwrap());
            assert_eq!(words, [&*family.name.value, &*family.kind], "{name}");
            let [inner, wire_mm] = ["inner_diameter_mm", "wire_mm"].map(|key| extras[key].as_f64().unwrap());
            assert!((wire_mm - 1000.0 * wire).abs() < 1e-5 && (inner + wire_mm - 2000.0 * circle.radius).abs() < 1e-5);
        }
    }
}

/// Which rings of the model run through which, and to which side, told from the model alone, is what the text says.
#[test]
fn the_links_of_the_model_are_those_of_the_text() {
    let linked: usize = examples()
        .par_iter()
        .map(|(name, text)| {
            let read = Gltf::from_slice(&bytes(text)).unwrap();
            let nodes = rings(&read.document);
            let tori: Vec<Circle> = nodes.iter().map(|node| ring(node).0).collect();
            let mut found = BTreeMap::new();
            for (i, a) in tori.iter().enumerate() {
                for (j, b) in tori.iter().enumerate().skip(i + 1) {
                    let sign = link_sign(a, b);
                    if sign != 0 {
                        found.insert([nodes[i].name().unwrap().to_owned(), nodes[j].name().unwrap().to_owned()], sign);
                    }
                }
            }
            let weave = kept(text);
            let piece = weave.piece(size(text)).unwrap();
            let mut wanted = BTreeMap::new();
            for edge in piece.graph.edge_indices() {
                let (a, b) = piece.graph.edge_endpoints(edge).unwrap();
                let pair = [a.min(b), a.max(b)].map(|ring| piece.ring_name(weave.pattern(), ring));
                wanted.insert(pair, piece.graph[edge].sign);
            }
            assert_eq!(found, wanted, "{name}");
            found.len()
        })
        .sum();
    assert!(linked > 2000, "{linked}");
}

/// Every corner lies on its torus and its normal points straight out of the wire; triangles look outwards, and
/// every edge has one on either side.
fn whole(name: &str, mesh: &Mesh<'_>, blob: &[u8]) {
    assert_eq!(mesh.primitives().len(), 1, "{name}");
    let primitive = mesh.primitives().next().unwrap();
    assert_eq!(primitive.mode(), gltf::mesh::Mode::Triangles);
    let reader = primitive.reader(|_| Some(blob));
    let vectors = |v: [f32; 3]| DVec3::from_array(v.map(number));
    let corners: Vec<DVec3> = reader.read_positions().unwrap().map(vectors).collect();
    let normals: Vec<DVec3> = reader.read_normals().unwrap().map(vectors).collect();
    let indices: Vec<usize> = reader.read_indices().unwrap().into_u32().map(|n| n as usize).collect();
    let ends = primitive.bounding_box();
    let low = corners.iter().fold(DVec3::INFINITY, |a, b| a.min(*b));
    let high = corners.iter().fold(DVec3::NEG_INFINITY, |a, b| a.max(*b));
    assert!(vectors(ends.min) == low && vectors(ends.max) == high, "{name}: the box is that of its corners");
    let (wire, radius) = (high.z - low.z, 0.5 * (high.x - low.x - (high.z - low.z)));
    assert_eq!(corners.len(), normals.len());
    for (corner, normal) in corners.iter().zip(&normals) {
        let middle = DVec3::new(corner.x, corner.y, 0.0).normalize() * radius;
        assert!((normal.length() - 1.0).abs() < 1e-6, "{name}");
        assert!((*corner - middle - *normal * 0.5 * wire).length() < 1e-5 * radius, "{name}: {corner} {normal}");
    }
    assert!(indices.iter().all(|n| *n < corners.len()) && indices.len().is_multiple_of(3), "{name}");
    let mut edges = BTreeSet::new();
    for t in indices.chunks(3) {
        let across = (corners[t[1]] - corners[t[0]]).cross(corners[t[2]] - corners[t[0]]);
        assert!(t.iter().all(|n| across.normalize().dot(normals[*n]) > 0.9), "{name}: {t:?} looks inwards");
        for (a, b) in [(t[0], t[1]), (t[1], t[2]), (t[2], t[0])] {
            assert!(edges.insert((a, b)), "{name}: two triangles on one side of {a}, {b}");
        }
    }
    assert!(edges.iter().all(|(a, b)| edges.contains(&(*b, *a))), "{name}: a hole");
}

#[test]
fn every_mesh_is_a_whole_torus() {
    settle_examples();
    for (name, text) in examples() {
        let read = Gltf::from_slice(&bytes(text)).unwrap();
        let blob = read.blob.clone().unwrap();
        let mut keys = BTreeSet::new();
        for mesh in read.meshes() {
            whole(name, &mesh, &blob);
            let primitive = mesh.primitives().next().unwrap();
            let target = |accessor: gltf::Accessor<'_>| accessor.view().unwrap().target();
            assert_eq!(target(primitive.indices().unwrap()), Some(Target::ElementArrayBuffer));
            for (_, accessor) in primitive.attributes() {
                assert_eq!(target(accessor), Some(Target::ArrayBuffer));
            }
            let own = (format!("{:?}", primitive.bounding_box()), primitive.material().index().unwrap());
            assert!(keys.insert(own), "{name}: rings of one size and colour share a mesh");
        }
        let used: BTreeSet<usize> = rings(&read.document).iter().map(|n| n.mesh().unwrap().index()).collect();
        assert_eq!(used.len(), read.meshes().len(), "{name}: every mesh is used");
    }
}

/// The container, byte by byte: chunks begin and end at every fourth byte, and lists lie in the numbers one after the
/// other.
#[test]
fn the_file_is_laid_out_as_the_standard_wants() {
    for (name, text) in examples() {
        let file = bytes(text);
        let number = |at: usize| u32::from_le_bytes(file[at..at + 4].try_into().unwrap()) as usize;
        assert_eq!((&file[..4], number(4), number(8)), (&b"glTF"[..], 2, file.len()), "{name}");
        let words = number(12);
        assert_eq!((words % 4, &file[16..20]), (0, &b"JSON"[..]), "{name}");
        let numbers = number(20 + words);
        assert_eq!((numbers % 4, &file[24 + words..28 + words]), (0, &b"BIN\0"[..]), "{name}");
        assert_eq!(28 + words + numbers, file.len(), "{name}");
        let json: Value = serde_json::from_slice(&file[20..20 + words]).unwrap();
        assert_eq!((&json["asset"]["version"], &json["asset"]["generator"]), (&"2.0".into(), &"byrnie".into()));
        assert_eq!(json["buffers"][0]["byteLength"], numbers, "{name}");
        let mut end = 0;
        for view in json["bufferViews"].as_array().unwrap() {
            let [from, length] = ["byteOffset", "byteLength"].map(|key| view[key].as_u64().unwrap());
            assert!(from >= end && from.is_multiple_of(4) && length > 0, "{name}");
            end = from + length;
        }
        assert!(end <= numbers as u64 && end + 4 > numbers as u64, "{name}");
        assert_eq!(file, bytes(text), "{name}: the same bytes");
    }
}

/// From linear light to sRGB (IEC 61966-2-1), as `#rrggbb`.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
fn shown(light: [f32; 4]) -> String {
    let part = |c: f32| {
        let c = number(c);
        let c = if c <= 0.003_130_8 { 12.92 * c } else { 1.055 * c.powf(1.0 / 2.4) - 0.055 };
        format!("{:02x}", (c * 255.0).round() as u8)
    };
    format!("#{}{}{}", part(light[0]), part(light[1]), part(light[2]))
}

#[test]
fn colours_are_those_of_the_picture() {
    settle_examples();
    let own = "weave \"x\"\nring a, b\nrepeat n\n  b[n] down a[n], a[n+1]\nrings\n  main AR 4, \"dusk violet\"\ncolours\n  b: teal, \"garden gate\", copper\n";
    for (name, text) in examples().into_iter().chain([("own", own)]) {
        let weave = kept(text);
        let svg = picture(weave, weave.settled().unwrap(), size(text), &Options::default()).unwrap();
        let read = Gltf::from_slice(&bytes(text)).unwrap();
        for node in rings(&read.document) {
            let material = node.mesh().unwrap().primitives().next().unwrap().material();
            let surface = material.pbr_metallic_roughness();
            assert!(surface.metallic_factor() > 0.0 && material.name().is_some_and(|n| !n.is_empty()), "{name}");
            let group = svg.split(&format!("data-ring=\"{}\"", node.name().unwrap())).nth(1).unwrap();
            let wire = group.split("class=\"wire\"").nth(1).unwrap().split("stroke=\"").nth(1).unwrap();
            assert_eq!(shown(surface.base_color_factor()), wire.split('"').next().unwrap(), "{name}");
        }
    }
    let read = Gltf::from_slice(&bytes(own)).unwrap();
    let names: Vec<&str> = read.materials().map(|m| m.name().unwrap()).collect();
    assert_eq!(names, ["dusk violet", "teal", "garden gate", "copper"]);
    // Teal is #008080; half of 255 in sRGB is a good fifth of the light.
    let teal = read.materials().nth(1).unwrap().pbr_metallic_roughness().base_color_factor();
    assert!(teal[0] == 0.0 && (teal[1] - 0.2159).abs() < 1e-4 && (teal[2] - 0.2159).abs() < 1e-4, "{teal:?}");
}

fn about(text: &str) -> (Value, Value) {
    let read = Gltf::from_slice(&bytes(text)).unwrap();
    let value = |extras: &gltf::json::Extras| serde_json::from_str(extras.as_ref().unwrap().get()).unwrap();
    (value(&read.document.as_json().asset.extras), value(rings(&read.document)[0].extras()))
}

/// Metres where the text has mm; where it has none the wire of the first kind is 1 mm, and the model says so.
#[test]
fn sizes_are_those_of_the_text_or_said_to_be_taken() {
    let (asset, first) = about(example("tideline-bracelet"));
    assert_eq!((&asset["sizes"], &first["wire_mm"]), (&"as written".into(), &1.6.into()));
    assert_eq!((&first["inner_diameter_mm"], &asset["rings_left_out"]), (&7.0.into(), &0.into()));
    let ratio = "weave \"x\"\nbase \"simple chain\"\nrings\n  main AR 4\n";
    let (asset, first) = about(ratio);
    assert!(asset["sizes"].as_str().unwrap().starts_with("none in mm: the wire of the first kind"), "{asset}");
    assert_eq!((&first["inner_diameter_mm"], &first["wire_mm"]), (&4.0.into(), &1.0.into()));
    let (asset, first) = about(example("simple-chain"));
    assert!(asset["sizes"].as_str().unwrap().starts_with("none: "), "{asset}");
    assert_eq!(first["wire_mm"], 1.0);
    // Rings of a simple chain close from AR 2; with wire 2 % thinner (2 core radii = 3 wires / 0.98) it is 2.061.
    assert!((first["inner_diameter_mm"].as_f64().unwrap() - (3.0 / 0.98 - 1.0)).abs() < 1e-3, "{first}");
    let assumed = "weave \"x\"\nring a main\nring b small\nrepeat n\n  b[n] down a[n], a[n+1]\nrings\n  main wire 1 mm, inner 4 mm\n";
    assert_eq!(about(assumed).0["assumed"], serde_json::json!(["small"]));
}

/// A ring that only `ends` adds may stand where the repeat has none: nothing is known of how it lies.
#[test]
fn what_is_left_out_is_counted() {
    let text = format!("{}\nends\n  add c[1]\n", example("tideline-bracelet"));
    let (weave, asset) = (kept(&text), about(&text).0);
    let count = weave.piece(size(&text)).unwrap().graph.node_count();
    assert_eq!((asset["rings_left_out"].as_u64(), scene(&text).rings.len()), (Some(1), count - 1));
}

#[test]
fn what_is_not_modelled_says_why_and_a_way_out() {
    let none = |text: &str, repeats: u32| {
        model(kept(text), kept(text).settled().unwrap(), Repeats([repeats, 1])).unwrap_err().to_string()
    };
    let chain = example("simple-chain");
    assert!(
        none(chain, 60_000)
            .contains("119999 rings, and a picture or model holds up to 100000: ask for fewer with --repeats")
    );
    assert_eq!(MOST_DRAWN, 100_000);
    assert!(none(chain, 3_000_000).contains("more than can be made"));
    let small = "weave \"x\"\nbase \"half Persian 3-in-1\"\nrings\n  main wire 1.6 mm, inner 5 mm\n";
    assert!(none(small, 3).contains("does not close"));
    let gone = "weave \"x\"\nring a, b\nrepeat n\n  b[n] down a[n], a[n+1]\nends\n  drop a[1], b[1]\n";
    assert!(none(gone, 1).contains("no ring is left"));
    // Names cost too.
    let long = format!("weave \"x\"\nring {0}, b\nrepeat n\n  b[n] down {0}[n], {0}[n+1]\n", "a".repeat(10_000));
    assert!(none(&long, 2000).contains("4000 rings, and a picture or model holds up to 33"), "{}", none(&long, 2000));
}
