//! The map of an answer of [`fit`](crate::fit): wire against inner diameter, one panel for each kind. Tints show how much room
//! the rings have, lines are aspect ratios, and every size on offer has a mark.

use super::lettering::{lines, width};
use super::plane::number;
use super::svg::{Anchor, Element, Head, Mm, Svg};
use crate::fit::{Fit, Mark, Panel, Standing};
use crate::settle::{Hold, LITTLE_ROOM, Word};
use crate::text::{count, list, trimmed};
use kurbo::{Line, Point, Rect, Size, Vec2};

/// Width and margin of the page, mm.
const WIDTH: f64 = 170.0;
const MARGIN: f64 = 6.0;
/// A panel inside its axes: its left edge, width and height, mm.
const LEFT: f64 = 20.0;
const ACROSS: f64 = 138.0;
const HIGH: f64 = 84.0;
/// Letters, mm.
const TITLE: f64 = 4.2;
const LETTER: f64 = 2.8;
/// Cells in which the room is found, down and across a panel.
const ROWS: u32 = 84;
const COLUMNS: u32 = 276;
/// Inks. Lines and marks are black. The grey is 4.5:1 on white.
const BLACK: &str = "#000000";
const GREY: &str = "#767676";
/// Little room, dense, middling, open. The legend names them, so nothing depends on colour alone.
const TINTS: [(&str, &str); 4] = [
    ("#e8c07a", "room under 3 %"),
    ("#8fc3e8", "dense: under 8 %"),
    ("#c4e0f3", "middling: under 20 %"),
    ("#e9f3fa", "open"),
];
/// The marks of the legend.
const MARKS: [(Standing, &str); 5] = [
    (Standing::Closes, "closes, sits straight"),
    (Standing::Sits(Word::Askew), "sits askew"),
    (Standing::Sits(Word::Loose), "sits loose"),
    (Standing::Not, "no pose found, or proved"),
    (Standing::NotSettled, "not settled"),
];

/// The map as a whole SVG document, 170 mm wide.
pub fn fit_map(fit: &Fit) -> String {
    let panels = fit.panels();
    let mut page = Page { svg: Svg::new(), y: MARGIN + TITLE };
    page.text(Point::new(MARGIN, page.y), TITLE, Anchor::Start).words(&fit.weave);
    page.y += 3.0;
    for (number, panel) in panels.iter().enumerate() {
        page.panel(fit, number, panel);
    }
    page.legend(&panels);
    let from = if fit.from_shelf { "from the shelf" } else { "in common use" };
    let description = format!(
        "Wire against inner diameter for {}: {} {from}. The table has {}.",
        list(&fit.kinds, "and"),
        count(fit.offers.len(), "size"),
        count(fit.rows.len(), "row")
    );
    let tall = page.y + MARGIN;
    let title = format!("Which rings make {}", fit.weave);
    page.svg.document(&Head { id: "fit", title: &title, description: &description, wide: WIDTH, tall })
}

/// Where sizes lie in a panel.
struct Axes {
    top: f64,
    /// Lowest and highest inner diameter, mm.
    inner: [f64; 2],
    /// Lowest and highest wire diameter, mm.
    wire: [f64; 2],
}

impl Axes {
    /// Around all marks, with some space.
    fn of(marks: &[Mark], top: f64) -> Self {
        let around = |of: &dyn Fn(&Mark) -> f64| {
            let low = marks.iter().map(of).fold(f64::INFINITY, f64::min);
            let high = marks.iter().map(of).fold(0.0, f64::max);
            let space = (0.12 * (high - low)).max(0.12 * high);
            [(low - space).max(0.25 * low), high + space]
        };
        Self { top, inner: around(&|m| m.inner_mm), wire: around(&|m| m.wire_mm) }
    }

    fn x(&self, inner: f64) -> f64 {
        LEFT + ACROSS * (inner - self.inner[0]) / (self.inner[1] - self.inner[0])
    }

    fn y(&self, wire: f64) -> f64 {
        self.top + HIGH * (self.wire[1] - wire) / (self.wire[1] - self.wire[0])
    }

    /// The place of a ring of this inner diameter and wire.
    fn at(&self, inner: f64, wire: f64) -> Point {
        Point::new(self.x(inner), self.y(wire))
    }
}

/// A page that is written from top to bottom.
struct Page {
    svg: Svg,
    y: f64,
}

impl Page {
    fn line(&mut self, line: Line, wide: f64, dashes: Option<&str>) {
        let Line { p0, p1 } = line;
        let element = self.svg.element("line").mm("x1", p0.x).mm("y1", p0.y).mm("x2", p1.x).mm("y2", p1.y);
        element.set("stroke", BLACK).mm("stroke-width", wide).set_if_some("stroke-dasharray", dashes).empty();
    }

    fn rect(&mut self, rect: Rect, fill: &str) -> Element<'_> {
        let element = self.svg.element("rect").at(rect.origin());
        element.mm("width", rect.width()).mm("height", rect.height()).set("fill", fill)
    }

    fn circle(&mut self, at: Point, radius: f64, [fill, ink]: [&str; 2], wide: f64) {
        let element = self.svg.element("circle").centre(at).mm("r", radius);
        element.set("fill", fill).set("stroke", ink).mm("stroke-width", wide).empty();
    }

    /// Words of a size in mm, still to be written.
    fn text(&mut self, at: Point, size: f64, anchor: Anchor) -> Element<'_> {
        let element = self.svg.element("text").at(at).set("font-family", "sans-serif");
        element.mm("font-size", size).anchor(anchor).set("fill", BLACK)
    }

    fn panel(&mut self, fit: &Fit, number: usize, panel: &Panel) {
        let held: Vec<String> = panel.held.iter().map(|(kind, offer)| format!("{kind} {}", offer.size())).collect();
        let held = if held.is_empty() { String::new() } else { format!(", with {}", list(&held, "and")) };
        let guess = if panel.guessed { "; the tints are a quick guess" } else { "" };
        for line in lines(&format!("{}{held}{guess}", panel.kind), LETTER * 1.15, WIDTH - 2.0 * MARGIN) {
            self.y += LETTER * 1.5;
            self.text(Point::new(MARGIN, self.y), LETTER * 1.15, Anchor::Start).words(&line);
        }
        let axes = Axes::of(&panel.marks, self.y + 3.0);
        self.region(fit, number, &axes);
        let mut below = 0.0;
        for (ratio, what) in &panel.floors {
            self.floor(&axes, *ratio, what, below);
            below += LETTER * 1.5;
        }
        self.scale(&axes);
        // Marks of rings that close lie on top.
        let mut marks: Vec<&Mark> = panel.marks.iter().collect();
        marks.sort_by_key(|m| std::cmp::Reverse(MARKS.iter().position(|(s, _)| *s == m.standing)));
        for mark in &marks {
            self.mark(axes.at(mark.inner_mm, mark.wire_mm), mark.standing);
        }
        self.numbers(&axes, &marks);
        self.y = axes.top + HIGH + 12.0;
    }

    /// The region in which rings close, tinted by room. Neighbouring cells of one tint are one rectangle.
    fn region(&mut self, fit: &Fit, panel: usize, axes: &Axes) {
        let at =
            |[low, high]: [f64; 2], cell: u32, of: u32| low + (high - low) * (f64::from(cell) + 0.5) / f64::from(of);
        let [across, high] = [ACROSS / f64::from(COLUMNS), HIGH / f64::from(ROWS)];
        for row in 0..ROWS {
            let wire = at(axes.wire, ROWS - 1 - row, ROWS);
            let tints: Vec<Option<&str>> =
                (0..COLUMNS).map(|c| fit.room_at(panel, wire, at(axes.inner, c, COLUMNS)).and_then(tint)).collect();
            let mut from = 0.0;
            for run in tints.chunk_by(|a, b| a == b) {
                let cells = number(run.len());
                if let Some(Some(tint)) = run.first() {
                    let corner = Point::new(LEFT + from * across, axes.top + f64::from(row) * high);
                    // Rows overlap a little, so that no seam shows.
                    let size = Size::new(cells * across, high + 0.02);
                    self.rect(Rect::from_origin_size(corner, size), tint).empty();
                }
                from += cells;
            }
        }
    }

    /// The line of an aspect ratio. Its words are at its upper end, `below` mm under their usual place.
    fn floor(&mut self, axes: &Axes, ratio: f64, what: &str, below: f64) {
        // From where it enters to where it leaves the panel.
        let (low, high) = (axes.wire[0].max(axes.inner[0] / ratio), axes.wire[1].min(axes.inner[1] / ratio));
        if low >= high {
            return;
        }
        let end = axes.at(high * ratio, high);
        self.line(Line::new(axes.at(low * ratio, low), end), 0.4, (what == "proved").then_some("1.20 1.00"));
        let words = format!("AR {ratio:.3} {what}");
        let wide = width(&words, LETTER);
        let x = end.x.min(LEFT + ACROSS - wide - 1.0);
        let y = (end.y + LETTER + 1.0).max(axes.top + LETTER + 1.0) + below;
        let under = Rect::from_origin_size(Point::new(x + 0.6, y - LETTER), Size::new(wide, LETTER * 1.3));
        self.rect(under, "#ffffff").set("fill-opacity", "0.8").empty();
        self.text(Point::new(x + 1.0, y), LETTER, Anchor::Start).words(&words);
    }

    /// The frame, and the ticks with their numbers.
    fn scale(&mut self, axes: &Axes) {
        let (top, bottom, right) = (axes.top, axes.top + HIGH, LEFT + ACROSS);
        let corners = [(LEFT, top), (LEFT, bottom), (right, top), (right, bottom)].map(Point::from);
        let [left_top, left_bottom, right_top, right_bottom] = corners;
        for (from, to) in
            [(left_bottom, right_bottom), (left_top, left_bottom), (left_top, right_top), (right_top, right_bottom)]
        {
            self.line(Line::new(from, to), 0.35, None);
        }
        for inner in ticks(axes.inner) {
            let x = axes.x(inner);
            self.line(Line::new((x, bottom), (x, bottom + 1.2)), 0.25, None);
            self.text(Point::new(x, bottom + 1.6 + LETTER), LETTER, Anchor::Middle).words(trimmed(inner, 2));
        }
        for wire in ticks(axes.wire) {
            let y = axes.y(wire);
            self.line(Line::new((LEFT - 1.2, y), (LEFT, y)), 0.25, None);
            self.text(Point::new(LEFT - 1.8, y + 0.35 * LETTER), LETTER, Anchor::End).words(trimmed(wire, 2));
        }
        let under = Point::new(0.5 * (LEFT + right), bottom + 3.0 + 2.0 * LETTER);
        self.text(under, LETTER, Anchor::Middle).words("inner diameter, mm");
        let beside = Point::new(MARGIN + LETTER, 0.5 * (top + bottom));
        let turn = format!("rotate(-90 {} {})", Mm(beside.x), Mm(beside.y));
        self.text(beside, LETTER, Anchor::Middle).set("transform", turn).words("wire, mm");
    }

    fn mark(&mut self, at: Point, standing: Standing) {
        match standing {
            Standing::Closes | Standing::Sits(Word::Straight) => self.circle(at, 1.1, [BLACK, "#ffffff"], 0.25),
            Standing::Sits(Word::Askew) => {
                self.circle(at, 1.1, ["#ffffff", BLACK], 0.4);
                let half = Vec2::new(0.75, -0.75);
                self.line(Line::new(at - half, at + half), 0.4, None);
            }
            Standing::Sits(Word::Loose) => self.circle(at, 1.1, ["#ffffff", BLACK], 0.4),
            Standing::Not => {
                for half in [Vec2::new(0.7, 0.7), Vec2::new(0.7, -0.7)] {
                    self.line(Line::new(at - half, at + half), 0.4, None);
                }
            }
            Standing::NotSettled => self.circle(at, 0.45, [GREY, GREY], 0.1),
        }
    }

    /// The table's row numbers beside the marks, where there is room; the first rows come first.
    fn numbers(&mut self, axes: &Axes, marks: &[&Mark]) {
        const MOST: usize = 12;
        let at = |m: &Mark| axes.at(m.inner_mm, m.wire_mm);
        let mut numbered: Vec<(usize, Point)> =
            marks.iter().filter_map(|m| Some((m.row.filter(|n| *n <= MOST)?, at(m)))).collect();
        numbered.sort_by_key(|(row, _)| *row);
        let far = |a: Point, b: Point, [x, y]: [f64; 2]| (a.x - b.x).abs() > x || (a.y - b.y).abs() > y;
        let mut taken: Vec<Point> = Vec::new();
        for (row, beside) in numbered {
            let places = [(1.7, -0.9), (1.7, 2.9), (-3.4, -0.9), (-3.4, 2.9)].map(|by| beside + by);
            let clear = |place: &Point| {
                taken.iter().all(|other| far(*place, *other, [3.4, 2.6]))
                    && marks.iter().all(|m| far(*place, at(m) + (-0.9, 1.0), [1.9, 1.9]))
            };
            if let Some(place) = places.into_iter().find(clear) {
                taken.push(place);
                self.text(place, LETTER, Anchor::Start).words(row);
            }
        }
    }

    /// Writes the words of a sign of the legend at `x`, or in a new line; returns the sign's place and where the next begins.
    fn legend_words(&mut self, mut x: f64, words: &str) -> (Point, f64) {
        let wide = 4.5 + width(words, LETTER) + 3.0;
        if x + wide > WIDTH - MARGIN {
            (x, self.y) = (MARGIN, self.y + 5.0);
        }
        self.text(Point::new(x + 4.5, self.y + 0.35 * LETTER), LETTER, Anchor::Start).words(words);
        (Point::new(x, self.y), x + wide)
    }

    /// What tints, marks and numbers mean.
    fn legend(&mut self, panels: &[Panel]) {
        let mut x = MARGIN;
        let mut at;
        self.y += 1.0;
        for (tint, words) in TINTS {
            (at, x) = self.legend_words(x, words);
            let sample = Rect::from_origin_size(at + (0.0, -1.4), Size::new(3.6, 2.8));
            self.rect(sample, tint).set("stroke", GREY).mm("stroke-width", 0.15).empty();
        }
        let there = |s: Standing| panels.iter().flat_map(|p| &p.marks).any(|m| m.standing == s);
        let sits = there(Standing::Sits(Word::Askew)) || there(Standing::Sits(Word::Loose)) || panels.len() > 1;
        for (standing, words) in MARKS.into_iter().filter(|(s, _)| there(*s)) {
            let words = if standing == Standing::Closes && !sits { "closes" } else { words };
            (at, x) = self.legend_words(x, words);
            self.mark(at + (1.8, 0.0), standing);
        }
        if panels.iter().flat_map(|p| &p.marks).any(|m| m.row.is_some()) {
            (at, _) = self.legend_words(x, "row of the table");
            self.text(at + (0.4, 0.35 * LETTER), LETTER, Anchor::Start).words("1");
        }
        self.y += 2.0;
    }
}

/// The tint for some room; none where the rings do not close.
fn tint(room: f64) -> Option<&'static str> {
    let number = match (room, Hold::of(room)) {
        (r, _) if r < 0.0 => return None,
        (r, _) if r < LITTLE_ROOM => 0,
        (_, Hold::Dense) => 1,
        (_, Hold::Middling) => 2,
        (_, Hold::Open) => 3,
    };
    TINTS.get(number).map(|(tint, _)| *tint)
}

/// Round numbers between two others, five to ten of them.
fn ticks([low, high]: [f64; 2]) -> Vec<f64> {
    let steps = [0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0];
    let step = steps.into_iter().find(|s| (high - low) / s <= 10.0).unwrap_or(500.0);
    let first = libm::ceil(low / step - 1e-9);
    (0..12).map(|n| (first + f64::from(n)) * step).filter(|x| *x <= high + 1e-9).collect()
}
