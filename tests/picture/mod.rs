//! Pictures: at every crossing the wire that is nearer is the one that is seen.

// Pixels and their numbers.
#![allow(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    clippy::cast_precision_loss,
    clippy::many_single_char_names,
    clippy::similar_names
)]

mod called;
mod colours;
mod frames;

use crate::common::{examples, kept};
use byrnie::draw::picture::{CallOut, Frames, Options, Scale, Scene, SceneRing, Viewpoint, picture};
use byrnie::pattern::Repeats;
use rayon::prelude::*;
use resvg::tiny_skia::{Pixmap, Transform};
use resvg::usvg::{Options as Reading, Tree};
use std::collections::BTreeMap;

const TURNED: Viewpoint = Viewpoint { turn_deg: 35.0, tilt_deg: 20.0 };
const VIEWS: [Viewpoint; 4] = [Viewpoint::FRONT, Viewpoint::BACK, Viewpoint::EDGE, TURNED];
/// Pixels across.
const ACROSS: f64 = 1400.0;
/// Pieces of a ring that are compared.
const STEPS: usize = 360;

/// The piece pictures are made of in these tests: as asked for, but short.
fn size(text: &str) -> Repeats {
    let Repeats([first, second]) = kept(text).size();
    Repeats([first.min(6), second.min(6)])
}

/// The picture with every ring in a colour of its own, all else left out.
fn flat(svg: &str, rings: &[SceneRing]) -> String {
    let number: BTreeMap<&str, usize> = rings.iter().enumerate().map(|(n, r)| (r.name.as_str(), n + 1)).collect();
    let mut ring = 0;
    let mut out = String::new();
    for line in svg.lines() {
        if let Some(name) = line.split("data-ring=\"").nth(1) {
            ring = number[name.split('"').next().unwrap()];
        }
        if line.contains("class=\"edge\"") {
            let (before, after) = line.split_once("stroke=\"").unwrap();
            let after = after.split_once('"').unwrap().1;
            out += &format!("{before}shape-rendering=\"crispEdges\" stroke=\"#{ring:06x}\"{after}\n");
        } else if !line.contains("class=\"") {
            out += line;
            out.push('\n');
        }
    }
    out
}

struct Raster {
    pixels: Pixmap,
    scale: f64,
}

impl Raster {
    fn of(svg: &str) -> Self {
        let tree = Tree::from_str(svg, &Reading::default()).unwrap();
        let scale = ACROSS / f64::from(tree.size().width());
        let (w, h) = (ACROSS, f64::from(tree.size().height()) * scale);
        let mut pixels = Pixmap::new(w.ceil() as u32, h.ceil() as u32).unwrap();
        let by = scale as f32;
        resvg::render(&tree, Transform::from_scale(by, by), &mut pixels.as_mut());
        Self { pixels, scale }
    }

    /// The number of the ring seen at a place in px of the document, 0 where none is.
    fn ring(&self, x: f64, y: f64) -> usize {
        let pixel = self.pixels.pixel((x * self.scale) as u32, (y * self.scale) as u32).unwrap();
        let [r, g, b] = [pixel.red(), pixel.green(), pixel.blue()].map(usize::from);
        if [r, g, b] == [255; 3] { 0 } else { r << 16 | g << 8 | b }
    }
}

/// A ring by itself: points all round, and how high the skin of its wire is above a place.
struct Torus {
    centre: [f64; 3],
    radius: f64,
    points: Vec<[f64; 3]>,
    half: f64,
}

impl Torus {
    fn of(ring: &SceneRing) -> Self {
        let n = ring.circle.normal;
        let u = if n.x.abs() < 0.9 { n.cross(glam::DVec3::X) } else { n.cross(glam::DVec3::Y) }.normalize();
        let v = n.cross(u);
        let point = |k: usize| {
            let angle = std::f64::consts::TAU * k as f64 / STEPS as f64;
            (ring.circle.centre + (u * angle.cos() + v * angle.sin()) * ring.circle.radius).to_array()
        };
        let (centre, radius) = (ring.circle.centre.to_array(), ring.circle.radius);
        Self { centre, radius, points: (0..STEPS).map(point).collect(), half: 0.5 * ring.wire }
    }

    /// How high the wire's skin is over a place, and how far the place is from the nearest middle of the wire, in halves
    /// of it; no height where it is beside.
    fn over(&self, x: f64, y: f64) -> (Option<f64>, f64) {
        if (x - self.centre[0]).hypot(y - self.centre[1]) > self.radius + 2.0 * self.half {
            return (None, f64::INFINITY);
        }
        let mut high: Option<f64> = None;
        let mut nearest = f64::INFINITY;
        for k in 0..STEPS {
            let ([ax, ay, az], [bx, by, bz]) = (self.points[k], self.points[(k + 1) % STEPS]);
            let (dx, dy) = (bx - ax, by - ay);
            let t = (((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy).max(1e-18)).clamp(0.0, 1.0);
            let away = ((x - ax - t * dx).powi(2) + (y - ay - t * dy).powi(2)).sqrt();
            nearest = nearest.min(away);
            if away < self.half {
                let skin = az + t * (bz - az) + (self.half * self.half - away * away).sqrt();
                high = Some(high.map_or(skin, |h| h.max(skin)));
            }
        }
        (high, nearest / self.half)
    }
}

/// Of so many crossings, and of so many places, one may be seen wrongly: slivers, where the tip of a ring that is seen
/// nearly on its edge comes out from under another.
const ONE_IN: [usize; 2] = [10_000, 10_000];

/// Crossings looked at, places compared, and what is seen wrongly.
#[derive(Default)]
struct Tally {
    crossings: usize,
    places: usize,
    wrong: Vec<String>,
    /// Of those the ones at a crossing itself.
    in_the_middle: usize,
}

/// Where the middle lines of two rings cross as they are seen.
struct Crossing {
    /// Numbers of the rings, the nearer first.
    rings: [usize; 2],
    x: f64,
    y: f64,
}

/// Every crossing, segment by segment, from a grid.
fn crossings(tori: &[Torus]) -> Vec<Crossing> {
    let widest = tori
        .iter()
        .flat_map(|t| t.points.windows(2))
        .map(|w| (w[0][0] - w[1][0]).abs().max((w[0][1] - w[1][1]).abs()))
        .fold(1e-9, f64::max);
    let mut cells: BTreeMap<(i64, i64), Vec<(usize, usize)>> = BTreeMap::new();
    let cell = |p: [f64; 3]| ((p[0] / widest).floor() as i64, (p[1] / widest).floor() as i64);
    for (number, torus) in tori.iter().enumerate() {
        for k in 0..STEPS {
            cells.entry(cell(torus.points[k])).or_default().push((number, k));
        }
    }
    let mut found = Vec::new();
    for (number, torus) in tori.iter().enumerate() {
        for k in 0..STEPS {
            let (p, q) = (torus.points[k], torus.points[(k + 1) % STEPS]);
            let (x, y) = cell(p);
            for beside in (-2..=2).flat_map(|dx| (-2..=2).map(move |dy| (x + dx, y + dy))) {
                for (other, j) in cells.get(&beside).into_iter().flatten().filter(|(o, _)| *o > number) {
                    let (r, s) = (tori[*other].points[*j], tori[*other].points[(j + 1) % STEPS]);
                    let (d, e) = ([q[0] - p[0], q[1] - p[1]], [s[0] - r[0], s[1] - r[1]]);
                    let across = d[0] * e[1] - d[1] * e[0];
                    if across.abs() < 1e-12 {
                        continue;
                    }
                    let (ox, oy) = (r[0] - p[0], r[1] - p[1]);
                    let (u, v) = ((ox * e[1] - oy * e[0]) / across, (ox * d[1] - oy * d[0]) / across);
                    if (0.0..1.0).contains(&u) && (0.0..1.0).contains(&v) {
                        let (own, their) = (p[2] + u * (q[2] - p[2]), r[2] + v * (s[2] - r[2]));
                        let rings = if own > their { [number, *other] } else { [*other, number] };
                        found.push(Crossing { rings, x: p[0] + u * d[0], y: p[1] + u * d[1] });
                    }
                }
            }
        }
    }
    found
}

fn compare(name: &str, text: &str, from: Viewpoint) -> Tally {
    let weave = kept(text);
    let settled = weave.settled().unwrap();
    let options = Options { from, ..Options::default() };
    let svg = picture(weave, settled, size(text), &options).unwrap();
    let scene = Scene::of(weave, settled, size(text), from).unwrap();
    let frame = Frame::of(&svg, &scene.rings);
    compared(&format!("{name} {from:?}"), &svg, &scene.rings, &frame)
}

/// Where a document puts a place: its left and upper edge in the unit of the rings, and mm to that unit. It is as wide as the
/// rings, and 3 mm more all round.
struct Frame {
    left: f64,
    high: f64,
    scale: f64,
    /// mm above the rings.
    above: f64,
}

impl Frame {
    fn of(svg: &str, rings: &[SceneRing]) -> Self {
        let tori: Vec<Torus> = rings.iter().map(Torus::of).collect();
        let all = || tori.iter().flat_map(|t| t.points.iter().map(move |p| (*p, t.half)));
        let left = all().map(|(p, half)| p[0] - half).fold(f64::INFINITY, f64::min);
        let right = all().map(|(p, half)| p[0] + half).fold(f64::NEG_INFINITY, f64::max);
        let high = all().map(|(p, half)| p[1] + half).fold(f64::NEG_INFINITY, f64::max);
        let wide: f64 = svg.split("width=\"").nth(1).unwrap().split("mm").next().unwrap().parse().unwrap();
        Self { left, high, scale: (wide - 6.0) / (right - left), above: 3.0 }
    }
}

fn compared(name: &str, svg: &str, rings: &[SceneRing], frame: &Frame) -> Tally {
    let raster = Raster::of(&flat(svg, rings));
    let tori: Vec<Torus> = rings.iter().map(Torus::of).collect();
    let Frame { left, high, scale, above } = *frame;
    let px = |mm: f64| mm * 96.0 / 25.4;
    let mut tally = Tally::default();
    let crossings = crossings(&tori);
    tally.crossings = crossings.len();
    // At every crossing, and a little beside it to all sides.
    let wire = tori.iter().map(|t| t.half).fold(f64::INFINITY, f64::min);
    let beside = [(0.0, 0.0), (0.5, 0.0), (-0.5, 0.0), (0.0, 0.5), (0.0, -0.5)];
    let sides = crossings.iter().flat_map(|c| beside.map(|(dx, dy)| (c.x + dx * wire, c.y + dy * wire)));
    // One pixel, in halves of a wire.
    let pixel = 2.0 / (px(scale) * raster.scale) / wire;
    for (number, (x, y)) in sides.enumerate() {
        let over: Vec<(Option<f64>, f64)> = tori.iter().map(|t| t.over(x, y)).collect();
        let numbered = over.iter().enumerate().filter_map(|(n, (high, _))| Some((n + 1, (*high)?)));
        let mut heights: Vec<(usize, f64)> = numbered.collect();
        heights.sort_by(|a, b| b.1.total_cmp(&a.1));
        // At the very edge of a wire, and where two skins are level, pixels say nothing.
        let edge = over.iter().any(|(_, away)| (away - 1.0).abs() < 1.5 * pixel);
        let level = matches!(heights.as_slice(), [a, b, ..] if a.1 - b.1 < 0.1 * wire);
        let [(expected, _), ..] = heights.as_slice() else { continue };
        if edge || level {
            continue;
        }
        tally.places += 1;
        let seen = raster.ring(px((x - left) * scale + 3.0), px((high - y) * scale + above));
        if seen != *expected {
            tally.in_the_middle += usize::from(number % beside.len() == 0);
            let named = |n: usize| n.checked_sub(1).map_or("nothing", |n| rings[n].name.as_str());
            tally.wrong.push(format!(
                "{name}: {} is seen at ({x:.3}, {y:.3}) and {} is nearer",
                named(seen),
                named(*expected)
            ));
        }
    }
    tally
}

/// Every crossing of every built-in weave, from four sides: what is nearer is worked out anew from the rings alone, as the
/// height of their skins over a place, and held against what a rasteriser shows there.
#[test]
fn what_is_nearer_is_seen_at_every_crossing() {
    let all: Vec<(&str, &str, Viewpoint)> =
        examples().into_iter().flat_map(|(name, text)| VIEWS.map(|from| (name, text, from))).collect();
    let tallies: Vec<Tally> = all.par_iter().map(|(name, text, from)| compare(name, text, *from)).collect();
    let crossings: usize = tallies.iter().map(|t| t.crossings).sum();
    let places: usize = tallies.iter().map(|t| t.places).sum();
    let wrong: Vec<&String> = tallies.iter().flat_map(|t| &t.wrong).collect();
    let in_the_middle: usize = tallies.iter().map(|t| t.in_the_middle).sum();
    println!("{crossings} crossings, {places} places compared, {} wrong, {in_the_middle} at a crossing", wrong.len());
    assert!(crossings > 50_000 && places > 2 * crossings, "{crossings} crossings, {places} places");
    let list = wrong.iter().take(40).map(|w| w.as_str()).collect::<Vec<_>>().join("\n");
    println!("{list}");
    assert!(
        in_the_middle * ONE_IN[0] < crossings && wrong.len() * ONE_IN[1] < places,
        "{in_the_middle} and {} of {places}:\n{list}",
        wrong.len()
    );
}

/// The names of the rings, in the order their arcs are drawn.
fn order(svg: &str) -> Vec<String> {
    let named = svg.lines().filter_map(|l| l.split("data-ring=\"").nth(1));
    let mut names: Vec<String> = named.map(|l| l.split('"').next().unwrap().to_owned()).collect();
    names.dedup();
    names
}

/// What is in a picture: its rings, and at every crossing which is over which, from the left. Worked out from the rings, and
/// where each is seen in the picture itself.
fn meaning(svg: &str, rings: &[SceneRing]) -> String {
    let frame = Frame::of(svg, rings);
    let raster = Raster::of(&flat(svg, rings));
    let tori: Vec<Torus> = rings.iter().map(Torus::of).collect();
    let mut all = crossings(&tori);
    all.sort_by(|a, b| a.x.total_cmp(&b.x).then(b.y.total_cmp(&a.y)));
    let names: Vec<&str> = rings.iter().map(|r| r.name.as_str()).collect();
    let px = |mm: f64| mm * 96.0 / 25.4;
    let line = |c: &Crossing| {
        let (x, y) = ((c.x - frame.left) * frame.scale + 3.0, (frame.high - c.y) * frame.scale + frame.above);
        let seen = raster.ring(px(x), px(y)).checked_sub(1).map_or("nothing", |n| names[n]);
        format!("{} over {} at {x:.1}, {y:.1} mm; {seen} is seen", names[c.rings[0]], names[c.rings[1]])
    };
    format!("rings {}\n{}", names.join(" "), all.iter().map(line).collect::<Vec<_>>().join("\n"))
}

/// The SVG of small pieces, and what it means.
#[test]
fn small_pictures() {
    for (name, size) in [("rosette-of-three", [1, 1]), ("simple-chain", [2, 1]), ("half-persian-3-in-1", [2, 1])] {
        let weave = kept(examples().into_iter().find(|(n, _)| *n == name).unwrap().1);
        let settled = weave.settled().unwrap();
        let svg = picture(weave, settled, Repeats(size), &Options::default()).unwrap();
        let scene = Scene::of(weave, settled, Repeats(size), Viewpoint::FRONT).unwrap();
        insta::assert_snapshot!(format!("picture_{name}"), format!("{}\n\n{svg}", meaning(&svg, &scene.rings)));
    }
}

/// Elements and attributes that every browser, vector editor and printer knows (SVG 1.1): no styles, filters or scripts, and
/// nothing from elsewhere.
#[test]
fn pictures_are_plain_svg() {
    const ELEMENTS: [&str; 9] = ["svg", "title", "desc", "rect", "g", "path", "circle", "text", "clipPath"];
    let all = CallOut { eye: true, lean: true, aspect_ratio: true, enlarged: true };
    let weave = kept(examples().into_iter().find(|(n, _)| *n == "tideline-bracelet").unwrap().1);
    let settled = weave.settled().unwrap();
    let whole = Options { call_out: all, ..Options::default() };
    let frames = Frames::of(weave, settled, Repeats([3, 1]), &Options::default()).unwrap();
    for svg in [picture(weave, settled, Repeats([4, 1]), &whole).unwrap(), frames.frame(2, 3).unwrap()] {
        let document = roxmltree::Document::parse(&svg).unwrap();
        for node in document.descendants().filter(roxmltree::Node::is_element) {
            assert!(ELEMENTS.contains(&node.tag_name().name()), "{}", node.tag_name().name());
            assert!(node.attribute("style").is_none());
            assert!(node.attributes().all(|a| !a.value().contains("http")), "{node:?}");
        }
        // One element a line, and no long tails of digits.
        assert!(svg.lines().all(|l| l.matches('<').count() <= 2 || l.contains("clipPath")), "{svg}");
        let digits = svg.split('.').skip(1).map(|part| part.chars().take_while(char::is_ascii_digit).count());
        assert!(digits.max().unwrap() <= 3);
        let ids: Vec<&str> = document.descendants().filter_map(|n| n.attribute("id")).collect();
        assert_eq!(ids.len(), ids.iter().collect::<std::collections::BTreeSet<_>>().len());
    }
}

#[test]
fn every_picture_is_well_formed_and_speaks() {
    for (name, text) in examples() {
        let weave = kept(text);
        let svg = picture(weave, weave.settled().unwrap(), size(text), &Options::default()).unwrap();
        let document = roxmltree::Document::parse(&svg).unwrap();
        let root = document.root_element();
        assert_eq!(root.attribute("role"), Some("img"), "{name}");
        let words =
            |tag: &str| root.children().find(|n| n.tag_name().name() == tag).and_then(|n| n.text()).unwrap().to_owned();
        assert!(words("title").starts_with(weave.name()) && words("desc").contains("rings"), "{name}");
        assert!(!svg.contains("NaN") && !svg.contains("inf"), "{name}");
        // Every ring of the piece is there.
        let mut drawn = order(&svg);
        drawn.sort();
        drawn.dedup();
        assert_eq!(drawn.len(), weave.piece(size(text)).unwrap().graph.node_count(), "{name}");
        // Fills never stand alone: outlines are there, and other colours have marks.
        assert_eq!(svg.matches("class=\"edge\"").count(), svg.matches("class=\"wire\"").count(), "{name}");
    }
}

/// Rows of a sheet lie one below the other, columns run to the right, as the text has it.
#[test]
fn rows_run_down_and_columns_to_the_right() {
    let text = examples().into_iter().find(|(n, _)| *n == "japanese-4-in-1-sheet").unwrap().1;
    let weave = kept(text);
    let scene = Scene::of(weave, weave.settled().unwrap(), Repeats([2, 2]), Viewpoint::FRONT).unwrap();
    let at = |name: &str| scene.rings.iter().find(|r| r.name == name).unwrap().circle.centre;
    let (right, down) = (at("a[1,2]") - at("a[1,1]"), at("a[2,1]") - at("a[1,1]"));
    assert!(right.x > 1.0 && right.y.abs() < 0.5 && down.y < -1.0 && down.x.abs() < 0.5, "{right} {down}");
}

/// A ring of 1.29 mm wire and 6.35 mm inside is 8.93 mm across, on paper as on the bench; 3 mm of white stand on both
/// sides.
#[test]
fn at_true_scale_rings_have_their_real_millimetres() {
    let kit = examples().into_iter().find(|(n, _)| *n == "larkspur-lane-first-chain-kit").unwrap().1;
    let wide = |times: f64| {
        let options = Options { scale: Scale::Times(times), ..Options::default() };
        let svg = picture(kept(kit), kept(kit).settled().unwrap(), Repeats([1, 1]), &options).unwrap();
        svg.split("width=\"").nth(1).unwrap().split("mm\"").next().unwrap().parse::<f64>().unwrap()
    };
    // 16 AWG by its formula (ASTM B258) is 1.2908 mm.
    assert!((wide(1.0) - 6.0 - (6.35 + 2.0 * 1.2908)).abs() < 0.02, "{}", wide(1.0));
    assert!((wide(5.0) - 6.0 - 5.0 * (6.35 + 2.0 * 1.2908)).abs() < 0.05, "{}", wide(5.0));
    let bare = examples().into_iter().find(|(n, _)| *n == "simple-chain").unwrap().1;
    let options = Options { scale: Scale::Times(1.0), ..Options::default() };
    let none = picture(kept(bare), kept(bare).settled().unwrap(), Repeats([1, 1]), &options).unwrap_err();
    assert!(none.to_string().contains("in `rings`"), "{none}");
}

/// Colours are those of the text, cycling as they are counted; a name that is no colour takes one of the palette.
#[test]
fn colours_are_those_of_the_text() {
    let text = "weave \"x\"\nring a, b\nrepeat n\n  b[n] down a[n], a[n+1]\nrings\n  main AR 4, \"dusk violet\"\ncolours\n  b: teal, \"garden gate\", copper\n";
    let weave = kept(text);
    let svg = picture(weave, weave.settled().unwrap(), Repeats([4, 1]), &Options::default()).unwrap();
    let fill = |ring: &str| {
        let group = svg.split(&format!("data-ring=\"{ring}\"")).nth(1).unwrap();
        group.split("class=\"wire\"").nth(1).unwrap().split("stroke=\"").nth(1).unwrap().split('"').next().unwrap()
    };
    assert_eq!(fill("a[1]"), "#ee82ee");
    assert_eq!(fill("b[1]"), "#008080");
    assert_eq!(fill("b[4]"), "#008080");
    assert_eq!(fill("b[3]"), "#c07a4a", "copper looks like copper");
    assert!(!["#ee82ee", "#008080"].contains(&fill("b[2]")));
}

#[test]
fn what_does_not_close_is_not_drawn() {
    let text = "weave \"x\"\nbase \"half Persian 3-in-1\"\nrings\n  main wire 1.6 mm, inner 5 mm\n";
    let none = picture(kept(text), kept(text).settled().unwrap(), Repeats([3, 1]), &Options::default()).unwrap_err();
    assert!(none.to_string().contains("does not close"), "{none}");
}
