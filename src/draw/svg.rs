//! Writes SVG. No other module writes a tag.
//!
//! The writer keeps no tree: each element goes straight into the text, one to a line. Text is escaped. Lengths are in mm.

use kurbo::{BezPath, PathEl, Point, SvgArc};
use std::fmt::{self, Display, Write};

/// The body of a document that is being written.
pub struct Svg {
    out: String,
    /// The elements that are open, the outermost first.
    open: Vec<&'static str>,
}

/// What a document says of itself.
pub struct Head<'a> {
    /// Starts every id in the document, so that several documents can share a web page.
    pub id: &'a str,
    /// The title and the description that a screen reader reads out.
    pub title: &'a str,
    /// See `title`.
    pub description: &'a str,
    /// Width of the page, mm.
    pub wide: f64,
    /// Height of the page, mm.
    pub tall: f64,
}

impl Svg {
    /// An empty body.
    pub fn new() -> Self {
        Self { out: String::new(), open: vec!["svg"] }
    }

    /// Starts an element.
    pub fn element(&mut self, name: &'static str) -> Element<'_> {
        self.indent();
        let _ = write!(self.out, "<{name}");
        Element { svg: self, name }
    }

    /// Ends the element opened last.
    pub fn close(&mut self) {
        let Some(name) = self.open.pop() else { return };
        self.indent();
        let _ = writeln!(self.out, "</{name}>");
    }

    /// The whole document: its head, white paper, and this body.
    pub fn document(self, head: &Head<'_>) -> String {
        let Head { id, title, description, wide, tall } = head;
        let (wide, tall) = (Mm(*wide), Mm(*tall));
        let mut page = Self { out: String::with_capacity(self.out.len() + 1024), open: Vec::new() };
        page.element("svg")
            .set("xmlns", "http://www.w3.org/2000/svg")
            .set("width", format_args!("{wide}mm"))
            .set("height", format_args!("{tall}mm"))
            .set("viewBox", format_args!("0 0 {wide} {tall}"))
            .set("role", "img")
            .set("aria-labelledby", format_args!("{id}-title {id}-desc"))
            .open();
        page.element("title").set("id", format_args!("{id}-title")).words(title);
        page.element("desc").set("id", format_args!("{id}-desc")).words(description);
        page.element("rect").set("width", wide).set("height", tall).set("fill", "#ffffff").empty();
        page.out.push_str(&self.out);
        page.close();
        page.out
    }

    fn indent(&mut self) {
        self.out.extend(self.open.iter().map(|_| ' '));
    }
}

/// An element that has been started. One of `empty`, `open` and `words` must end its tag.
#[must_use]
pub struct Element<'s> {
    svg: &'s mut Svg,
    name: &'static str,
}

impl Element<'_> {
    /// Writes an attribute.
    pub fn set(self, key: &str, value: impl Display) -> Self {
        let _ = write!(self.svg.out, " {key}=\"");
        let _ = write!(Escaping(&mut self.svg.out), "{value}");
        self.svg.out.push('"');
        self
    }

    /// Writes an attribute that the element may do without.
    pub fn set_if_some(self, key: &str, value: Option<impl Display>) -> Self {
        match value {
            Some(value) => self.set(key, value),
            None => self,
        }
    }

    /// Writes a length in mm.
    pub fn mm(self, key: &str, length: f64) -> Self {
        self.set(key, Mm(length))
    }

    /// Writes `x` and `y`.
    pub fn at(self, place: Point) -> Self {
        self.mm("x", place.x).mm("y", place.y)
    }

    /// Writes `cx` and `cy`.
    pub fn centre(self, place: Point) -> Self {
        self.mm("cx", place.x).mm("cy", place.y)
    }

    /// Says which part of some words lies at their place.
    pub fn anchor(self, anchor: Anchor) -> Self {
        let word = match anchor {
            Anchor::Start => "start",
            Anchor::Middle => "middle",
            Anchor::End => "end",
        };
        self.set("text-anchor", word)
    }

    /// Ends the tag of an element that has no content.
    pub fn empty(self) {
        self.svg.out.push_str("/>\n");
    }

    /// Ends the tag; what follows is inside the element, up to [`Svg::close`].
    pub fn open(self) {
        self.svg.out.push_str(">\n");
        self.svg.open.push(self.name);
    }

    /// Ends the tag of an element that holds words, and writes these.
    pub fn words(self, words: impl Display) {
        self.svg.out.push('>');
        let _ = write!(Escaping(&mut self.svg.out), "{words}");
        let _ = writeln!(self.svg.out, "</{}>", self.name);
    }
}

/// The part of some words that lies at their place.
#[derive(Clone, Copy)]
pub enum Anchor {
    /// Their left end.
    Start,
    /// Their middle.
    Middle,
    /// Their right end.
    End,
}

/// A length in mm, shown with two decimals and never as "-0.00".
#[derive(Clone, Copy)]
pub struct Mm(pub f64);

impl Display for Mm {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let length = if self.0.abs() < 0.005 { 0.0 } else { self.0 };
        write!(f, "{length:.2}")
    }
}

/// A point as path data has it.
struct Pair(Point);

impl Display for Pair {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}", Mm(self.0.x), Mm(self.0.y))
    }
}

/// The data of a path.
pub struct PathData(String);

impl PathData {
    /// Starts at a point.
    pub fn from(start: Point) -> Self {
        Self(format!("M{}", Pair(start)))
    }

    /// Straight lines from point to point.
    pub fn line(points: impl IntoIterator<Item = Point>) -> Self {
        let mut data = String::new();
        for point in points {
            let _ = write!(data, "{}{}", if data.is_empty() { 'M' } else { 'L' }, Pair(point));
        }
        Self(data)
    }

    /// Goes on along an arc, which starts where the path has come to.
    #[must_use]
    pub fn arc(mut self, arc: &SvgArc) -> Self {
        let (radii, tilt) = (arc.radii, arc.x_rotation.to_degrees());
        let (large, sweep) = (u8::from(arc.large_arc), u8::from(arc.sweep));
        let _ = write!(self.0, "A{:.3} {:.3} {tilt:.2} {large} {sweep} {}", radii.x, radii.y, Pair(arc.to));
        self
    }

    /// Goes back to the start.
    #[must_use]
    pub fn close(mut self) -> Self {
        self.0.push('Z');
        self
    }

    /// Curves, with a space between commands: people read charts in a text editor.
    pub fn of(path: &BezPath) -> Self {
        let mut data = String::new();
        for command in path {
            let space = if data.is_empty() { "" } else { " " };
            let _ = match command {
                PathEl::MoveTo(to) => write!(data, "{space}M{}", Pair(to)),
                PathEl::LineTo(to) => write!(data, "{space}L{}", Pair(to)),
                PathEl::QuadTo(one, to) => write!(data, "{space}Q{} {}", Pair(one), Pair(to)),
                PathEl::CurveTo(one, two, to) => write!(data, "{space}C{} {} {}", Pair(one), Pair(two), Pair(to)),
                PathEl::ClosePath => write!(data, "{space}Z"),
            };
        }
        Self(data)
    }
}

impl Display for PathData {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

/// Writes text so that it may stand in XML. A character that XML forbids becomes U+FFFD.
struct Escaping<'s>(&'s mut String);

impl Write for Escaping<'_> {
    fn write_str(&mut self, text: &str) -> fmt::Result {
        for c in text.chars() {
            match c {
                '&' => self.0.push_str("&amp;"),
                '<' => self.0.push_str("&lt;"),
                '>' => self.0.push_str("&gt;"),
                '"' => self.0.push_str("&quot;"),
                '\u{FFFE}' | '\u{FFFF}' => self.0.push('\u{FFFD}'),
                c if c.is_control() => self.0.push('\u{FFFD}'),
                c => self.0.push(c),
            }
        }
        Ok(())
    }
}
