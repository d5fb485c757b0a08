//! A small writer of SVG: one element a line, two decimals, everything escaped.

use std::fmt::Write;

/// A picture being written.
#[derive(Default)]
pub struct Svg {
    out: String,
    depth: usize,
}

impl Svg {
    /// Writes an element without content.
    pub fn empty(&mut self, name: &str, attributes: &[(&str, &str)]) {
        self.start(name, attributes);
        self.out.push_str("/>\n");
    }

    /// Opens an element; what follows is inside it.
    pub fn open(&mut self, name: &str, attributes: &[(&str, &str)]) {
        self.start(name, attributes);
        self.out.push_str(">\n");
        self.depth += 1;
    }

    /// Closes the element opened last.
    pub fn close(&mut self, name: &str) {
        self.depth = self.depth.saturating_sub(1);
        self.indent();
        let _ = writeln!(self.out, "</{name}>");
    }

    /// Writes an element that holds words.
    pub fn words(&mut self, name: &str, attributes: &[(&str, &str)], words: &str) {
        self.start(name, attributes);
        let _ = writeln!(self.out, ">{}</{name}>", escaped(words));
    }

    /// Takes in lines already written, inside the element that is open.
    pub fn nest(&mut self, lines: &str) {
        for line in lines.lines() {
            self.indent();
            self.out.push_str(line);
            self.out.push('\n');
        }
    }

    /// The picture.
    pub fn finish(self) -> String {
        self.out
    }

    fn start(&mut self, name: &str, attributes: &[(&str, &str)]) {
        self.indent();
        let _ = write!(self.out, "<{name}");
        for (key, value) in attributes {
            let _ = write!(self.out, " {key}=\"{}\"", escaped(value));
        }
    }

    fn indent(&mut self) {
        for _ in 0..self.depth {
            self.out.push(' ');
        }
    }
}

/// A length in mm, two decimals, without "-0.00".
pub fn mm(length: f64) -> String {
    let text = format!("{length:.2}");
    if text == "-0.00" { "0.00".to_owned() } else { text }
}

/// Text that may stand in XML: marked characters written out, characters XML forbids replaced.
pub fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\u{FFFE}' | '\u{FFFF}' => out.push('\u{FFFD}'),
            c if c.is_control() => out.push('\u{FFFD}'),
            c => out.push(c),
        }
    }
    out
}
