//! Repairing slips of the finger in one line: a word that is nearly one of the words the line may contain is taken for
//! that word, if the line can be read then.

use super::forms;
use super::forms::{Form, QUOTES, Section};
use crate::notation::{Rule, WeaveParser};
use crate::text::{nearest, plainly_meant};
use pest::Parser;
use pest::error::{Error, ErrorVariant, InputLocation};

/// The most words that are repaired in one line.
const MOST_REPAIRS: usize = 4;
/// Lines longer than this, in bytes, are not searched for slips.
const LONGEST_MENDED: usize = 2000;
/// How often lines of one text may be read again in search of slips: a text of nothing but slips is not a weave, and
/// must not take for ever.
pub(super) const MOST_TRIES: usize = 4000;

/// Words that makers use for a word of the notation.
const ALSO_SAID: &[(&str, &str)] = &[
    ("thru", "through"),
    ("below", "under"),
    ("above", "over"),
    ("colour", "colours"),
    ("color", "colors"),
    ("id", "inner"),
];

/// A word that was taken for another: bytes in the line as written, and what it was taken for.
#[derive(Clone, Debug)]
pub(super) struct Repair {
    pub start: usize,
    pub end: usize,
    pub word: String,
}

/// A line as it was understood.
pub(super) struct Understood {
    /// The form it was read in.
    pub rule: Rule,
    /// The text that was read: as written but for the repairs.
    pub text: String,
    /// The repairs, from left to right.
    pub repairs: Vec<Repair>,
    /// Where reading stopped, if it could not be read.
    pub stuck: Option<Stuck>,
}

/// Where and why a line could not be read.
#[derive(Clone, Debug)]
pub(super) struct Stuck {
    /// Byte in the text that was read.
    pub at: usize,
    /// What would have been right there, in a maker's words.
    pub expected: Vec<&'static str>,
}

impl Understood {
    /// The byte of the line as written for a byte of the text that was read.
    pub fn written(&self, at: usize) -> usize {
        let mut shift = 0_isize;
        for repair in &self.repairs {
            let start = repair.start.saturating_add_signed(shift);
            if at <= start {
                break;
            }
            if at < start + repair.word.len() {
                return repair.start;
            }
            shift += repair.word.len().cast_signed() - (repair.end - repair.start).cast_signed();
        }
        at.saturating_add_signed(-shift)
    }
}

/// Reads `line` in the form that its place calls for, or in the form that its first word nearly opens.
///
/// `tries` is how often lines may still be read again in search of slips; it goes down.
pub(super) fn understand(line: &str, section: Section, tries: &mut usize) -> Understood {
    let rule = forms::choose(line, section);
    let as_placed = Attempt { line, rule, repairs: Vec::new() }.mend(tries);
    if as_placed.stuck.is_none() && !looks_like_opening(line, section) {
        return as_placed;
    }
    let Some((start, end, form)) = opening(line, section) else {
        return as_placed;
    };
    let word = nearest(line.get(start..end).unwrap_or(""), form.opens.iter().copied()).unwrap_or("");
    let repairs = vec![Repair { start, end, word: word.to_owned() }];
    let reopened = Attempt { line, rule: form.rule, repairs }.mend(tries);
    if reopened.stuck.is_none() || as_placed.stuck.as_ref().is_some_and(|s| as_placed.written(s.at) <= end) {
        reopened
    } else {
        as_placed
    }
}

/// Whether a word can only mean the one it was taken for: makers use it for that word, or it is one slip away from that
/// word and from no other word of the notation.
pub(super) fn plain(written: &str, taken_for: &str) -> bool {
    let said = |(said, means): &(&str, &str)| said.eq_ignore_ascii_case(written) && *means == taken_for;
    ALSO_SAID.iter().any(said) || plainly_meant(written, taken_for, crate::notation::words())
}

/// Whether a line under `rings` may be a misspelled heading. Almost any words can follow the name of a kind, so a slip
/// in an opening word must be seen before the line is taken for a kind with a strange material.
pub(super) fn looks_like_opening(line: &str, section: Section) -> bool {
    section == Section::Rings && !line.contains(|c: char| c.is_ascii_digit()) && !line.contains(':')
}

/// The first word of a line and the form it nearly opens, where it does.
fn opening(line: &str, section: Section) -> Option<(usize, usize, &'static Form)> {
    let (start, end) = *words_of(line).first()?;
    let first = line.get(start..end)?;
    if line.get(end..)?.trim_start().starts_with('[') {
        return None;
    }
    // `rings fine` may be a set of rings without quotes or a misspelled `ring`.
    if first.eq_ignore_ascii_case("rings") && words_of(line).len() == 2 {
        return None;
    }
    let alone = line.trim().len() == first.len();
    let candidates = forms::FORMS.iter().filter(|f| {
        // A heading is a line by itself; under `rings` only such a line can be a misspelled heading.
        let heading = f.example == f.opens.first().copied().unwrap_or("");
        heading == alone || section != Section::Rings && !heading
    });
    let form_for = |word: &str| forms::FORMS.iter().find(|f| f.opens.contains(&word));
    let near = nearest(first, candidates.flat_map(|f| f.opens.iter().copied()))?;
    if near.eq_ignore_ascii_case(first) {
        return None;
    }
    form_for(near).map(|form| (start, end, form))
}

/// A line, the form it is read in, and the words that are taken for others in it.
struct Attempt<'l> {
    line: &'l str,
    rule: Rule,
    /// Sorted by place.
    repairs: Vec<Repair>,
}

impl Attempt<'_> {
    fn text(&self) -> String {
        let mut text = self.line.to_owned();
        for repair in self.repairs.iter().rev() {
            text.replace_range(repair.start..repair.end, &repair.word);
        }
        text
    }

    /// Reads the line, adding repairs while they help.
    fn mend(mut self, tries: &mut usize) -> Understood {
        loop {
            let text = self.text();
            let stuck = WeaveParser::parse(self.rule, &text)
                .err()
                .map(|error| Stuck { at: place_of(&error), expected: expected(&error) });
            let may_go_on = self.repairs.len() < MOST_REPAIRS && self.line.len() <= LONGEST_MENDED;
            match stuck.as_ref().filter(|_| may_go_on).and_then(|stuck| self.better(stuck.at, tries)) {
                Some(better) => self = better,
                None => return Understood { rule: self.rule, text, repairs: self.repairs, stuck },
            }
        }
    }

    /// This attempt with the one more repair after which reading gets farthest, if it gets farther than `reached`.
    fn better(&self, reached: usize, tries: &mut usize) -> Option<Self> {
        let words = forms::form_of(self.rule).map_or(&[] as &[&str], |form| form.words);
        let mut best: Option<(usize, Self)> = None;
        for (start, end) in words_of(self.line) {
            let word = self.line.get(start..end)?;
            let known = words.iter().any(|w| w.eq_ignore_ascii_case(word));
            if known || self.repairs.iter().any(|r| r.start == start) {
                continue;
            }
            let Some(meant) = meant(word, words) else { continue };
            let next = self.with(Repair { start, end, word: meant.to_owned() });
            *tries = tries.checked_sub(1)?;
            let got = match WeaveParser::parse(self.rule, &next.text()) {
                Ok(_) => usize::MAX,
                Err(error) => place_of(&error),
            };
            // A repair has to let reading get past the repaired word.
            if got > reached.max(start + meant.len()) && best.as_ref().is_none_or(|(far, _)| got > *far) {
                best = Some((got, next));
            }
        }
        best.map(|(_, next)| next)
    }

    fn with(&self, repair: Repair) -> Self {
        let mut repairs = self.repairs.clone();
        repairs.push(repair);
        repairs.sort_by_key(|r| r.start);
        Self { repairs, ..*self }
    }
}

/// The word of `words` that a maker means by `word`.
fn meant(word: &str, words: &'static [&'static str]) -> Option<&'static str> {
    let also = ALSO_SAID.iter().find(|(said, _)| said.eq_ignore_ascii_case(word)).map(|(_, means)| *means);
    also.filter(|means| words.contains(means)).or_else(|| nearest(word, words.iter().copied()))
}

/// Start and end of every run of letters outside quotes.
fn words_of(line: &str) -> Vec<(usize, usize)> {
    let mut found = Vec::new();
    let mut start = None;
    let mut quoted = false;
    for (at, c) in line.char_indices().chain(std::iter::once((line.len(), ' '))) {
        if QUOTES.contains(&c) {
            quoted = !quoted;
        }
        let letter = c.is_alphabetic() && !quoted;
        match (start, letter) {
            (None, true) => start = Some(at),
            (Some(from), false) => {
                found.push((from, at));
                start = None;
            }
            _ => {}
        }
    }
    found
}

fn place_of(error: &Error<Rule>) -> usize {
    match error.location {
        InputLocation::Pos(at) | InputLocation::Span((at, _)) => at,
    }
}

fn expected(error: &Error<Rule>) -> Vec<&'static str> {
    let ErrorVariant::ParsingError { positives, .. } = &error.variant else {
        return Vec::new();
    };
    let mut phrases: Vec<&'static str> = Vec::new();
    for phrase in positives.iter().filter_map(|rule| forms::phrase(*rule)) {
        if !phrases.contains(&phrase) {
            phrases.push(phrase);
        }
    }
    phrases
}
