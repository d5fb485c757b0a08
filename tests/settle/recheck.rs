//! Poses are checked again from their JSON alone, as anyone can: links by the Gauss integral, every place
//! where rings come near by sampling, the proved floor by a table of its own.

use super::link::gauss;
use super::piece::{Piece, Ring, Tie, list, nearest, places, vector};
use super::{SPIRAL, settled};
use crate::common::examples;
use crate::outside::packings::RATIOS;
use glam::DVec3;
use serde_json::{Value, json};
use std::panic::catch_unwind;

/// What rounding to the decimals of the file may hide, as a part of the wire.
const ROUNDING: f64 = 1e-7;

/// Rings whose wires are this near, as a part of the wire, are listed as touching.
const TOUCHING: f64 = 1e-4;

fn check_pose(name: &str, pose: &Value) {
    let piece = Piece::read(pose);
    let (links, contacts) = (piece.ties(&pose["links"]), piece.ties(&pose["contacts"]));
    let (mut linked, mut touching) = (0, 0);
    for (from, to, shift) in piece.pairs() {
        let (a, b) = (piece.rings[from].circle, piece.image(to, &shift));
        let wires = 0.5 * (piece.rings[from].wire + piece.rings[to].wire);
        let pair = format!("{name}: {} {} {shift:?}", piece.rings[from].name, piece.rings[to].name);

        let sign = links.iter().find(|l| l.is_of(from, to, &shift).is_some());
        let sign = sign.map_or(0, |l| i32::try_from(l.value["sign"].as_i64().unwrap()).unwrap());
        linked += usize::from(sign != 0);
        let found = gauss(&a, &b, 128);
        assert!((found - f64::from(sign)).abs() < 0.05, "{pair}: {found} {sign}");

        // Every place where they touch is listed …
        let places = places(&a, &b);
        let of_pair = |c: &Tie| c.is_of(from, to, &shift).map(|by| piece.on(vector(&c.value["at"]), &by));
        let listed: Vec<DVec3> = contacts.iter().filter_map(of_pair).collect();
        for place in &places {
            assert!(place.distance > wires * (1.0 - ROUNDING), "{pair}: {} < {wires}", place.distance);
            if place.distance < wires * (1.0 + 0.99 * TOUCHING) {
                let known = listed.iter().any(|at| at.distance(place.at) < 0.05 * wires);
                assert!(known || place.flat && !listed.is_empty(), "{pair}: touches at {}, not listed", place.at);
            }
        }
        // … and what is listed is there.
        for at in &listed {
            touching += 1;
            let apart = nearest(&a, *at).distance(nearest(&b, *at));
            assert!((apart / wires - 1.0).abs() < 1.01 * TOUCHING, "{pair}: {apart} {wires}");
        }
    }
    assert_eq!(linked, links.len(), "{name}: links out of reach");
    assert_eq!(touching, contacts.len(), "{name}: contacts out of reach");
    // A unit with room touches nowhere; what is drawn out, or at its floor, does.
    assert!(touching > 0 || piece.lattice.is_empty(), "{name}");
}

/// The bracket of every kind: the proved bound again from the links, the figure found again from the rings.
fn check_bracket(name: &str, json: &Value) {
    let pose = &json["floor_pose"];
    let piece = Piece::read(pose);
    let links = piece.ties(&pose["links"]);
    let needed = |ring: usize| {
        let ends = links.iter().flat_map(|l| [(l.from, l.to), (l.to, l.from)]);
        let mut wires: Vec<f64> =
            ends.filter(|(own, _)| *own == ring).map(|(_, other)| piece.rings[other].wire).collect();
        wires.sort_by(|a, b| b.total_cmp(a));
        // As many as are at least so thick, and the two thickest side by side.
        let alike = wires.iter().zip(1..).map(|(wire, count): (_, usize)| wire * RATIOS[count - 1]);
        let two = wires.iter().take(2).sum::<f64>();
        (alike.fold(two, f64::max), wires.len(), wires.first() == wires.last())
    };
    for floor in list(&json["floor"]["kinds"]) {
        let (proved, found) = (floor["proved"].as_f64().unwrap(), floor["found"].as_f64().unwrap());
        let mine: Vec<usize> =
            (0..piece.rings.len()).filter(|r| piece.rings[*r].kind == floor["kind"].as_str().unwrap()).collect();
        let mut bound: f64 = 0.0;
        for ring in &mine {
            let Ring { circle, wire, .. } = &piece.rings[*ring];
            assert!((2.0 * circle.radius / wire - 1.0 - found).abs() < 2e-6, "{name}: {floor}");
            bound = bound.max(needed(*ring).0 / wire);
        }
        assert!(proved > bound - 2e-6 && proved < found + 2e-6, "{name}: {bound} {floor}");
        if mine.iter().all(|r| needed(*r).2) {
            assert!(proved < bound + 2e-6, "{name}: more than can be proved of equal wires: {bound} {floor}");
        }
    }
    assert_eq!(json["floor"]["kinds"][0]["found"], json["floor"]["found"]);
    assert_eq!(json["floor"]["kinds"][0]["proved"], json["floor"]["proved"]);
}

const ODD: [(&str, &str); 6] = [
    (
        "sheet of two kinds",
        "ring a main\nring h, v link\nrepeat row r, column c\nh[r,c] down a[r,c], a[r,c+1]\nv[r,c] down a[r,c], a[r+1,c]\nrings\nmain wire 1 mm, inner 5 mm\nlink wire 0.8 mm, inner 3 mm",
    ),
    ("spiral", "spiral\nring a\nrepeat n\na[n] down a[n-1], up a[n-2]\nrings\nmain wire 1 mm, inner 3.5 mm"),
    ("chain in one family", "ring a\nrepeat n\na[n] down a[n-1]\nrings\nmain AR 4"),
    (
        "unit of three kinds",
        "ring a large\nring b, c small\nring d thin\nb down a\nc down a, b\nd down a, up b\nrings\nlarge wire 2 mm, inner 9 mm\nsmall wire 1.2 mm, inner 6 mm\nthin wire 0.8 mm, inner 5 mm",
    ),
    (
        "thick accents",
        "base \"half Persian 3-in-1\"\nring c accent\naccent every 2\nc[n] around eye(a[n], a[n+1])\nrings\nmain wire 1.2 mm, inner 6 mm\naccent wire 1.6 mm, inner 8 mm",
    ),
    ("too small", "base \"half Persian 3-in-1\"\nrings\nmain wire 1.6 mm, inner 5.6 mm"),
];

/// Every example and some odder pieces, at the sizes given and at the floor.
#[test]
fn poses_hold_when_checked_from_their_json() {
    let examples = examples();
    std::thread::scope(|scope| {
        for (name, text) in examples.iter().chain(&ODD) {
            scope.spawn(move || {
                let (weave, s) = settled(text);
                let json: Value =
                    serde_json::from_str(&json!(s.json(weave.name(), weave.pattern())).to_string()).unwrap();
                check_bracket(name, &json);
                check_pose(&format!("{name}, floor"), &json["floor_pose"]);
                assert_eq!(json["pose"].is_null(), json["closes"] != true);
                if json["closes"] == true {
                    check_pose(name, &json["pose"]);
                }
            });
        }
    });
}

/// The checks above can fail: each of these is found out.
#[test]
fn a_pose_that_does_not_hold_is_found_out() {
    type Change = fn(&mut Value);
    let (weave, s) = settled(SPIRAL);
    let sound = json!(s.json(weave.name(), weave.pattern()));
    check_pose("sound", &sound["floor_pose"]);
    let tampered: [(&str, Change); 7] = [
        ("a sign", |pose| pose["links"][0]["sign"] = json!(-1)),
        ("a link left out", |pose| drop(pose["links"].as_array_mut().unwrap().pop())),
        ("a contact left out", |pose| drop(pose["contacts"].as_array_mut().unwrap().pop())),
        ("a contact elsewhere", |pose| pose["contacts"][0]["at"][0] = json!(0.3)),
        ("thicker wire", |pose| pose["rings"][0]["wire"] = json!(1.000_001)),
        ("a shorter repeat", |pose| pose["lattice"][0][0] = json!(0.99 * pose["lattice"][0][0].as_f64().unwrap())),
        ("another twist", |pose| pose["twist_deg"] = json!(0.1 + pose["twist_deg"].as_f64().unwrap())),
    ];
    for (what, change) in tampered {
        let mut pose = sound["floor_pose"].clone();
        change(&mut pose);
        assert!(catch_unwind(|| check_pose(what, &pose)).is_err(), "{what} is not found out");
    }
    for (floor, figure) in [("proved", 2.4), ("proved", 2.5), ("found", 2.7)] {
        let mut json = sound.clone();
        json["floor"]["kinds"][0][floor] = json!(figure);
        assert!(catch_unwind(|| check_bracket("bracket", &json)).is_err(), "{floor} {figure} is not found out");
    }
}
