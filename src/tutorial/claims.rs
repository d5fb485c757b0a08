//! What a passage says of the piece → claims as the notation has them, so that the same rules look at them.

use super::mention::{Mark, Mention, Precision};
use super::passage::{Passage, Sort};
use crate::library::Library;
use crate::notation::{Claim, State};
use crate::pattern::{KindSize, Pattern, sizes};
use crate::text::{Span, Spanned, short_name};
use crate::weave::Weave;
use std::collections::BTreeSet;
use std::ops::Range;

/// A passage with what it mentions.
pub struct Read<'p> {
    /// The passage.
    pub passage: &'p Passage,
    /// What it mentions, with the words.
    pub mentions: &'p [(Mention, Range<usize>)],
    /// The place of words of it.
    pub at: &'p dyn Fn(Range<usize>) -> Span,
}

impl Read<'_> {
    /// Whether some words bear on all of it.
    pub fn has(&self, mark: Mark) -> bool {
        self.mentions.iter().any(|m| m.0 == Mention::Mark(mark))
    }

    /// Whether it may say the opposite, or speak of something else, or not so exactly.
    pub fn vague(&self) -> bool {
        [Mark::Doubt, Mark::About, Mark::Least].into_iter().any(|mark| self.has(mark))
    }

    /// The only rings it speaks of: their number, which they are, and the words.
    pub fn rings(&self) -> Vec<(Option<u32>, Which<'_>, Range<usize>)> {
        let rings = self.mentions.iter().filter_map(|(mention, words)| match mention {
            Mention::Rings { count, sorts, letter, state } => {
                Some((*count, Which { sorts, letter: letter.as_deref(), state: *state }, words.clone()))
            }
            _ => None,
        });
        let mut rings: Vec<_> = rings.collect();
        // In a row one cell says how many, another which.
        if let (Sort::Row, [(Some(count), which, words), (None, other, _)]) = (self.passage.sort, rings.as_slice())
            && which.unsaid()
        {
            rings = vec![(Some(*count), *other, words.clone())];
        }
        rings
    }
}

/// Which rings a passage speaks of.
#[derive(Clone, Copy, Debug)]
pub struct Which<'m> {
    sorts: &'m [String],
    letter: Option<&'m str>,
    state: Option<State>,
}

/// Which rings are meant.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Meant {
    /// A family, a kind, a state.
    These(String),
    /// Any of them.
    Any,
    /// That is not clear.
    Unclear,
}

/// Words before "rings" that say nothing of which.
const ANY_RINGS: [&str; 4] = ["jump", "metal", "round", "wire"];

impl Which<'_> {
    /// The word a claim calls them by.
    pub fn word(&self, pattern: &Pattern) -> Meant {
        let these = |word: Option<String>| word.map_or(Meant::Unclear, Meant::These);
        if let Some(letter) = self.letter {
            return these(pattern.family(letter).map(|_| letter.to_owned()));
        }
        let sorts: Vec<&String> = self.sorts.iter().filter(|s| !ANY_RINGS.contains(&s.as_str())).collect();
        match (sorts.as_slice(), self.state) {
            ([], None) => Meant::Any,
            ([], Some(state)) => Meant::These(state.word().to_owned()),
            ([sort], None) => these(kind_called(pattern, sort)),
            _ => Meant::Unclear,
        }
    }

    /// Whether they are called by their letter.
    pub fn has_letter(&self) -> bool {
        self.letter.is_some()
    }

    /// Whether it is not said which.
    fn unsaid(&self) -> bool {
        self.letter.is_none() && self.state.is_none() && self.sorts.is_empty()
    }

    /// The kind they are of, where that is clear.
    pub fn kind(&self, pattern: &Pattern) -> Option<String> {
        let of = |families: Vec<&crate::pattern::Family>| {
            let kinds: BTreeSet<&str> = families.iter().map(|f| f.kind.as_str()).collect();
            kinds.first().filter(|_| kinds.len() == 1).map(|k| (*k).to_owned())
        };
        if let Some(letter) = self.letter {
            return of(pattern.families.iter().filter(|f| f.name.value == letter).collect());
        }
        let sort = self.sorts.iter().find_map(|s| kind_called(pattern, s));
        let stated = || of(pattern.families.iter().filter(|f| self.state.is_none_or(|s| f.state == s)).collect());
        sort.or_else(|| if self.sorts.iter().all(|s| ANY_RINGS.contains(&s.as_str())) { stated() } else { None })
    }
}

/// The kind a word means: its name, the only one of a material, or that of all accents.
fn kind_called(pattern: &Pattern, word: &str) -> Option<String> {
    let kinds: BTreeSet<&str> = pattern.families.iter().map(|f| f.kind.as_str()).collect();
    if let Some(kind) = kinds.iter().find(|k| k.eq_ignore_ascii_case(word)) {
        return Some((*kind).to_owned());
    }
    let made_of = |kind: &&&str| {
        let material = pattern.kind(kind).and_then(|k| k.material.as_ref());
        material.is_some_and(|m| m.value.split_whitespace().any(|w| w.eq_ignore_ascii_case(word)))
    };
    let mut of_material = kinds.iter().filter(made_of);
    of_material.next().filter(|_| of_material.next().is_none()).map(|k| (*k).to_owned())
}

/// Where numbers of rings are checked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RingNumbers {
    /// With the claims.
    AsClaims,
    /// With the list of what the steps need.
    WithSteps,
}

/// The claims of a passage. What may be about something else than this piece is left out.
pub fn claims(read: &Read<'_>, weave: &Weave, numbers: RingNumbers) -> Vec<Spanned<Claim>> {
    let pattern = weave.pattern();
    if read.passage.sort == Sort::Heading {
        return named(read, weave).into_iter().collect();
    }
    if read.vague() {
        return Vec::new();
    }
    let mut claims = Vec::new();
    let leans = read.mentions.iter().filter(|m| matches!(m.0, Mention::Lean(_))).count();
    if numbers == RingNumbers::AsClaims {
        claims.extend(rings(read, pattern));
    }
    for (mention, words) in read.mentions {
        let span = (read.at)(words.clone());
        let about_this = read.has(Mark::Ours) || read.has(Mark::Piece) || starts_with_it(read.passage);
        match mention {
            Mention::In(links, together)
                if about_this && !part_of_a_name(read.passage, words) && ends_there(read.passage, words) =>
            {
                let families = each(read.passage, words, pattern);
                let spanned = |n: u32| Spanned::new(n, span);
                let families = families.into_iter().map(|f| Spanned::new(f, span)).collect();
                let claim = Claim::In { links: spanned(*links), together: spanned(*together), families };
                claims.push(Spanned::new(claim, span));
            }
            // With two of them it is unknown which is read held upright.
            Mention::Lean(hand) if leans == 1 || !read.has(Mark::Upright) => {
                claims.push(Spanned::new(Claim::Lean(*hand, read.has(Mark::Upright)), span));
            }
            _ => {}
        }
    }
    claims.extend(ratio(read, pattern));
    claims
}

/// "30 closed rings", "24 rings in all".
fn rings(read: &Read<'_>, pattern: &Pattern) -> Vec<Spanned<Claim>> {
    let listed = matches!(read.passage.sort, Sort::Item | Sort::Row);
    let mut claims = Vec::new();
    if read.has(Mark::Starting) {
        return claims;
    }
    for (count, which, words) in read.rings() {
        let word = match which.word(pattern) {
            Meant::These(word) => Some(word),
            Meant::Any => None,
            Meant::Unclear => continue,
        };
        let Some(count) = count else { continue };
        let told = read.has(Mark::Needed) || read.has(Mark::Close) || read.has(Mark::InAll);
        let sure = match &word {
            Some(_) => listed || told,
            None => read.has(Mark::InAll) || read.has(Mark::Needed) && read.has(Mark::Piece),
        };
        // What must be closed beforehand.
        let beforehand = read.has(Mark::Before) && read.has(Mark::Close);
        let which = if word.is_none() && beforehand { Some("closed".to_owned()) } else { word };
        if (sure || beforehand) && !read.has(Mark::OtherThing) {
            let span = (read.at)(words.clone());
            let which = which.map(|w| Spanned::new(w, span));
            claims.push(Spanned::new(Claim::Rings { count: Spanned::new(count, span), which }, span));
        }
    }
    claims
}

/// "These rings have an AR of 4.4": without sizes beside it, it is about those of the weave.
fn ratio(read: &Read<'_>, pattern: &Pattern) -> Option<Spanned<Claim>> {
    let sized = |m: &(Mention, Range<usize>)| matches!(m.0, Mention::Wire(_) | Mention::Inner(_));
    let listed = matches!(read.passage.sort, Sort::Item | Sort::Row);
    if read.mentions.iter().any(sized) || !(read.has(Mark::Ours) || listed) {
        return None;
    }
    let mut ratios = read.mentions.iter().filter_map(|(mention, words)| match mention {
        Mention::Ratio { number, precision, .. } => Some((number, *precision, words)),
        _ => None,
    });
    let (number, _, words) = ratios.next().filter(|r| r.1 == Precision::Exact)?;
    let kinds = match read.rings().as_slice() {
        [(_, which, _)] => Some(which.kind(pattern)?),
        _ => None,
    };
    let kinds_there: BTreeSet<&str> = pattern.families.iter().map(|f| f.kind.as_str()).collect();
    if ratios.next().is_some() || kinds.is_none() && kinds_there.len() > 1 {
        return None;
    }
    // A text may go by the sizes rings are sold by.
    let meant = |size: &KindSize| kinds.as_ref().map_or(kinds_there.contains(size.name.as_str()), |k| *k == size.name);
    let own: Vec<KindSize> = sizes(pattern).into_iter().filter(meant).collect();
    if !own.is_empty() && own.iter().all(|s| s.is_sold_as(number)) {
        return None;
    }
    let span = (read.at)(words.clone());
    let kinds = kinds.into_iter().map(|k| Spanned::new(k, span)).collect();
    Some(Spanned::new(Claim::AspectRatio { number: number.clone(), unit: None, kinds }, span))
}

/// The one built-in weave a heading names, where it is not what this one is called.
fn named(read: &Read<'_>, weave: &Weave) -> Option<Spanned<Claim>> {
    let heading = format!("-{}-", short_name(&read.passage.words));
    let names = |name: &str| heading.contains(&format!("-{}-", short_name(name)));
    let own = weave.files().iter().filter_map(|f| f.base.as_ref()).map(|(base, _)| base.as_str());
    if std::iter::once(weave.name()).chain(own).any(names) {
        return None;
    }
    let mut others: Vec<&str> = Library::weaves().into_iter().map(|(name, _)| name).filter(|n| names(n)).collect();
    // The longest of those that are part of each other.
    others.sort_by_key(|name| std::cmp::Reverse(name.len()));
    let longest = *others.first()?;
    if others.iter().any(|name| !longest.contains(name)) {
        return None;
    }
    let span = (read.at)(0..read.passage.words.len());
    Some(Spanned::new(Claim::Weave(Spanned::new(longest.to_owned(), span)), span))
}

fn starts_with_it(passage: &Passage) -> bool {
    let first = passage.words.split_whitespace().next().unwrap_or("").to_lowercase();
    ["it", "each", "every"].contains(&first.as_str())
}

/// "European 4-in-1": the name of some weave.
fn part_of_a_name(passage: &Passage, words: &Range<usize>) -> bool {
    let before = passage.words.get(..words.start).unwrap_or("");
    let Some(last) = before.split_whitespace().last() else { return false };
    let sentence_start = before.split_whitespace().count() == 1;
    last.starts_with(char::is_uppercase) && !sentence_start
        || Library::weaves()
            .iter()
            .any(|(name, _)| name.split('-').any(|w| w.len() > 2 && w.eq_ignore_ascii_case(last)))
            && !last.eq_ignore_ascii_case("ring")
}

/// Whether nothing else is called so: "3-in-1 oil".
fn ends_there(passage: &Passage, words: &Range<usize>) -> bool {
    const WEAVES: [&str; 8] = ["weave", "pattern", "chain", "sheet", "strip", "and", "because", "where"];
    let rest = passage.words.get(words.end..).unwrap_or("").trim_start_matches([' ', '\n']);
    let next = rest.split(|c: char| !c.is_alphabetic()).next().unwrap_or("").to_lowercase();
    let name = short_name(&format!("{} {next}", passage.words.get(words.clone()).unwrap_or("")));
    let named = Library::weaves().iter().any(|(weave, _)| *weave == name);
    (next.is_empty() || WEAVES.contains(&next.as_str())) && !named
}

/// "Each closed ring holds …": the families meant; none for all.
fn each(passage: &Passage, words: &Range<usize>, pattern: &Pattern) -> Vec<String> {
    let own = passage.words.get(words.clone()).unwrap_or("").to_lowercase();
    let state = match own.split_whitespace().nth(1) {
        Some("closed") => State::Closed,
        Some("open") => State::Open,
        _ => return Vec::new(),
    };
    let families = pattern.families.iter().filter(|f| f.state == state && f.accent.is_none());
    families.map(|f| f.name.value.clone()).collect()
}
