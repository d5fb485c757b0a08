//! The page: title, the repeat, what the signs mean, what the text says.

use super::choice::Role;
use super::curve::{Curve, Point, number, point};
use super::goings::goings;
use super::ink::Pen;
use super::layout::Look;
use super::names::NAME_SIZE;
use super::scene::Scene;
use super::strands::{Strands, strands};
use super::{ink, names, signs, words};
use crate::Weave;
use crate::draw::{Svg, lettering, mm};
use crate::pattern::{FamilyId, Lattice, Pattern};

/// Width of the chart, margin, and width between the margins, in mm.
pub const WIDTH: f64 = 120.0;
pub const MARGIN: f64 = 6.0;
pub const ROOM: f64 = WIDTH - 2.0 * MARGIN;
/// Letter heights and line spacing, in mm.
const TITLE_SIZE: f64 = 5.4;
pub const TEXT_SIZE: f64 = 3.1;
pub const LEADING: f64 = 1.42;
/// Longer names of weaves are cut.
const LONGEST_TITLE: usize = 160;

/// The whole document.
pub fn page(weave: &Weave) -> String {
    let pattern = weave.pattern();
    let goings = goings(pattern, weave.links());
    let mut scene = Scene::of(pattern, &goings);
    let labels = names::labels(pattern, &scene, ROOM);
    let radius = scene.radius;
    let accent = |family: FamilyId| pattern.families[family].accent;
    let strands = strands(pattern, &scene, |r| ink::pen(r, accent(r.name.0), radius).clearance());

    let title = words::cut(weave.name(), LONGEST_TITLE);
    let subtitle = subtitle(pattern.lattice);
    let mut sentences = words::families(pattern, &goings);
    sentences.extend(words::whole(pattern));
    if pattern.families.is_empty() {
        sentences.push("No rings are declared yet.".to_owned());
    }
    if scene.left_out > 0 || scene.rings_left_out > 0 {
        sentences.push(format!("Not drawn, for want of room: {}.", left_out(&scene)));
    }
    if labels.len() < scene.rings.iter().filter(|r| r.role != Role::Neighbour).count() {
        sentences.push("Where there is no room for a ring's name the chart leaves it out.".to_owned());
    }

    let mut page = Page { svg: Svg::default(), y: MARGIN, id: id(&title) };
    page.svg.open("g", &[("font-family", "sans-serif"), ("fill", "#000000")]);
    page.text(&title, TITLE_SIZE, &[("font-weight", "bold")]);
    page.text(subtitle, TEXT_SIZE, &[]);
    let sides = words::has_sides(pattern);
    page.y += 2.0;
    if sides {
        page.side("far side, away from you");
    }
    page.y += 2.0;
    let corners: Vec<Point> = labels.iter().flat_map(|l| [l.at.minus(l.half), l.at.plus(l.half)]).collect();
    let (low, high) = scene.bounds();
    let (low, high) = Curve::bounds_of(&[&[low, high][..], &corners].concat());
    let by = point((WIDTH - low.x - high.x) / 2.0, page.y - low.y);
    scene.move_by(by);
    if !scene.rings.is_empty() {
        draw(&mut page, pattern, &scene, &strands);
        for label in &labels {
            page.label(label, by);
        }
        page.y += high.y - low.y + 3.0;
    }
    if sides {
        page.side("near side, towards you");
        page.y += 1.0;
    }
    signs::draw(&mut page, pattern, &scene, &strands);
    page.y += 2.0;
    for sentence in &sentences {
        page.text(sentence, TEXT_SIZE, &[]);
        page.y += 0.8;
    }
    page.svg.close("g");
    document(&title, &format!("{subtitle} {}", sentences.join(" ")), page)
}

/// What the names of the document's parts start with, so that several charts can stand in one page.
fn id(title: &str) -> String {
    format!("chart-{}", crate::text::short_name(title))
}

fn document(title: &str, description: &str, page: Page) -> String {
    let height = mm(page.y + MARGIN);
    let mut svg = Svg::default();
    let (title_id, desc_id) = (format!("{}-title", page.id), format!("{}-desc", page.id));
    let (wide, high) = (format!("{}mm", mm(WIDTH)), format!("{height}mm"));
    let view = format!("0 0 {} {height}", mm(WIDTH));
    svg.open(
        "svg",
        &[
            ("xmlns", "http://www.w3.org/2000/svg"),
            ("width", &wide),
            ("height", &high),
            ("viewBox", &view),
            ("role", "img"),
            ("aria-labelledby", &format!("{title_id} {desc_id}")),
        ],
    );
    svg.words("title", &[("id", title_id.as_str())], &format!("Chart of {title}"));
    svg.words("desc", &[("id", desc_id.as_str())], description);
    svg.empty("rect", &[("x", "0"), ("y", "0"), ("width", &mm(WIDTH)), ("height", &height), ("fill", "#ffffff")]);
    svg.nest(&page.svg.finish());
    svg.close("svg");
    svg.finish()
}

fn subtitle(lattice: Lattice) -> &'static str {
    match lattice {
        Lattice::Unit => "The whole unit, seen from the front.",
        Lattice::Chain => "One repeat of a chain, seen from the front, first ring at the left.",
        Lattice::Sheet => "One repeat of a sheet, seen from the front: rows run downwards, columns to the right.",
    }
}

fn left_out(scene: &Scene) -> String {
    let count = |n: usize, what: &str| if n == 1 { format!("1 {what}") } else { format!("{n} {what}s") };
    let mut parts = Vec::new();
    if scene.rings_left_out > 0 {
        parts.push(count(scene.rings_left_out, "ring"));
    }
    if scene.left_out > 0 {
        parts.push(count(scene.left_out, "pass").replace("passs", "passes"));
    }
    parts.join(" and ")
}

/// Draws rings, then marks.
fn draw(page: &mut Page, pattern: &Pattern, scene: &Scene, strands: &Strands) {
    let pen =
        |family: FamilyId, look: Look, role: Role| Pen::of(look, role, pattern.families[family].accent, scene.radius);
    let svg = &mut page.svg;
    let mut order: Vec<usize> = (0..scene.rings.len()).collect();
    order.sort_by_key(|i| scene.rings.get(*i).map(|r| r.role));
    for look in [Look::Circle, Look::Loop] {
        for outline in [true, false] {
            for i in &order {
                let (Some(ring), Some(strand)) = (scene.rings.get(*i), strands.strands.get(*i)) else { continue };
                if ring.look != look {
                    continue;
                }
                let pen = pen(ring.name.0, ring.look, ring.role);
                if !outline {
                    pen.core(svg, &ring.curve, strand);
                    continue;
                }
                let name = words::ring_name(pattern, ring.name);
                let role = match ring.role {
                    Role::Own => "own",
                    Role::Passed => "passed",
                    Role::Neighbour => "neighbour",
                };
                let mut more = vec![("data-ring", name), ("data-role", role.to_owned())];
                if let Some(centre) = ring.centre {
                    more.extend([("data-cx", mm(centre.x)), ("data-cy", mm(centre.y)), ("data-r", mm(scene.radius))]);
                }
                let more: Vec<(&str, &str)> = more.iter().map(|(k, v)| (*k, v.as_str())).collect();
                pen.outline(svg, &ring.curve, strand, &more);
            }
        }
    }
    for (number, mark) in scene.marks.iter().enumerate() {
        let ring = scene.rings.get(mark.ring).map_or_else(String::new, |r| words::ring_name(pattern, r.name));
        let passes: Vec<String> = mark.through.iter().map(|n| words::ring_name(pattern, *n)).collect();
        let sense = if mark.down { "down" } else { "up" };
        let (id, passes, x, y) =
            (format!("{}-mark-{}", page.id, number + 1), passes.join("; "), mm(mark.at.x), mm(mark.at.y));
        let more = [
            ("id", id.as_str()),
            ("data-ring", &ring),
            ("data-passes", &passes),
            ("data-sense", sense),
            ("data-x", &x),
            ("data-y", &y),
        ];
        ink::mark(svg, mark.at, ink::mark_size(scene.radius), mark.down, &more);
    }
}

/// A page being written from top to bottom.
pub struct Page {
    /// What is on it.
    pub svg: Svg,
    /// How far down it is full, in mm.
    pub y: f64,
    /// What the names of its parts start with.
    id: String,
}

impl Page {
    /// Sets words across the page.
    fn text(&mut self, text: &str, size: f64, more: &[(&str, &str)]) {
        let used = self.column(text, size, (MARGIN, ROOM), more);
        self.y += used;
    }

    /// Sets words in a column given by its left edge and width; returns the height used.
    pub fn column(&mut self, text: &str, size: f64, (x, room): (f64, f64), more: &[(&str, &str)]) -> f64 {
        // Bold letters are wider.
        let wide = if more.contains(&("font-weight", "bold")) { 1.1 } else { 1.0 };
        let lines = lettering::lines(text, size * wide, room);
        for (line, words) in lines.iter().enumerate() {
            let y = mm(self.y + size * (0.95 + LEADING * number(line)));
            let (x, size) = (mm(x), mm(size));
            let mut attributes = vec![("x", x.as_str()), ("y", y.as_str()), ("font-size", size.as_str())];
            attributes.extend(more);
            self.svg.words("text", &attributes, words);
        }
        size * LEADING * number(lines.len())
    }

    fn side(&mut self, words: &str) {
        self.text(words, TEXT_SIZE, &[("fill", "#595959"), ("font-style", "italic")]);
    }

    fn label(&mut self, label: &names::Label, by: Point) {
        let at = label.at.plus(by);
        let (x, y, size) = (mm(at.x), mm(at.y + NAME_SIZE * 0.33), mm(NAME_SIZE));
        let weight = if label.own { "bold" } else { "normal" };
        self.svg.words(
            "text",
            &[
                ("x", &x),
                ("y", &y),
                ("font-size", &size),
                ("font-weight", weight),
                ("text-anchor", "middle"),
                ("stroke", "#ffffff"),
                ("stroke-width", "0.90"),
                ("stroke-linejoin", "round"),
                ("paint-order", "stroke"),
            ],
            &label.text,
        );
    }
}
