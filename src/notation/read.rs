//! Reading a text line by line.

use super::forms::{QUOTES, Section};
use super::repair::{Stuck, Understood};
use super::tree::{Statement, Tree, What};
use super::{build, forms, gauges, repair};
use crate::notation::{Rule, WeaveParser};
use crate::report::Diagnostic;
use crate::text::{Span, Spanned, list};
use pest::Parser;

/// The rule that reports a word taken for another.
pub const MISSPELLED: &str = "misspelled-word";
/// The rule that reports a line that could not be read.
pub const UNREADABLE: &str = "unreadable-line";

/// Reads a whole text (source number `source`). Never fails: what could not be read is reported, and a line that is
/// lost costs nothing but itself.
pub fn read(source: u16, text: &str) -> (Tree, Vec<Diagnostic>) {
    let mut reader = Reader {
        source,
        tree: Tree::default(),
        findings: Vec::new(),
        above: Vec::new(),
        section: Section::default(),
        tries: repair::MOST_TRIES,
    };
    let mut start = if text.starts_with('\u{FEFF}') { '\u{FEFF}'.len_utf8() } else { 0 };
    for line in text.get(start..).unwrap_or("").split('\n') {
        reader.line(start, line.strip_suffix('\r').unwrap_or(line));
        start += line.len() + 1;
    }
    while reader.above.last().is_some_and(String::is_empty) {
        reader.above.pop();
    }
    reader.tree.closing = reader.above;
    gauges::name(&mut reader.tree);
    (reader.tree, reader.findings)
}

struct Reader {
    source: u16,
    tree: Tree,
    findings: Vec<Diagnostic>,
    above: Vec<String>,
    section: Section,
    tries: usize,
}

impl Reader {
    fn line(&mut self, start: usize, line: &str) {
        let (words, comment) = split_comment(line);
        let body = words.trim();
        if body.is_empty() {
            match comment {
                Some(comment) => self.above.push(comment.trim_end().to_owned()),
                None if self.above.is_empty() => {}
                None => self.above.push(String::new()),
            }
            return;
        }
        let start = start + (words.len() - words.trim_start().len());
        let span = Span::new(self.source, start, start + body.len());
        let (understood, what) = self.statement(start, body);
        let mut above = std::mem::take(&mut self.above);
        if self.tree.statements.is_empty() && self.tree.opening.is_empty() {
            let parted = above.iter().rposition(String::is_empty);
            self.tree.opening = parted.map(|blank| above.drain(..=blank).collect()).unwrap_or_default();
            self.tree.opening.pop();
        }
        let behind = comment.map(|c| c.trim_end().to_owned());
        if let Some(what) = what {
            self.section = section_after(&what, self.section);
            self.tree.statements.push(Statement { what, span, above, behind });
        } else {
            self.section = section_of(understood.rule, self.section);
            self.above = above;
            // Whatever this heading says, the lines below belong to a set of their own.
            if understood.rule == Rule::rings_line {
                let name = body.split_whitespace().skip(1).collect::<Vec<_>>().join(" ");
                let what = What::Rings(Some(Spanned::new(name, span)));
                self.tree.statements.push(Statement { what, span, above: Vec::new(), behind: None });
            }
        }
    }

    /// What a line says: as it is, where it can be read, and with its slips repaired otherwise.
    fn statement(&mut self, start: usize, body: &str) -> (Understood, Option<What>) {
        let rule = forms::choose(body, self.section);
        if let Ok(mut pairs) = WeaveParser::parse(rule, body)
            && (rule == Rule::rings_line || !repair::looks_like_opening(body, self.section))
        {
            let line = Understood { rule, text: String::new(), repairs: Vec::new(), stuck: None };
            let place = build::Places { source: self.source, start, line: &line };
            let what = pairs.next().and_then(|pair| build::statement(&place, pair));
            return (line, what);
        }
        let line = repair::understand(body, self.section, &mut self.tries);
        self.report(start, body, &line);
        let place = build::Places { source: self.source, start, line: &line };
        let read = if line.stuck.is_none() { WeaveParser::parse(line.rule, &line.text).ok() } else { None };
        let what = read.and_then(|mut pairs| pairs.next()).and_then(|pair| build::statement(&place, pair));
        (line, what)
    }

    fn report(&mut self, start: usize, body: &str, line: &Understood) {
        for repair in &line.repairs {
            let written = body.get(repair.start..repair.end).unwrap_or("");
            let span = Span::new(self.source, start + repair.start, start + repair.end);
            self.findings.push(
                Diagnostic::error(
                    MISSPELLED,
                    span,
                    format!("`{written}` is not a word of the notation; it was read as `{}`", repair.word),
                )
                .label(format!("did you mean `{}`?", repair.word))
                .fix(format!("write `{}`", repair.word), span, repair.word.clone())
                .safe(repair::plain(written, &repair.word)),
            );
        }
        if let Some(stuck) = &line.stuck {
            self.findings.push(self.stuck(start, body, line, stuck));
        }
    }

    fn stuck(&self, start: usize, body: &str, line: &Understood, stuck: &Stuck) -> Diagnostic {
        let at = line.written(stuck.at).min(body.len());
        let rest = body.get(at..).unwrap_or("");
        let found: String = word_at(rest);
        let form = forms::form_of(line.rule);
        let wanted = match stuck.expected.as_slice() {
            [] => form.map_or_else(|| "a statement".to_owned(), |f| f.called.to_owned()),
            several => list(several, "or"),
        };
        let message = if found.is_empty() {
            format!("the line stops where {wanted} was expected")
        } else {
            format!("expected {wanted} here, found `{found}`")
        };
        // At the end of a line there is nothing to point at but its last character.
        let (from, to) = if found.is_empty() {
            (body.char_indices().next_back().map_or(0, |(i, _)| i), body.len())
        } else {
            (at, at + found.len())
        };
        let span = Span::new(self.source, start + from, start + to);
        let mut finding = Diagnostic::error(UNREADABLE, span, message).label("this line is left out");
        if let Some(hint) = hint(line.rule, body, at, &found) {
            finding = finding.help(hint);
        } else if let Some(form) = form {
            finding = finding.help(format!("{} reads like: {}", form.called, form.example));
        }
        finding
    }
}

/// Advice on slips that are not misspelled words.
fn hint(rule: Rule, body: &str, at: usize, found: &str) -> Option<String> {
    let before = body.get(..at).unwrap_or("").trim_end();
    let eye_word = ["through", "around"].iter().any(|w| before.to_lowercase().ends_with(w));
    if eye_word && !found.is_empty() {
        return Some("two rings have an eye: `eye(a[n], a[n+1])`; for one ring write `down` or `up`".to_owned());
    }
    let word = found.starts_with(char::is_alphabetic);
    if rule == Rule::rings_line && word {
        return Some(format!(
            "a set of rings has its name in quotes: rings \"{found}\"; a ring is declared by: ring {found}"
        ));
    }
    if rule == Rule::make_line && word && before.is_empty() {
        return Some(format!("a bag has its name in quotes: \"{found}\"  length 190 mm"));
    }
    if rule == Rule::claim_line && word && before.to_lowercase().ends_with(" in") {
        return Some(format!("a bag has its name in quotes: in \"{found}\"; for all bags together write: in all"));
    }
    if found.starts_with(['\'', '‘', '‚']) {
        return Some("names are in double quotes: \"small\"".to_owned());
    }
    let starts_with_number = found.starts_with(|c: char| c.is_ascii_digit());
    if rule == Rule::repeat_line && starts_with_number {
        let how_many = "the number of repeats goes under `make`: repeats 10";
        return Some(format!("a repeat has an index: `repeat n`; {how_many}"));
    }
    let lower = body.to_lowercase();
    if rule == Rule::claim_line && found == "-" && lower.contains("-in-") {
        return Some("write it without hyphens: claim 3 in 1".to_owned());
    }
    if rule == Rule::kind_line && !lower.contains("wire") && !lower.contains("inner") && !lower.contains("ar ") {
        return Some("write which size is the wire and which the hole: main  wire 1.6 mm, inner 9.5 mm".to_owned());
    }
    let number_before = before.chars().next_back().is_some_and(|c| c.is_ascii_digit());
    let lower = found.to_lowercase();
    if number_before && lower == "g" {
        return Some("a gauge is written `18 awg` (American) or `18 swg` (British)".to_owned());
    }
    if number_before && ["cm", "m", "μm", "um"].contains(&lower.as_str()) {
        return Some("sizes are in `mm` or `in`".to_owned());
    }
    if found.starts_with(['"', '“', '”', '″']) && number_before {
        return Some("write `in` for inches: 3/8 in".to_owned());
    }
    if found == "," && number_before && body.get(at + 1..).is_some_and(|r| r.starts_with(|c: char| c.is_ascii_digit()))
    {
        return Some("write decimals with a point: 9.5".to_owned());
    }
    if body.matches(QUOTES).count() % 2 == 1 {
        return Some("a quote is opened and not closed".to_owned());
    }
    None
}

/// The word, number or sign that a text starts with.
fn word_at(rest: &str) -> String {
    let number = rest.starts_with(|c: char| c.is_ascii_digit());
    let in_word = |c: &char| c.is_alphanumeric() || *c == '_' || number && ['.', '/'].contains(c);
    let word: String = rest.chars().take_while(in_word).take(40).collect();
    if word.is_empty() { rest.chars().next().map(String::from).unwrap_or_default() } else { word }
}

/// A line without its comment, and the comment from `#` on. A `#` inside quotes is part of the name.
fn split_comment(line: &str) -> (&str, Option<&str>) {
    let mut quoted = false;
    for (at, c) in line.char_indices() {
        match c {
            _ if QUOTES.contains(&c) => quoted = !quoted,
            '#' if !quoted => return (line.get(..at).unwrap_or(line), line.get(at..)),
            _ => {}
        }
    }
    (line, None)
}

fn section_after(what: &What, before: Section) -> Section {
    match what {
        What::Repeat(_) | What::Accent { .. } | What::Pass { .. } | What::Lay { .. } | What::Fold(..) => {
            Section::Passes
        }
        What::Ends | What::End(..) => Section::Ends,
        What::Rings(_) | What::Kind { .. } => Section::Rings,
        What::Colours | What::Colour { .. } => Section::Colours,
        What::Make | What::MakePart(_) | What::Bag { .. } => Section::Make,
        _ => before,
    }
}

fn section_of(rule: Rule, before: Section) -> Section {
    match rule {
        Rule::repeat_line | Rule::accent_line => Section::Passes,
        Rule::ends_line => Section::Ends,
        Rule::rings_line => Section::Rings,
        Rule::colours_line => Section::Colours,
        Rule::make_heading => Section::Make,
        _ => before,
    }
}
