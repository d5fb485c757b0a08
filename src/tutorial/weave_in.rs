//! Which weave a tutorial is about.

use crate::library::Library;
use pulldown_cmark::{CodeBlockKind, Event, Parser, Tag, TagEnd};
use std::ops::Range;

/// Where the weave of a tutorial is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum WeaveIn {
    /// In the text itself, in a fence marked `weave`: the place of its lines, in bytes.
    Fence(Range<usize>),
    /// In a file the text names or links to.
    File(String),
    /// A built-in weave, whose name is the title: its short name.
    BuiltIn(String),
}

/// The weave a tutorial in Markdown is about: the first fence marked `weave`; else the first file that ends in `.weave`; else
/// the built-in weave that a heading names.
pub fn weave_in(text: &str) -> Option<WeaveIn> {
    let (mut file, mut built_in) = (None, None);
    let mut heading: Option<String> = None;
    let mut fence = false;
    for (event, span) in Parser::new(text).into_offset_iter() {
        match event {
            Event::Start(Tag::CodeBlock(CodeBlockKind::Fenced(info))) => {
                fence = info.split_whitespace().next() == Some("weave");
            }
            Event::Text(_) if fence => return Some(WeaveIn::Fence(fenced(text, &span))),
            Event::End(TagEnd::CodeBlock) => fence = false,
            Event::Start(Tag::Heading { .. }) => heading = Some(String::new()),
            Event::End(TagEnd::Heading(_)) => {
                let short = crate::text::short_name(&heading.take().unwrap_or_default());
                let known = Library::weaves().into_iter().find(|(name, _)| *name == short);
                built_in = built_in.or(known.map(|(name, _)| WeaveIn::BuiltIn(name.to_owned())));
            }
            Event::Start(Tag::Link { dest_url, .. }) if file.is_none() && dest_url.ends_with(".weave") => {
                file = Some(WeaveIn::File(dest_url.to_string()));
            }
            Event::Code(words) if file.is_none() && words.ends_with(".weave") => {
                file = Some(WeaveIn::File(words.to_string()));
            }
            Event::Text(words) => {
                if let Some(heading) = &mut heading {
                    heading.push_str(&words);
                }
            }
            _ => {}
        }
    }
    file.or(built_in)
}

/// All lines of the fence that begins with these.
fn fenced(text: &str, first: &Range<usize>) -> Range<usize> {
    let mut end = first.end;
    for (event, span) in Parser::new(text).into_offset_iter() {
        match event {
            Event::Text(_) if span.start >= first.start => end = end.max(span.end),
            Event::End(TagEnd::CodeBlock) if span.end >= end => break,
            _ => {}
        }
    }
    first.start..end
}

/// The text with blanks in place of everything outside of a range, so that every word keeps its place.
pub fn only(text: &str, range: &Range<usize>) -> String {
    let blank = |words: &str| -> String {
        words.chars().map(|c| if c == '\n' { "\n".to_owned() } else { " ".repeat(c.len_utf8()) }).collect()
    };
    let part = |range: Range<usize>| text.get(range).unwrap_or("");
    let inside = part(range.clone());
    format!("{}{inside}{}", blank(part(0..range.start)), blank(part(range.end..text.len())))
}
