//! A pose is checked again from its JSON alone: links by the Gauss integral, distances by sampling.

use super::link::gauss;
use super::settled;
use crate::common::examples;
use byrnie::settle::Circle;
use glam::DVec3;
use serde_json::Value;
use std::collections::BTreeMap;

/// Points of a circle to sample it with.
const STEPS: u32 = 240;

struct Ring {
    name: String,
    circle: Circle,
    wire: f64,
}

struct Piece {
    rings: Vec<Ring>,
    lattice: Vec<DVec3>,
    twist: f64,
    turned: Vec<bool>,
}

fn vector(value: &Value) -> DVec3 {
    let at = |i: usize| value[i].as_f64().unwrap();
    DVec3::new(at(0), at(1), at(2))
}

fn piece(pose: &Value) -> Piece {
    let ring = |r: &Value| Ring {
        name: r["ring"].as_str().unwrap().to_owned(),
        circle: Circle {
            centre: vector(&r["centre"]),
            normal: vector(&r["normal"]),
            radius: r["core_radius"].as_f64().unwrap(),
        },
        wire: r["wire"].as_f64().unwrap(),
    };
    Piece {
        rings: pose["rings"].as_array().unwrap().iter().map(ring).collect(),
        lattice: pose["lattice"].as_array().unwrap().iter().map(vector).collect(),
        twist: pose["twist_deg"].as_f64().unwrap().to_radians(),
        turned: pose["turned"].as_array().unwrap().iter().map(|t| t.as_bool().unwrap()).collect(),
    }
}

impl Piece {
    /// The image of a ring so many repeats on: turned about the x axis, moved, turned over.
    fn image(&self, ring: usize, shift: &[i32]) -> Circle {
        let Circle { centre, normal, radius } = self.rings[ring].circle;
        let (sin, cos) = (self.twist * f64::from(shift.first().copied().unwrap_or(0))).sin_cos();
        let turn = |v: DVec3| DVec3::new(v.x, cos * v.y - sin * v.z, sin * v.y + cos * v.z);
        let away: DVec3 = self.lattice.iter().zip(shift).map(|(way, s)| *way * f64::from(*s)).sum();
        let odd = self.turned.iter().zip(shift).filter(|(t, s)| **t && s.rem_euclid(2) == 1).count() % 2 == 1;
        Circle { centre: turn(centre) + away, normal: turn(normal) * if odd { -1.0 } else { 1.0 }, radius }
    }
}

fn shifts(ways: usize) -> Vec<Vec<i32>> {
    const FAR: i32 = 6;
    match ways {
        0 => vec![vec![]],
        1 => (-FAR..=FAR).map(|k| vec![k]).collect(),
        _ => (-FAR..=FAR).flat_map(|k| (-FAR..=FAR).map(move |l| vec![k, l])).collect(),
    }
}

/// The least distance of two circles: the nearest of the sampled points of each to the other circle.
fn distance(a: &Circle, b: &Circle) -> f64 {
    let from = |one: &Circle, other: &Circle| {
        let (u, v) = one.normal.any_orthonormal_pair();
        let to_other = |k: u32| {
            let (sin, cos) = (f64::from(k) * std::f64::consts::TAU / f64::from(STEPS)).sin_cos();
            let p = one.centre + one.radius * (u * cos + v * sin) - other.centre;
            let height = p.dot(other.normal);
            (height.powi(2) + ((p - other.normal * height).length() - other.radius).powi(2)).sqrt()
        };
        (0..STEPS).map(to_other).fold(f64::INFINITY, f64::min)
    };
    from(a, b).min(from(b, a))
}

fn check(name: &str, pose: &Value) {
    let piece = piece(pose);
    let number: BTreeMap<&str, usize> = piece.rings.iter().enumerate().map(|(n, r)| (r.name.as_str(), n)).collect();
    let listed = |list: &str| -> Vec<(usize, usize, Vec<i32>, &Value)> {
        let each = |l: &'_ Value| {
            let end = |key: &str| number[l[key].as_str().unwrap()];
            let shift: Vec<i32> =
                l["shift"].as_array().unwrap().iter().map(|s| i32::try_from(s.as_i64().unwrap()).unwrap()).collect();
            (end("from"), end("to"), shift)
        };
        pose[list]
            .as_array()
            .unwrap()
            .iter()
            .map(|l| {
                let (a, b, s) = each(l);
                (a, b, s, l)
            })
            .collect()
    };
    let (links, contacts) = (listed("links"), listed("contacts"));
    let of = |list: &[(usize, usize, Vec<i32>, &Value)], from: usize, to: usize, shift: &[i32]| -> Option<Value> {
        let back: Vec<i32> = shift.iter().map(|s| -s).collect();
        let found = list.iter().find(|(a, b, s, _)| {
            (*a, *b, s.as_slice()) == (from, to, shift) || (*a, *b, s.as_slice()) == (to, from, &back)
        });
        found.map(|(.., value)| (*value).clone())
    };
    let (mut linked, mut touching, mut pairs) = (0, 0, 0);
    for from in 0..piece.rings.len() {
        for to in from..piece.rings.len() {
            for shift in shifts(piece.lattice.len()) {
                // Of a ring and its own images each pair is seen from both ends.
                if from == to && shift.iter().copied().find(|s| *s != 0).is_none_or(|s| s < 0) {
                    continue;
                }
                let (a, b) = (piece.rings[from].circle, piece.image(to, &shift));
                let wires = 0.5 * (piece.rings[from].wire + piece.rings[to].wire);
                if a.centre.distance(b.centre) > a.radius + b.radius + wires {
                    continue;
                }
                pairs += 1;
                let place = format!("{name}: {} {} {shift:?}", piece.rings[from].name, piece.rings[to].name);
                // The Gauss integral counts −1 what the notation calls down (+1).
                let sign = of(&links, from, to, &shift).map_or(0, |l| l["sign"].as_i64().unwrap());
                let found = gauss(&a, &b, 128);
                assert!((found.abs() - (sign.abs() as f64)).abs() < 0.05, "{place}: {found} {sign}");
                linked += usize::from(sign != 0);
                // Sampling misses the nearest place by half a step along the wire.
                let apart = distance(&a, &b);
                let slack = (std::f64::consts::PI / f64::from(STEPS) * a.radius.max(b.radius)).powi(2) / wires;
                assert!(apart > wires * (1.0 - 1e-7), "{place}: {apart} {wires}");
                match of(&contacts, from, to, &shift) {
                    Some(contact) => {
                        touching += 1;
                        assert!((contact["distance"].as_f64().unwrap() - wires).abs() < 2e-4 * wires, "{place}");
                        assert!(apart < wires * (1.0 + 1e-4) + slack, "{place}: {apart} {wires}");
                    }
                    None => {
                        assert!(apart > wires * (1.0 + 1e-4), "{place}: touches, and is not listed: {apart} {wires}")
                    }
                }
            }
        }
    }
    assert_eq!(linked, links.len(), "{name}: links out of reach");
    // A unit with room touches nowhere; what is drawn out, or at its floor, does.
    assert!(pairs > 0 && (touching > 0 || piece.lattice.is_empty()), "{name}: {pairs} {touching}");
}

/// Every example and some odder pieces, at the sizes given and at the floor.
#[test]
fn poses_hold_when_checked_from_their_json() {
    let odd = [
        (
            "unlike sheet",
            "ring a main\nring h, v link\nrepeat row r, column c\nh[r,c] down a[r,c], a[r,c+1]\nv[r,c] down a[r,c], a[r+1,c]\nrings\nmain wire 1 mm, inner 5 mm\nlink wire 0.8 mm, inner 3 mm",
        ),
        ("spiral", "spiral\nring a\nrepeat n\na[n] down a[n-1], up a[n-2]\nrings\nmain wire 1 mm, inner 3.5 mm"),
        ("plain chain in one family", "ring a\nrepeat n\na[n] down a[n-1]\nrings\nmain AR 4"),
    ];
    let all = examples();
    let texts = all.iter().copied().chain(odd);
    std::thread::scope(|scope| {
        for (name, text) in texts {
            scope.spawn(move || {
                let (weave, s) = settled(text);
                let json: Value = serde_json::from_str(&s.json(&weave).to_string()).unwrap();
                check(&format!("{name}, floor"), &json["floor_pose"]);
                if json["closes"] == true {
                    check(name, &json["pose"]);
                }
                // The bracket, in the figures of the file alone.
                let (proved, found) = (&json["floor"]["proved"], &json["floor"]["found"]);
                assert!(proved.as_f64().unwrap() <= found.as_f64().unwrap() + 1e-6, "{name}");
                let first = &json["floor_pose"]["rings"][0];
                let (radius, wire) = (first["core_radius"].as_f64().unwrap(), first["wire"].as_f64().unwrap());
                assert!((2.0 * radius / wire - 1.0 - found.as_f64().unwrap()).abs() < 1e-5, "{name}");
            });
        }
    });
}
