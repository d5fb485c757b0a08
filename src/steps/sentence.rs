//! One sentence of instructions → what it says. The grammar is `grammar/steps.pest`.

use pest::Parser;
use pest::iterators::Pair;

mod grammar {
    // The generated enum of rules has no documentation; each rule is explained in the grammar itself.
    #![allow(missing_docs)]

    #[derive(pest_derive::Parser)]
    #[grammar = "../grammar/steps.pest"]
    pub struct StepsParser;
}

use super::events::Need;
use super::impossible::Impossible;
use super::words::number_of;
use crate::notation::{Along, Hand, Side, State};
use crate::pattern::{Lies, Sense};
use grammar::{Rule, StepsParser};

/// A ring as the text speaks of it.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum RingWords {
    /// By its letter, and its number or row and place; nothing in a unit.
    Named(String, Vec<i32>),
    /// "it", "the ring": the one in hand.
    It,
    /// The next that comes in: closed, open, or not said which.
    Next(Option<State>),
    /// The last that came in: closed, open, or not said which.
    Last(Option<State>),
    /// The one that hangs by one other.
    Loose,
    /// One of the two rings of an eye.
    OfEye(WhichEye, OfTwo),
    /// One of the two closed rings that came in last.
    OfBoth(OfTwo),
}

/// An eye by its place in the row.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum WhichEye {
    /// Of the first two closed rings.
    First,
    /// The one after the last that was gone through.
    Next,
    /// The one before the next.
    Last,
}

/// The first or the second of two rings.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum OfTwo {
    /// The first.
    First,
    /// The second.
    Second,
}

impl OfTwo {
    const BOTH: [Self; 2] = [Self::First, Self::Second];

    /// How far it is from the first.
    pub(super) fn places_on(self) -> i32 {
        match self {
            Self::First => 0,
            Self::Second => 1,
        }
    }
}

/// Rings of one colour.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Coloured {
    /// Which.
    pub rings: ColouredRings,
    /// Their colour.
    pub colour: String,
}

/// Which rings have a colour.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ColouredRings {
    /// These.
    These(RingList),
    /// From one to another.
    FromTo(RingWords, RingWords),
    /// Those of a row or column, from 1.
    Line(Along, i32),
}

/// Whether colours that are told once are taken again from the first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum InTurn {
    /// These rings alone.
    Once,
    /// And so on.
    Again,
}

/// Several rings, in the order they are told.
pub type RingList = Vec<RingWords>;

/// What a clause says.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Saying {
    /// The number of rings of each letter that are closed beforehand; without a letter, of the closed ones.
    CloseAll(Vec<(usize, Option<String>)>),
    /// Rings and their colours, and whether they go on in turn.
    Colours(Vec<Coloured>, InTurn),
    /// Rings on a tie, with which the work begins.
    Thread(RingList),
    /// The ring in hand.
    Open(RingWords),
    /// Closed, or the first of all.
    Close(RingList),
    /// Closed rings that come in.
    Pick(RingList),
    /// Rings passed, and in what sense.
    Go(Sense, RingList),
    /// How rings lie.
    Lay(Lies<RingWords>),
    /// Steps are done again.
    Repeat {
        /// The first of them, by its number.
        from: usize,
        /// The last.
        to: usize,
        /// How many times more.
        times: Option<usize>,
        /// The ring that is closed last.
        until: Option<RingWords>,
    },
    /// The number of rings in the work.
    Count(usize),
    /// Rings that hang by one other.
    Dangle(RingList),
    /// The eyes lean this way.
    Lean(Hand),
    /// The work is turned over.
    Turn,
    /// The number of eyes that are left free.
    Skip(usize),
    /// It names another number of rings than it can be about.
    Miscounted(Impossible),
}

/// What a sentence says, one thing after another; `None` where it cannot be read.
pub fn sentence(words: &str) -> Option<Vec<Saying>> {
    let pair = StepsParser::parse(Rule::sentence, words.trim()).ok()?.next()?;
    let clauses = pair
        .into_inner()
        .filter(|p| !matches!(p.as_rule(), Rule::EOI | Rule::kw_now | Rule::kw_then | Rule::kw_next | Rule::kw_and));
    clauses.map(saying).collect()
}

/// A line of the list of what is needed.
pub fn need(words: &str) -> Option<Need> {
    let whole = StepsParser::parse(Rule::need, words.trim()).ok()?.next()?;
    let mut parts = whole.clone().into_inner();
    let count = amount(&parts.find(|p| p.as_rule() == Rule::amount)?)?;
    let letter = parts.find(|p| p.as_rule() == Rule::letter)?.as_str().to_owned();
    Some(Need { count, letter, state: state(&whole)? })
}

fn saying(pair: Pair<'_, Rule>) -> Option<Saying> {
    Some(match pair.as_rule() {
        Rule::close_all => Saying::CloseAll(close_all(pair)?),
        Rule::colours => {
            let turn = if has(&pair, Rule::and_so_on) { InTurn::Again } else { InTurn::Once };
            let all = pair.into_inner().filter(|p| p.as_rule() == Rule::coloured);
            Saying::Colours(all.map(|p| coloured(&p)).collect::<Option<_>>()?, turn)
        }
        Rule::thread => Saying::Thread(rings_of(&pair)),
        Rule::open => Saying::Open(rings_of(&pair).into_iter().next()?),
        // "Close 60 rings": these are closed beforehand.
        Rule::close => match rings_of(&pair) {
            rings if rings.len() > 1 && rings.iter().all(|r| matches!(r, RingWords::Next(_))) => {
                Saying::CloseAll(vec![(rings.len(), None)])
            }
            rings => Saying::Close(rings),
        },
        Rule::pick => Saying::Pick(rings_of(&pair)),
        Rule::down => go(Sense::Down, &pair)?,
        Rule::up => go(Sense::Up, &pair)?,
        Rule::through => go(Sense::Through, &pair)?,
        Rule::around => go(Sense::Around, &pair)?,
        Rule::lay | Rule::keep_over | Rule::keep_side | Rule::between | Rule::fold => lay(&pair)?,
        Rule::turn => Saying::Turn,
        Rule::skip => {
            let count = pair.into_inner().find(|p| p.as_rule() == Rule::amount);
            Saying::Skip(count.map_or(Some(1), |c| amount(&c))?)
        }
        Rule::repeat => repeat(&pair)?,
        Rule::count => Saying::Count(amount(&pair.into_inner().find(|p| p.as_rule() == Rule::amount)?)?),
        Rule::dangle => Saying::Dangle(rings_of(&pair)),
        Rule::lean => Saying::Lean(if has(&pair, Rule::kw_left) { Hand::Left } else { Hand::Right }),
        _ => return None,
    })
}

/// "Close 7 rings c and 7 rings d": how many, and of which letter.
fn close_all(pair: Pair<'_, Rule>) -> Option<Vec<(usize, Option<String>)>> {
    let mut all = Vec::new();
    let mut count = None;
    for part in pair.into_inner() {
        match part.as_rule() {
            Rule::amount => count = amount(&part),
            Rule::letter => all.push((count?, Some(part.as_str().to_owned()))),
            _ => {}
        }
    }
    if all.is_empty() {
        all.push((count?, None));
    }
    Some(all)
}

/// "b1 and b2 are teal", "row 1 is teal".
fn coloured(pair: &Pair<'_, Rule>) -> Option<Coloured> {
    let find = |rule: Rule| pair.clone().into_inner().find(|p| p.as_rule() == rule);
    let whole = find(Rule::colour)?;
    let inside = whole.clone().into_inner().next()?;
    let colour = inside.as_str().to_owned();
    let rings = match find(Rule::line) {
        Some(line) => {
            let number = line.clone().into_inner().find(|p| p.as_rule() == Rule::number)?.as_str().parse().ok()?;
            ColouredRings::Line(if has(&line, Rule::kw_row) { Along::Row } else { Along::Column }, number)
        }
        None => match <[RingWords; 2]>::try_from(rings_of(pair)) {
            Ok([first, last]) if has(pair, Rule::kw_to) => ColouredRings::FromTo(first, last),
            Ok(two) => ColouredRings::These(two.into()),
            Err(rings) => ColouredRings::These(rings),
        },
    };
    Some(Coloured { rings, colour })
}

/// The rings a clause says are passed: not the one that goes.
fn go(sense: Sense, pair: &Pair<'_, Rule>) -> Option<Saying> {
    let passed = pair.clone().into_inner().filter(|p| matches!(p.as_rule(), Rule::passed | Rule::eye)).last()?;
    let rings = rings_of(&passed);
    let eye = passed.as_rule() == Rule::eye || has(&passed, Rule::eye);
    Some(match rings.len() {
        count if eye && count != 2 => Saying::Miscounted(Impossible::EyeRings(count)),
        _ => Saying::Go(sense, rings),
    })
}

/// How rings lie.
fn lay(pair: &Pair<'_, Rule>) -> Option<Saying> {
    let rings = rings_of(pair);
    let two = || <[RingWords; 2]>::try_from(rings.clone()).ok();
    Some(Saying::Lay(match pair.as_rule() {
        Rule::lay => match two()? {
            [one, other] if has(pair, Rule::front) => Lies::Behind(other, one),
            [one, other] => Lies::Behind(one, other),
        },
        Rule::keep_over => match two()? {
            [one, other] if has(pair, Rule::under) => Lies::Over(other, one),
            [one, other] => Lies::Over(one, other),
        },
        Rule::keep_side => {
            let side = if has(pair, Rule::kw_far) { Side::Far } else { Side::Near };
            Lies::On(rings.into_iter().next()?, side)
        }
        Rule::between => match <[RingWords; 3]>::try_from(rings) {
            Ok([ring, one, other]) => Lies::Between(ring, one, other),
            Err(rings) => return Some(Saying::Miscounted(Impossible::BetweenRings(rings.len().checked_sub(1)?))),
        },
        Rule::fold => match <[RingWords; 2]>::try_from(rings) {
            Ok([one, other]) => Lies::Folded(one, other),
            Err(rings) => return Some(Saying::Miscounted(Impossible::FoldedRings(rings.len()))),
        },
        _ => return None,
    }))
}

fn repeat(pair: &Pair<'_, Rule>) -> Option<Saying> {
    let mut steps = Vec::new();
    let (mut times, mut until) = (None, None);
    for part in pair.clone().into_inner() {
        match part.as_rule() {
            Rule::number => steps.push(part.as_str().parse().ok()?),
            Rule::amount => times = amount(&part),
            Rule::kw_once => times = Some(1),
            Rule::kw_twice => times = Some(2),
            Rule::ring => until = Some(ring(part)?),
            _ => {}
        }
    }
    let from = *steps.first()?;
    Some(Saying::Repeat { from, to: steps.get(1).copied().unwrap_or(from), times, until })
}

/// Whether a clause contains a word.
fn has(pair: &Pair<'_, Rule>, rule: Rule) -> bool {
    pair.clone().into_inner().flatten().any(|p| p.as_rule() == rule)
}

/// Every ring a clause names, in order.
fn rings_of(pair: &Pair<'_, Rule>) -> RingList {
    let mut all = Vec::new();
    for part in pair.clone().into_inner() {
        match part.as_rule() {
            Rule::ring => all.extend(ring(part)),
            Rule::counted => {
                let count = part.clone().into_inner().find(|p| p.as_rule() == Rule::amount).and_then(|p| amount(&p));
                all.extend(std::iter::repeat_n(RingWords::Next(state(&part)), count.unwrap_or(0).min(MOST_COUNTED)));
            }
            Rule::both => all.extend(OfTwo::BOTH.map(RingWords::OfBoth)),
            Rule::which_eye => {
                let which = match part.as_str().to_lowercase().as_str() {
                    "first" => WhichEye::First,
                    "next" => WhichEye::Next,
                    _ => WhichEye::Last,
                };
                all.extend(OfTwo::BOTH.map(|of| RingWords::OfEye(which, of)));
            }
            Rule::letter => all.push(RingWords::Named(part.as_str().to_owned(), Vec::new())),
            _ => all.extend(rings_of(&part)),
        }
    }
    all
}

fn ring(pair: Pair<'_, Rule>) -> Option<RingWords> {
    let sort = |p: &Pair<'_, Rule>| {
        matches!(p.as_rule(), Rule::it | Rule::named | Rule::letter | Rule::next | Rule::last | Rule::loose)
    };
    let part = pair.into_inner().find(sort)?;
    Some(match part.as_rule() {
        Rule::next => RingWords::Next(state(&part)),
        Rule::last => RingWords::Last(state(&part)),
        Rule::loose => RingWords::Loose,
        Rule::it => RingWords::It,
        Rule::letter => RingWords::Named(part.as_str().to_owned(), Vec::new()),
        _ => {
            let mut parts = part.into_inner();
            let letters = parts.next()?.as_str().to_owned();
            let index = parts.next()?.as_str().split('.').map(str::parse).collect::<Result<Vec<i32>, _>>().ok()?;
            RingWords::Named(letters, index)
        }
    })
}

/// Whether rings are told to be closed or open; `None` where the text does not say.
fn state(pair: &Pair<'_, Rule>) -> Option<State> {
    let state = pair.clone().into_inner().find(|p| p.as_rule() == Rule::state)?;
    Some(if state.as_str().eq_ignore_ascii_case("closed") { State::Closed } else { State::Open })
}

/// The most rings that are counted off in one sentence.
const MOST_COUNTED: usize = 1000;

fn amount(pair: &Pair<'_, Rule>) -> Option<usize> {
    number_of(pair.as_str())
}
