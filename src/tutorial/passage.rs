//! A Markdown text → its passages: sentences, items of lists, rows of tables.

use pulldown_cmark::{Event, Options, Parser, Tag, TagEnd};
use std::ops::Range;

/// What a passage is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sort {
    /// A heading.
    Heading,
    /// A sentence, of running text or of a numbered item.
    Sentence,
    /// An item of a list without numbers, whole.
    Item,
    /// A row of a table. Before each cell come the words of its heading, where they say what is in it.
    Row,
}

/// Words that are looked at together.
#[derive(Clone, Debug)]
pub struct Passage {
    /// What it is.
    pub sort: Sort,
    /// Its words.
    pub words: String,
    /// Where parts of the words begin, and their places in the text; words of a table's heading have none.
    parts: Vec<(usize, Option<Range<usize>>)>,
}

impl Passage {
    fn new(sort: Sort) -> Self {
        Self { sort, words: String::new(), parts: Vec::new() }
    }

    pub(super) fn push(&mut self, words: &str, place: Option<Range<usize>>) {
        self.parts.push((self.words.len(), place));
        self.words.push_str(words);
    }

    /// The parts that some of its words are in: the place of each in the words and in the text.
    fn within(&self, words: &Range<usize>) -> impl Iterator<Item = (Range<usize>, Option<Range<usize>>)> + '_ {
        let first = self.parts.partition_point(|p| p.0 <= words.start).saturating_sub(1);
        let end = words.end;
        let starts = self.parts.iter().skip(first).take_while(move |p| p.0 < end);
        starts.zip(first + 1..).map(|((start, place), next)| {
            (*start..self.parts.get(next).map_or(self.words.len(), |p| p.0), place.clone())
        })
    }

    /// The place of some of its words in the text, in bytes.
    pub fn place(&self, words: Range<usize>) -> Range<usize> {
        let mut all: Option<Range<usize>> = None;
        for (own, place) in self.within(&words) {
            let Some(place) = place else { continue };
            let from = place.start + words.start.saturating_sub(own.start);
            let to = if words.end >= own.end { place.end } else { place.start + (words.end - own.start) };
            all = Some(all.map_or(from..to, |all| all.start.min(from)..all.end.max(to)));
        }
        all.unwrap_or_else(|| self.parts.iter().find_map(|p| p.1.clone()).unwrap_or(0..0))
    }

    /// A part of it as a passage of its own.
    fn part(&self, words: Range<usize>) -> Self {
        let mut part = Self::new(self.sort);
        for (own, _) in self.within(&words) {
            let own = words.start.max(own.start)..words.end.min(own.end);
            let place = self.place(own.clone());
            part.push(self.words.get(own).unwrap_or(""), Some(place));
        }
        part
    }

    /// Its sentences, each a passage.
    fn sentences(&self) -> Vec<Self> {
        sentences(&self.words).into_iter().map(|range| self.part(range)).collect()
    }
}

/// The passages of a text in Markdown (`CommonMark`, with tables), in order. Code, pictures and HTML are left out.
pub fn passages(text: &str) -> Vec<Passage> {
    let mut reader = Reader::default();
    for (event, span) in Parser::new_ext(text, Options::ENABLE_TABLES).into_offset_iter() {
        reader.event(&event, span);
    }
    reader.done
}

#[derive(Default)]
struct Reader {
    done: Vec<Passage>,
    /// Whether the lists around an item have numbers.
    lists: Vec<bool>,
    open: Option<Passage>,
    silent: usize,
    /// The words over the columns of the table.
    heads: Vec<String>,
    cells: Vec<(String, Range<usize>)>,
    in_head: bool,
    in_table: bool,
}

impl Reader {
    fn event(&mut self, event: &Event<'_>, span: Range<usize>) {
        match event {
            Event::Start(Tag::Image { .. } | Tag::CodeBlock(_) | Tag::HtmlBlock) => {
                self.end();
                self.silent += 1;
            }
            Event::End(TagEnd::Image | TagEnd::CodeBlock | TagEnd::HtmlBlock) => {
                self.silent = self.silent.saturating_sub(1);
            }
            _ if self.silent > 0 => {}
            Event::Start(Tag::List(first)) => {
                self.end();
                self.lists.push(first.is_some());
            }
            Event::End(TagEnd::List(_)) => {
                self.end();
                self.lists.pop();
            }
            Event::Start(Tag::Heading { .. }) => self.begin(Sort::Heading),
            Event::Start(Tag::Item) => {
                let numbered = self.lists.last().copied().unwrap_or(false);
                self.begin(if numbered { Sort::Sentence } else { Sort::Item });
            }
            Event::Start(Tag::Paragraph) => match &mut self.open {
                Some(open) => open.push(" ", Some(span.start..span.start)),
                None => self.begin(Sort::Sentence),
            },
            Event::End(TagEnd::Heading(_) | TagEnd::Item) => self.end(),
            Event::End(TagEnd::Paragraph) if self.lists.is_empty() => self.end(),
            Event::Start(Tag::Table(_)) => {
                self.end();
                (self.in_table, self.heads) = (true, Vec::new());
            }
            Event::End(TagEnd::Table) => self.in_table = false,
            Event::Start(Tag::TableHead) => self.in_head = true,
            Event::End(TagEnd::TableHead) => {
                self.in_head = false;
                self.heads = std::mem::take(&mut self.cells).into_iter().map(|(words, _)| words).collect();
            }
            Event::Start(Tag::TableCell) => self.cells.push((String::new(), span.start..span.start)),
            Event::End(TagEnd::TableRow) => {
                let cells = std::mem::take(&mut self.cells);
                self.done.extend(super::table::row(&self.heads, &cells));
            }
            Event::Text(words) | Event::Code(words) => self.words(words, span),
            Event::SoftBreak | Event::HardBreak => self.words(" ", span),
            _ => {}
        }
    }

    fn words(&mut self, words: &str, span: Range<usize>) {
        if self.in_table {
            if let Some((cell, place)) = self.cells.last_mut() {
                *place = if cell.is_empty() { span } else { place.start..span.end };
                cell.push_str(words);
            }
            return;
        }
        if let Some(open) = &mut self.open {
            open.push(words, Some(span));
        }
    }

    fn begin(&mut self, sort: Sort) {
        self.end();
        self.open = Some(Passage::new(sort));
    }

    fn end(&mut self) {
        let Some(open) = self.open.take() else { return };
        if open.sort == Sort::Sentence {
            self.done.extend(open.sentences());
        } else if !open.words.trim().is_empty() {
            self.done.push(open);
        }
    }
}

impl Passage {
    /// An empty row of a table.
    pub(super) fn row() -> Self {
        Self::new(Sort::Row)
    }
}

/// Words that end in a full stop and no sentence.
const SHORTENED: [&str; 10] = ["in", "approx", "ca", "dia", "diam", "e.g", "i.e", "no", "fig", "vs"];

/// The sentences of a text: up to a full stop that a blank follows, or the end.
fn sentences(text: &str) -> Vec<Range<usize>> {
    let mut ranges = Vec::new();
    let mut from = 0;
    for (at, stop) in text.char_indices().filter(|(_, c)| matches!(c, '.' | '!' | '?')) {
        let after = at + stop.len_utf8();
        let (before, rest) = (text.get(from..at).unwrap_or(""), text.get(after..).unwrap_or(""));
        let last = before.rsplit(char::is_whitespace).next().unwrap_or("");
        let shortened = stop == '.' && SHORTENED.iter().any(|s| last.trim_start_matches('(').eq_ignore_ascii_case(s));
        if rest.is_empty() || rest.starts_with(char::is_whitespace) && !shortened {
            ranges.push(from..after);
            from = after;
        }
    }
    ranges.push(from..text.len());
    let trimmed = |range: Range<usize>| {
        let words = text.get(range.clone())?;
        let start = range.start + (words.len() - words.trim_start().len());
        let end = range.start + words.trim_end().len();
        (start < end).then_some(start..end)
    };
    ranges.into_iter().filter_map(trimmed).collect()
}
