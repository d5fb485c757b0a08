//! Pictures of the steps of the work.

use super::{Frame, Tally, VIEWS, compared, size};
use crate::common::{examples, kept};
use byrnie::draw::picture::{Frames, Options, Scene, SceneRing, Viewpoint};
use byrnie::pattern::Repeats;
use byrnie::rings::Piece;
use byrnie::settle::link_sign;
use byrnie::steps::Directions;
use petgraph::graph::NodeIndex;
use rayon::prelude::*;
use std::collections::BTreeSet;

fn short(text: &str) -> Repeats {
    let Repeats([first, second]) = size(text);
    Repeats([first.min(4), second.min(3)])
}

struct Drawn {
    piece: Piece,
    directions: Directions,
    frames: Frames<'static>,
    scene: Scene,
}

fn drawn(text: &str, from: Viewpoint) -> Drawn {
    let weave = kept(text);
    let settled = weave.settled().unwrap();
    let options = Options { from, ..Options::default() };
    let frames = Frames::of(weave, settled, short(text), &options).unwrap();
    let piece = weave.piece(short(text)).unwrap();
    let directions = Directions::of(weave, Some(settled), &piece, frames.order());
    Drawn { piece, directions, frames, scene: Scene::of(weave, settled, short(text), from).unwrap() }
}

impl Drawn {
    fn ring(&self, ring: NodeIndex) -> &SceneRing {
        self.scene.rings.iter().find(|r| r.node == ring).unwrap()
    }

    /// The rings that are there after a step.
    fn there(&self, step: usize) -> BTreeSet<NodeIndex> {
        let steps = &self.frames.order().steps[..=step];
        steps.iter().flat_map(|s| s.passes.iter().map(|p| p.ring).chain([s.ring])).collect()
    }
}

/// A ring's name as it is read aloud: `b[2]` is "b2", `a[1,2]` is "a1.2", and a ring of a unit is "ring a".
fn spoken(ring: &SceneRing) -> String {
    match ring.name.split_once('[') {
        Some((letter, numbers)) => format!("{letter}{}", numbers.trim_end_matches(']').replace(',', ".")),
        None => format!("ring {}", ring.name),
    }
}

/// Elements of a class, each with its text.
fn words(svg: &str, class: &str) -> Vec<String> {
    let document = roxmltree::Document::parse(svg).unwrap();
    let of_class = |n: &roxmltree::Node<'_, '_>| n.attribute("class") == Some(class) && n.tag_name().name() == "text";
    document.descendants().filter(of_class).map(|n| n.text().unwrap().to_owned()).collect()
}

/// The words "down", "up" and "through" of every frame are those of the links themselves: two rings that both face the viewer
/// are passed alike just where the links have one sign. And every ring passed has its number.
#[test]
fn words_at_the_passes_are_true() {
    let all: Vec<(&str, &str, Viewpoint)> =
        examples().into_iter().flat_map(|(name, text)| VIEWS.map(|from| (name, text, from))).collect();
    let told: usize = all.par_iter().map(|(name, text, from)| words_of(name, text, *from)).sum();
    println!("{told} passes told");
    assert!(told > 4_000, "{told}");
}

fn words_of(name: &str, text: &str, from: Viewpoint) -> usize {
    let drawn = drawn(text, from);
    let mut told = 0;
    for (number, step) in drawn.frames.order().steps.iter().enumerate() {
        let svg = drawn.frames.frame(number, number + 1).unwrap();
        let labels: Vec<String> = words(&svg, "label").into_iter().filter(|w| !w.starts_with("step")).collect();
        let mut numbers: Vec<usize> = words(&svg, "number").iter().map(|n| n.parse().unwrap()).collect();
        numbers.sort_unstable();
        assert_eq!(numbers, (1..=step.passes.len()).collect::<Vec<_>>(), "{name}, step {number}");
        // The description names the rings in the order of their numbers.
        let about = svg.split("<desc").nth(1).unwrap().split('>').nth(1).unwrap();
        let mut said: Vec<(String, String)> = Vec::new();
        let goes = about.split(" It goes ").nth(1).map(|rest| rest.split(". Next").next().unwrap());
        for part in goes.into_iter().flat_map(|goes| goes.trim_end_matches(".</desc").split(", then ")) {
            let (word, rings) = part.split_once(' ').unwrap();
            let rings = rings.trim_start_matches("through ").split(", ").flat_map(|rings| rings.split(" and "));
            said.extend(rings.map(|r| (word.to_owned(), r.to_owned())));
        }
        assert_eq!(said.len(), step.passes.len(), "{name}, step {number}: {about}");
        // Labels and description say the same.
        let mut by_label: Vec<(usize, String)> = Vec::new();
        for label in &labels {
            let (word, numbers) = label.split_once(' ').unwrap();
            by_label.extend(numbers.split(", ").map(|n| (n.parse().unwrap(), word.to_owned())));
        }
        by_label.sort();
        let listed: Vec<(usize, String)> = said.iter().zip(1..).map(|((word, _), n)| (n, word.clone())).collect();
        assert_eq!(by_label, listed, "{name}, step {number}");
        let own = drawn.ring(step.ring).circle;
        let mut way = BTreeSet::new();
        for (word, ring) in &said {
            let other = drawn.scene.rings.iter().find(|r| spoken(r) == *ring).unwrap().circle;
            assert!(step.passes.iter().any(|p| spoken(drawn.ring(p.ring)) == *ring), "{name}, step {number}: {ring}");
            let sign = f64::from(link_sign(&own, &other)) * other.normal.z;
            assert!(sign.abs() > 0.0, "{name}, step {number}");
            match word.as_str() {
                "down" => drop(way.insert(sign > 0.0)),
                "up" => drop(way.insert(sign < 0.0)),
                _ => assert!(other.normal.z.abs() <= 0.15 + 1e-9, "{name}, step {number}: {ring} could be told"),
            }
            told += 1;
        }
        assert!(way.len() <= 1, "{name}, step {number}: {said:?}");
        // The rings come in the order of the instructions, and the first is passed as they say.
        let told = drawn.directions.passes(&drawn.piece, step);
        let rings: Vec<String> = told.iter().map(|(ring, _)| spoken(drawn.ring(*ring))).collect();
        assert_eq!(said.iter().map(|(_, ring)| ring.clone()).collect::<Vec<_>>(), rings, "{name}, step {number}");
        let first = said.iter().zip(&told).find(|((word, _), _)| word != "through");
        assert!(first.is_none_or(|((word, _), (_, way))| word == way.word()), "{name}, step {number}: {about}");
    }
    told
}

/// Of every weave every frame, from the front: at each crossing of what is there the nearer wire is seen.
#[test]
fn what_is_nearer_is_seen_at_every_crossing_of_every_frame() {
    let tallies: Vec<Tally> = examples().par_iter().map(|(name, text)| crossings_of(name, text)).collect();
    let crossings: usize = tallies.iter().map(|t| t.crossings).sum();
    let places: usize = tallies.iter().map(|t| t.places).sum();
    let wrong: Vec<&String> = tallies.iter().flat_map(|t| &t.wrong).collect();
    println!("{crossings} crossings, {places} places compared, {} wrong", wrong.len());
    assert!(crossings > 4_000, "{crossings}");
    assert!(wrong.len() * 4_000 < places, "{} of {places}:\n{wrong:#?}", wrong.len());
}

fn crossings_of(name: &str, text: &str) -> Tally {
    let drawn = drawn(text, Viewpoint::FRONT);
    let mut all = Tally::default();
    let steps = drawn.frames.order().steps.len();
    // One in the middle, and the last.
    for number in BTreeSet::from([steps / 2, steps - 1]) {
        let svg = drawn.frames.frame(number, number + 1).unwrap();
        let there = drawn.there(number);
        // The page is that of the whole piece.
        let frame = Frame { above: 3.0 + 5.0 + 6.5, ..Frame::of(&svg, &drawn.scene.rings) };
        let rings: Vec<SceneRing> = drawn.scene.rings.iter().filter(|r| there.contains(&r.node)).cloned().collect();
        // What comes next is drawn faintly under all that is there.
        let kept: Vec<&str> = svg.split("<g data-ring=\"").collect();
        let known = |part: &&&str| rings.iter().any(|r| part.starts_with(&format!("{}\"", r.name)));
        let svg = [kept[0].to_owned()]
            .into_iter()
            .chain(kept[1..].iter().filter(known).map(|p| format!("<g data-ring=\"{p}")))
            .collect::<String>();
        let svg = if svg.trim_end().ends_with("</svg>") { svg } else { format!("{svg}</g></svg>") };
        let tally = compared(&format!("{name}, step {}", number + 1), &svg, &rings, &frame);
        all.crossings += tally.crossings;
        all.places += tally.places;
        all.wrong.extend(tally.wrong);
    }
    all
}

/// All frames of a piece have one page, one scale and one position: a ring that stays has the same strokes.
#[test]
fn frames_read_as_a_strip() {
    let text = examples().into_iter().find(|(n, _)| *n == "half-persian-3-in-1").unwrap().1;
    let drawn = drawn(text, Viewpoint::FRONT);
    let svgs: Vec<String> =
        (0..drawn.frames.order().steps.len()).map(|k| drawn.frames.frame(k, k + 1).unwrap()).collect();
    assert!(drawn.frames.frame(svgs.len(), 1).is_none());
    let head = |svg: &String| svg.lines().next().unwrap().split("aria").next().unwrap().to_owned();
    assert!(svgs.iter().all(|s| head(s) == head(&svgs[0])));
    // The ring that is added is strong in its own frame, calm in all later ones, and not there before.
    let ring = "<g data-ring=\"b[2]\"";
    let strong = |svg: &str| svg.split(ring).skip(1).any(|g| g.split("</g>").next().unwrap().contains("#d55e00"));
    assert!(!svgs[2].contains("data-ring=\"b[4]\"") || !strong(&svgs[2]));
    assert_eq!(svgs.iter().map(|s| strong(s)).collect::<Vec<_>>(), [false, true, false, false]);
}

/// A frame as it is written, and its words.
#[test]
fn a_frame() {
    let text = examples().into_iter().find(|(n, _)| *n == "half-persian-3-in-1").unwrap().1;
    let drawn = drawn(text, Viewpoint::FRONT);
    insta::assert_snapshot!("frame_half-persian-3-in-1", drawn.frames.frame(1, 2).unwrap());
    let about: Vec<String> = (0..drawn.frames.order().steps.len())
        .map(|k| {
            drawn
                .frames
                .frame(k, k + 1)
                .unwrap()
                .lines()
                .nth(2)
                .unwrap()
                .split('>')
                .nth(1)
                .unwrap()
                .replace("</desc", "")
        })
        .collect();
    insta::assert_snapshot!("frames_in_words", about.join("\n"));
}
