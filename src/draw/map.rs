//! The map of an answer of [`fit`](crate::fit): wire against inner diameter, one panel for each kind. Tints say how much room
//! there is, lines from the corner are aspect ratios, and every size there is to choose from is a mark.

use super::lettering::{lines, width};
use super::svg::{Svg, mm};
use crate::fit::{Fit, FloorLine, Mark, Panel, Proof, Standing};
use crate::settle::{Hold, LITTLE_ROOM, Word};

/// The page, mm.
const WIDTH: f64 = 170.0;
const MARGIN: f64 = 6.0;
/// A panel inside its axes, mm.
const LEFT: f64 = 20.0;
const ACROSS: f64 = 138.0;
const HIGH: f64 = 84.0;
/// Letters, mm.
const TITLE: f64 = 4.2;
const LETTER: f64 = 2.8;
/// The region is looked at in so many rows and columns.
const ROWS: u32 = 84;
const COLUMNS: u32 = 276;
/// Ink and tints; lines and marks are black (4.5:1 and more), tints are told apart by their words as well.
const BLACK: &str = "#000000";
const GREY: &str = "#767676";
/// Little room, dense, middling, open.
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
    let mut page = Page { svg: Svg::default(), y: MARGIN + TITLE };
    page.svg.words("text", &letters(MARGIN, page.y, TITLE, "start", BLACK).as_refs(), &fit.weave);
    page.y += 3.0;
    for (number, panel) in panels.iter().enumerate() {
        page.panel(fit, number, panel);
    }
    page.legend(&panels);
    let from = if fit.from_shelf { "of the shelf" } else { "in common use" };
    let close = fit.rows.len();
    let description = format!(
        "Wire against inner diameter for {}: {} sizes {from}, {close} rows that close.",
        fit.kinds.join(" and "),
        fit.offers.len()
    );
    let high = mm(page.y + MARGIN);
    let mut svg = Svg::default();
    let (wide_mm, high_mm, view) =
        (format!("{}mm", mm(WIDTH)), format!("{high}mm"), format!("0 0 {} {high}", mm(WIDTH)));
    svg.open(
        "svg",
        &[
            ("xmlns", "http://www.w3.org/2000/svg"),
            ("width", &wide_mm),
            ("height", &high_mm),
            ("viewBox", &view),
            ("role", "img"),
            ("aria-labelledby", "fit-title fit-desc"),
        ],
    );
    svg.words("title", &[("id", "fit-title")], &format!("Which rings make {}", fit.weave));
    svg.words("desc", &[("id", "fit-desc")], &description);
    svg.empty("rect", &[("x", "0"), ("y", "0"), ("width", &mm(WIDTH)), ("height", &high), ("fill", "#ffffff")]);
    svg.nest(&page.svg.finish());
    svg.close("svg");
    svg.finish()
}

/// Attributes of words.
struct Letters(Vec<(&'static str, String)>);

impl Letters {
    fn as_refs(&self) -> Vec<(&str, &str)> {
        self.0.iter().map(|(key, value)| (*key, value.as_str())).collect()
    }
}

fn letters(x: f64, y: f64, size: f64, anchor: &str, ink: &str) -> Letters {
    Letters(vec![
        ("x", mm(x)),
        ("y", mm(y)),
        ("font-family", "sans-serif".to_owned()),
        ("font-size", mm(size)),
        ("text-anchor", anchor.to_owned()),
        ("fill", ink.to_owned()),
    ])
}

/// Where sizes lie in a panel.
struct Axes {
    top: f64,
    inner: [f64; 2],
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
}

struct Page {
    svg: Svg,
    y: f64,
}

impl Page {
    fn line(&mut self, [x1, y1, x2, y2]: [f64; 4], ink: &str, wide: f64, dashes: &str) {
        let (x1, y1, x2, y2, wide) = (mm(x1), mm(y1), mm(x2), mm(y2), mm(wide));
        let mut attributes =
            vec![("x1", x1.as_str()), ("y1", &y1), ("x2", &x2), ("y2", &y2), ("stroke", ink), ("stroke-width", &wide)];
        if !dashes.is_empty() {
            attributes.push(("stroke-dasharray", dashes));
        }
        self.svg.empty("line", &attributes);
    }

    fn words(&mut self, at: [f64; 2], anchor: &str, words: &str) {
        self.svg.words("text", &letters(at[0], at[1], LETTER, anchor, BLACK).as_refs(), words);
    }

    fn panel(&mut self, fit: &Fit, number: usize, panel: &Panel) {
        let held: Vec<String> = panel.held.iter().map(|held| format!("{} {}", held.kind, held.offer.size())).collect();
        let held = if held.is_empty() { String::new() } else { format!(", with {}", held.join(", ")) };
        let guess = if panel.guessed { "; tints as the survey takes it: a guess" } else { "" };
        for line in lines(&format!("{}{held}{guess}", panel.kind), LETTER * 1.15, WIDTH - 2.0 * MARGIN) {
            self.y += LETTER * 1.5;
            self.svg.words("text", &letters(MARGIN, self.y, LETTER * 1.15, "start", BLACK).as_refs(), &line);
        }
        let axes = Axes::of(&panel.marks, self.y + 3.0);
        self.region(fit, number, &axes);
        let mut below = 0.0;
        for line in &panel.floors {
            self.floor(&axes, *line, below);
            below += LETTER * 1.5;
        }
        self.scale(&axes);
        // Those that close lie on top.
        let mut marks: Vec<&Mark> = panel.marks.iter().collect();
        marks.sort_by_key(|m| std::cmp::Reverse(MARKS.iter().position(|(s, _)| *s == m.standing)));
        for mark in &marks {
            self.mark([axes.x(mark.inner_mm), axes.y(mark.wire_mm)], mark.standing);
        }
        self.numbers(&axes, &marks);
        self.y = axes.top + HIGH + 12.0;
    }

    /// The region in which it closes, tinted by room: runs of alike cells.
    fn region(&mut self, fit: &Fit, number: usize, axes: &Axes) {
        let at =
            |[low, high]: [f64; 2], cell: u32, of: u32| low + (high - low) * (f64::from(cell) + 0.5) / f64::from(of);
        let [across, high] = [ACROSS / f64::from(COLUMNS), HIGH / f64::from(ROWS)];
        for row in 0..ROWS {
            let wire = at(axes.wire, ROWS - 1 - row, ROWS);
            let tints: Vec<Option<&str>> =
                (0..COLUMNS).map(|c| fit.room_at(number, wire, at(axes.inner, c, COLUMNS)).and_then(tint)).collect();
            let mut from = 0.0;
            for run in tints.chunk_by(|a, b| a == b) {
                let count = f64::from(u32::try_from(run.len()).unwrap_or(0));
                if let Some(Some(tint)) = run.first() {
                    let (x, y) = (mm(LEFT + from * across), mm(axes.top + f64::from(row) * high));
                    let (w, h) = (mm(count * across), mm(high + 0.02));
                    self.svg.empty("rect", &[("x", &x), ("y", &y), ("width", &w), ("height", &h), ("fill", tint)]);
                }
                from += count;
            }
        }
    }

    /// The line of an aspect ratio, with its words at its upper end, so far below those of the line before.
    fn floor(&mut self, axes: &Axes, FloorLine { ratio, proof }: FloorLine, below: f64) {
        // From where it enters to where it leaves the panel.
        let (low, high) = (axes.wire[0].max(axes.inner[0] / ratio), axes.wire[1].min(axes.inner[1] / ratio));
        if low >= high {
            return;
        }
        let (x, y) = (axes.x(high * ratio), axes.y(high));
        self.line(
            [axes.x(low * ratio), axes.y(low), x, y],
            BLACK,
            0.4,
            if proof == Proof::Proved { "1.20 1.00" } else { "" },
        );
        let words = format!("AR {ratio:.3} {}", proof.words());
        let (x, y) = (
            x.min(LEFT + ACROSS - width(&words, LETTER) - 1.0),
            (y + LETTER + 1.0).max(axes.top + LETTER + 1.0) + below,
        );
        let (left, top, wide, tall) = (mm(x + 0.6), mm(y - LETTER), mm(width(&words, LETTER)), mm(LETTER * 1.3));
        self.svg.empty(
            "rect",
            &[
                ("x", &left),
                ("y", &top),
                ("width", &wide),
                ("height", &tall),
                ("fill", "#ffffff"),
                ("fill-opacity", "0.8"),
            ],
        );
        self.words([x + 1.0, y], "start", &words);
    }

    /// Frame, ticks and their words.
    fn scale(&mut self, axes: &Axes) {
        let (top, bottom, right) = (axes.top, axes.top + HIGH, LEFT + ACROSS);
        for ends in [
            [LEFT, bottom, right, bottom],
            [LEFT, top, LEFT, bottom],
            [LEFT, top, right, top],
            [right, top, right, bottom],
        ] {
            self.line(ends, BLACK, 0.35, "");
        }
        for inner in ticks(axes.inner) {
            let x = axes.x(inner);
            self.line([x, bottom, x, bottom + 1.2], BLACK, 0.25, "");
            self.words([x, bottom + 1.6 + LETTER], "middle", &short(inner));
        }
        for wire in ticks(axes.wire) {
            let y = axes.y(wire);
            self.line([LEFT - 1.2, y, LEFT, y], BLACK, 0.25, "");
            self.words([LEFT - 1.8, y + 0.35 * LETTER], "end", &short(wire));
        }
        self.words([0.5 * (LEFT + right), bottom + 3.0 + 2.0 * LETTER], "middle", "inner diameter, mm");
        let (x, y) = (MARGIN + LETTER, 0.5 * (top + bottom));
        let turn = format!("rotate(-90 {} {})", mm(x), mm(y));
        let attributes = letters(x, y, LETTER, "middle", BLACK);
        let mut attributes = attributes.as_refs();
        attributes.push(("transform", &turn));
        self.svg.words("text", &attributes, "wire, mm");
    }

    fn mark(&mut self, [x, y]: [f64; 2], standing: Standing) {
        let circle = |svg: &mut Svg, radius: f64, fill: &str, ink: &str, wide: f64| {
            let (x, y, r, wide) = (mm(x), mm(y), mm(radius), mm(wide));
            svg.empty(
                "circle",
                &[("cx", &x), ("cy", &y), ("r", &r), ("fill", fill), ("stroke", ink), ("stroke-width", &wide)],
            );
        };
        match standing {
            Standing::Closes | Standing::Sits(Word::Straight) => circle(&mut self.svg, 1.1, BLACK, "#ffffff", 0.25),
            Standing::Sits(Word::Askew) => {
                circle(&mut self.svg, 1.1, "#ffffff", BLACK, 0.4);
                self.line([x - 0.75, y + 0.75, x + 0.75, y - 0.75], BLACK, 0.4, "");
            }
            Standing::Sits(Word::Loose) => circle(&mut self.svg, 1.1, "#ffffff", BLACK, 0.4),
            Standing::Not => {
                for by in [1.0, -1.0] {
                    self.line([x - 0.7, y - 0.7 * by, x + 0.7, y + 0.7 * by], BLACK, 0.4, "");
                }
            }
            Standing::NotSettled => circle(&mut self.svg, 0.45, GREY, GREY, 0.1),
        }
    }

    /// The numbers of the rows beside the marks, where there is room; the first rows first.
    fn numbers(&mut self, axes: &Axes, marks: &[&Mark]) {
        const MOST: usize = 12;
        let mut numbered: Vec<(usize, [f64; 2])> = marks
            .iter()
            .filter_map(|m| Some((m.row.filter(|n| *n <= MOST)?, [axes.x(m.inner_mm), axes.y(m.wire_mm)])))
            .collect();
        numbered.sort_by_key(|(row, _)| *row);
        let mut taken: Vec<[f64; 2]> = Vec::new();
        for (row, [x, y]) in numbered {
            let places = [[1.7, -0.9], [1.7, 2.9], [-3.4, -0.9], [-3.4, 2.9]].map(|[dx, dy]| [x + dx, y + dy]);
            let clear = |at: &&[f64; 2]| {
                let far = |p: &[f64; 2], dx: f64, dy: f64| (at[0] - p[0]).abs() > dx || (at[1] - p[1]).abs() > dy;
                taken.iter().all(|p| far(p, 3.4, 2.6))
                    && marks.iter().all(|m| far(&[axes.x(m.inner_mm) - 0.9, axes.y(m.wire_mm) + 1.0], 1.9, 1.9))
            };
            if let Some(at) = places.iter().find(clear) {
                taken.push(*at);
                self.words(*at, "start", &row.to_string());
            }
        }
    }

    /// What tints, marks and numbers mean.
    fn legend(&mut self, panels: &[Panel]) {
        let mut x = MARGIN;
        self.y += 1.0;
        let mut next = |page: &mut Self, words: &str| {
            let wide = 4.5 + width(words, LETTER) + 3.0;
            if x + wide > WIDTH - MARGIN {
                (x, page.y) = (MARGIN, page.y + 5.0);
            }
            let at = [x, page.y];
            page.words([x + 4.5, page.y + 0.35 * LETTER], "start", words);
            x += wide;
            at
        };
        for (tint, words) in TINTS {
            let [x, y] = next(self, words);
            let (x, y) = (mm(x), mm(y - 1.4));
            self.svg.empty(
                "rect",
                &[
                    ("x", &x),
                    ("y", &y),
                    ("width", "3.60"),
                    ("height", "2.80"),
                    ("fill", tint),
                    ("stroke", GREY),
                    ("stroke-width", "0.15"),
                ],
            );
        }
        let there = |s: Standing| panels.iter().flat_map(|p| &p.marks).any(|m| m.standing == s);
        let sits = there(Standing::Sits(Word::Askew)) || there(Standing::Sits(Word::Loose)) || panels.len() > 1;
        for (standing, words) in MARKS.into_iter().filter(|(s, _)| there(*s)) {
            let words = if standing == Standing::Closes && !sits { "closes" } else { words };
            let [x, y] = next(self, words);
            self.mark([x + 1.8, y], standing);
        }
        if panels.iter().flat_map(|p| &p.marks).any(|m| m.row.is_some()) {
            let [x, y] = next(self, "row of the table");
            self.words([x + 0.4, y + 0.35 * LETTER], "start", "1");
        }
        self.y += 2.0;
    }
}

/// The tint of so much room; none where it does not close.
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

/// Round numbers between two, five to ten of them.
fn ticks([low, high]: [f64; 2]) -> Vec<f64> {
    let steps = [0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0];
    let step = steps.into_iter().find(|s| (high - low) / s <= 10.0).unwrap_or(500.0);
    let first = libm::ceil(low / step - 1e-9);
    (0..12).map(|n| (first + f64::from(n)) * step).filter(|x| *x <= high + 1e-9).collect()
}

/// A number without noughts at its end.
fn short(x: f64) -> String {
    let text = format!("{x:.2}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}
