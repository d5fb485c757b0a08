//! The page: title, the repeat, the legend, and what the text says.

use super::choice::Role;
use super::description::{cut, families, has_sides, ring_name, whole};
use super::ink::{Pen, mark, mark_size};
use super::layout::Look;
use super::legend;
use super::names::{Label, NAME_SIZE, labels};
use super::scene::{Drawn, Scene};
use super::strands::{Strands, strands};
use super::threadings::{Threading, threadings};
use crate::Weave;
use crate::draw::lettering;
use crate::draw::plane::number;
use crate::draw::svg::{Element, Head, Svg};
use crate::pattern::{Lattice, Pattern};
use crate::text::{count, list, short_name};
use kurbo::{Point, Rect, Vec2};

/// Width of the chart, its margin, and the width between the margins, mm.
const WIDTH: f64 = 120.0;
pub const MARGIN: f64 = 6.0;
pub const ROOM: f64 = WIDTH - 2.0 * MARGIN;
/// From one line of words to the next, in letter heights.
const LEADING: f64 = 1.42;
/// A longer name of a weave is cut, characters.
const LONGEST_TITLE: usize = 160;

/// The whole document.
pub fn page(weave: &Weave) -> String {
    let pattern = weave.pattern();
    let threadings = threadings(pattern, weave.links());
    let mut scene = Scene::of(pattern, &threadings);
    let labels = labels(pattern, &scene, ROOM);
    let strands = strands(pattern, &scene, |ring| pen(pattern, &scene, ring).clearance());
    let title = cut(weave.name(), LONGEST_TITLE);
    let subtitle = subtitle(pattern.lattice);
    let sentences = sentences(pattern, &threadings, &scene, labels.len());

    let mut page = Page { svg: Svg::new(), y: MARGIN, id: format!("chart-{}", short_name(&title)) };
    page.svg.element("g").set("font-family", "sans-serif").set("fill", "#000000").open();
    page.text(&title, Letters::Title);
    page.text(subtitle, Letters::Text);
    page.y += 2.0;
    let sides = has_sides(pattern);
    if sides {
        page.text("far side, away from you", Letters::Side);
    }
    page.y += 2.0;
    page.repeat(pattern, &mut scene, &strands, &labels);
    if sides {
        page.text("near side, towards you", Letters::Side);
        page.y += 1.0;
    }
    legend::draw(&mut page, pattern, &scene, &strands);
    page.y += 2.0;
    for sentence in &sentences {
        page.text(sentence, Letters::Text);
        page.y += 0.8;
    }
    page.svg.close();
    let description = format!("{subtitle} {}", sentences.join(" "));
    let head = Head {
        id: &page.id,
        title: &format!("Chart of {title}"),
        description: &description,
        wide: WIDTH,
        tall: page.y + MARGIN,
    };
    page.svg.document(&head)
}

/// What the text says of its rings, and what the chart leaves out. `named` rings have a name on it.
fn sentences(pattern: &Pattern, threadings: &[Threading], scene: &Scene, named: usize) -> Vec<String> {
    let mut sentences = families(pattern, threadings);
    sentences.extend(whole(pattern));
    if pattern.families.is_empty() {
        sentences.push("The text declares no rings yet.".to_owned());
    }
    let left_out = [(scene.rings_left_out, "ring"), (scene.left_out, "pass")];
    let left_out: Vec<String> = left_out.iter().filter(|(n, _)| *n > 0).map(|(n, what)| count(*n, what)).collect();
    if !left_out.is_empty() {
        sentences.push(format!("The chart has no room for {}.", list(&left_out, "and")));
    }
    if named < scene.rings.iter().filter(|r| r.role != Role::Neighbour).count() {
        sentences.push("The chart leaves out a ring's name where it has no room for it.".to_owned());
    }
    sentences
}

fn subtitle(lattice: Lattice) -> &'static str {
    match lattice {
        Lattice::Unit => "The whole unit, seen from the front.",
        Lattice::Chain => "One repeat of a chain, seen from the front, first ring at the left.",
        Lattice::Sheet => "One repeat of a sheet, seen from the front: rows run downwards, columns to the right.",
    }
}

/// The pen of a ring.
fn pen(pattern: &Pattern, scene: &Scene, ring: &Drawn) -> Pen {
    let accent = pattern.families[ring.name.0].accent;
    Pen::of(ring.look, ring.role, accent, scene.radius)
}

/// Draws the circles, then the loops; of each first the outlines, so that hollows run into each other.
fn draw_rings(svg: &mut Svg, pattern: &Pattern, scene: &Scene, strands: &Strands) {
    for look in [Look::Circle, Look::Loop] {
        let mut rings: Vec<_> = scene.rings.iter().zip(&strands.strands).filter(|(r, _)| r.look == look).collect();
        rings.sort_by_key(|(ring, _)| ring.role);
        for (ring, strand) in &rings {
            let name = ring_name(pattern, ring.name);
            let role = match ring.role {
                Role::Own => "own",
                Role::Passed => "passed",
                Role::Neighbour => "neighbour",
            };
            pen(pattern, scene, ring).outline(svg, &ring.curve, strand, |path| {
                let path = path.set("data-ring", &name).set("data-role", role);
                match ring.centre {
                    Some(at) => path.mm("data-cx", at.x).mm("data-cy", at.y).mm("data-r", scene.radius),
                    None => path,
                }
            });
        }
        for (ring, strand) in &rings {
            pen(pattern, scene, ring).core(svg, &ring.curve, strand);
        }
    }
}

/// Draws the marks. `id` starts their ids.
fn draw_marks(svg: &mut Svg, pattern: &Pattern, scene: &Scene, id: &str) {
    for (place, number) in scene.marks.iter().zip(1..) {
        let ring = scene.rings.get(place.ring).map_or_else(String::new, |r| ring_name(pattern, r.name));
        let passes: Vec<String> = place.through.iter().map(|n| ring_name(pattern, *n)).collect();
        mark(svg, place.at, mark_size(scene.radius), place.way, |path| {
            let path = path.set("id", format_args!("{id}-mark-{number}")).set("data-ring", &ring);
            let path = path.set("data-passes", passes.join("; ")).set("data-sense", place.way.word());
            path.mm("data-x", place.at.x).mm("data-y", place.at.y)
        });
    }
}

/// How words are set.
#[derive(Clone, Copy)]
enum Letters {
    /// The name of the weave.
    Title,
    /// Sentences.
    Text,
    /// The name of an edge of the piece.
    Side,
}

impl Letters {
    /// Their height, mm.
    fn size(self) -> f64 {
        match self {
            Self::Title => 5.4,
            Self::Text | Self::Side => 3.1,
        }
    }

    /// Their height for the purpose of finding their width: bold letters are wider.
    fn breaking_size(self) -> f64 {
        match self {
            Self::Title => 1.1 * self.size(),
            Self::Text | Self::Side => self.size(),
        }
    }

    fn set(self, text: Element<'_>) -> Element<'_> {
        match self {
            Self::Title => text.set("font-weight", "bold"),
            Self::Text => text,
            Self::Side => text.set("fill", "#595959").set("font-style", "italic"),
        }
    }
}

/// A column of words, mm.
#[derive(Clone, Copy)]
pub struct Column {
    /// Its left edge.
    pub left: f64,
    /// Its width.
    pub width: f64,
}

/// A page that is written from top to bottom.
pub struct Page {
    /// What is on it.
    pub svg: Svg,
    /// How far down it is full, mm.
    pub y: f64,
    /// Starts every id on it.
    id: String,
}

impl Page {
    /// Draws the repeat, and puts the names on it.
    fn repeat(&mut self, pattern: &Pattern, scene: &mut Scene, strands: &Strands, labels: &[Label]) {
        let boxes = labels.iter().map(|l| Rect::from_points(l.at - l.half, l.at + l.half));
        let bounds = boxes.fold(scene.bounds(), |all, label| all.union(label));
        let by = Vec2::new((WIDTH - bounds.x0 - bounds.x1) / 2.0, self.y - bounds.y0);
        scene.move_by(by);
        if scene.rings.is_empty() {
            return;
        }
        draw_rings(&mut self.svg, pattern, scene, strands);
        draw_marks(&mut self.svg, pattern, scene, &self.id);
        for label in labels {
            self.name(label, label.at + by);
        }
        self.y += bounds.height() + 3.0;
    }

    /// Sets words across the page.
    fn text(&mut self, text: &str, letters: Letters) {
        self.y += self.set(text, letters, Column { left: MARGIN, width: ROOM });
    }

    /// Sets words in a column that begins here; returns the height they take, mm.
    pub fn column(&mut self, text: &str, column: Column) -> f64 {
        self.set(text, Letters::Text, column)
    }

    fn set(&mut self, text: &str, letters: Letters, Column { left, width }: Column) -> f64 {
        let size = letters.size();
        let lines = lettering::lines(text, letters.breaking_size(), width);
        for (line, words) in lines.iter().enumerate() {
            let base = Point::new(left, self.y + size * (0.95 + LEADING * number(line)));
            letters.set(self.svg.element("text").at(base).mm("font-size", size)).words(words);
        }
        size * LEADING * number(lines.len())
    }

    /// Sets a ring's name, with a white rim.
    fn name(&mut self, label: &Label, at: Point) {
        let text = self.svg.element("text").at(at + Vec2::new(0.0, NAME_SIZE * 0.33)).mm("font-size", NAME_SIZE);
        text.set("font-weight", if label.role == Role::Own { "bold" } else { "normal" })
            .set("text-anchor", "middle")
            .set("stroke", "#ffffff")
            .set("stroke-width", "0.90")
            .set("stroke-linejoin", "round")
            .set("paint-order", "stroke")
            .words(&label.text);
    }
}
