//! Instructions in Markdown → the sentences of their numbered items, and the list of what is needed.

use pulldown_cmark::{Event, Parser, Tag, TagEnd};
use std::ops::Range;

use super::events::{InText, Need};
use super::sentence::{Saying, need, sentence};

/// A sentence, and what it says.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sentence {
    /// Its words.
    pub words: String,
    /// Its place in the text, in bytes.
    pub span: Range<usize>,
    /// What it says; `None` where it could not be read.
    pub says: Option<Vec<Saying>>,
}

/// A numbered item.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Numbered {
    /// Its number in the text.
    pub number: usize,
    /// Its sentences.
    pub sentences: Vec<Sentence>,
}

/// Instructions as they are read.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Reading {
    /// The rings that are needed.
    pub needs: Vec<InText<Need>>,
    /// The numbered items, in order.
    pub items: Vec<Numbered>,
}

/// Reads instructions in Markdown (CommonMark): numbered items, and lists that say what is needed. All else is free.
/// Never fails: what cannot be read is a sentence that says nothing.
pub fn read(text: &str) -> Reading {
    let mut reading = Reading::default();
    // The lists around an item: the number of the next item where they are numbered.
    let mut lists: Vec<Option<u64>> = Vec::new();
    // The words of the item, piece by piece, with their places.
    let mut pieces: Vec<(String, usize)> = Vec::new();
    let mut silent = 0_usize;
    for (event, span) in Parser::new(text).into_offset_iter() {
        match event {
            Event::Start(Tag::List(first)) => {
                // The words of an item that a list within it breaks off.
                reading.take(&mut pieces, matches!(lists.last(), Some(Some(_))));
                lists.push(first);
            }
            Event::End(TagEnd::List(_)) => {
                lists.pop();
            }
            Event::Start(Tag::Item) => {
                if let Some(Some(number)) = lists.last_mut() {
                    reading
                        .items
                        .push(Numbered { number: usize::try_from(*number).unwrap_or(0), sentences: Vec::new() });
                    *number += 1;
                }
            }
            Event::End(TagEnd::Item) => reading.take(&mut pieces, matches!(lists.last(), Some(Some(_)))),
            Event::Start(Tag::Image { .. } | Tag::CodeBlock(_)) => silent += 1,
            Event::End(TagEnd::Image | TagEnd::CodeBlock) => silent = silent.saturating_sub(1),
            Event::Text(words) | Event::Code(words) if silent == 0 && !lists.is_empty() => {
                pieces.push((words.to_string(), span.start));
            }
            Event::SoftBreak | Event::HardBreak if silent == 0 && !lists.is_empty() => {
                pieces.push((" ".to_owned(), span.start));
            }
            Event::End(TagEnd::Paragraph) if !lists.is_empty() => pieces.push((" ".to_owned(), span.end)),
            _ => {}
        }
    }
    reading
}

impl Reading {
    /// Takes the words of an item that ends: sentences of a numbered one, a need of another.
    fn take(&mut self, pieces: &mut Vec<(String, usize)>, numbered: bool) {
        let words: String = pieces.iter().map(|(w, _)| w.as_str()).collect();
        // Where in the text a place in these words is.
        let place = |at: usize| {
            let mut left = at;
            for (piece, start) in pieces.iter() {
                if left < piece.len() {
                    return start + left;
                }
                left -= piece.len();
            }
            pieces.last().map_or(0, |(piece, start)| start + piece.len())
        };
        if numbered {
            let own = sentences(&words).map(|range| {
                let words = words.get(range.clone()).unwrap_or("").to_owned();
                let span = place(range.start)..place(range.end.saturating_sub(1)) + 1;
                Sentence { says: sentence(&words), words, span }
            });
            let own: Vec<Sentence> = own.collect();
            if let Some(item) = self.items.last_mut() {
                item.sentences.extend(own);
            }
        } else {
            let lead = words.len() - words.trim_start().len();
            let span = place(lead)..place(words.trim_end().len().saturating_sub(1)) + 1;
            self.needs.extend(need(&words).map(|what| InText { what, span }));
        }
        pieces.clear();
    }
}

/// The sentences of a text: up to a full stop that is followed by a blank, or the end.
fn sentences(text: &str) -> impl Iterator<Item = Range<usize>> + '_ {
    let mut from = 0;
    let ends = text.char_indices().filter(|(at, c)| {
        let after = text.get(at + c.len_utf8()..).and_then(|rest| rest.chars().next());
        matches!(c, '.' | '!' | '?') && after.is_none_or(char::is_whitespace)
    });
    let mut ranges = Vec::new();
    for (at, c) in ends {
        ranges.push(from..at + c.len_utf8());
        from = at + c.len_utf8();
    }
    ranges.push(from..text.len());
    let trimmed = move |range: Range<usize>| {
        let words = text.get(range.clone())?;
        let start = range.start + (words.len() - words.trim_start().len());
        let end = range.start + words.trim_end().len();
        (start < end).then_some(start..end)
    };
    ranges.into_iter().filter_map(trimmed)
}
