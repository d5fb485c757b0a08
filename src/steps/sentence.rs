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

use grammar::{Rule, StepsParser};

/// A ring as it is told.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum RingWords {
    /// By its letter, and its number or row and place; nothing in a unit.
    Named(String, Vec<i32>),
    /// "it", "the ring": the one in hand.
    It,
    /// The next that comes in: closed, open, or not said which.
    Next(Option<bool>),
    /// The last that came in: closed, open, or not said which.
    Last(Option<bool>),
    /// The one that hangs by one other.
    Loose,
    /// One of the two rings of an eye, from 0.
    OfEye(WhichEye, i32),
    /// One of the two closed rings that came in last, from 0.
    OfBoth(i32),
}

/// An eye by where it stands in the row.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum WhichEye {
    /// Of the first two closed rings.
    First,
    /// The one after the last that was gone through.
    Next,
    /// The one before the next.
    Last,
}

/// Rings that are passed together, as an eye or one by one.
pub type RingList = Vec<RingWords>;

/// Which way a ring is passed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// From its front to its back.
    Down,
    /// From its back to its front.
    Up,
    /// All of them one way, which is not said.
    Through,
    /// In by the one, out by the other.
    Around,
}

/// How two rings lie to each other, or one by itself.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Lay {
    /// The first behind the second.
    Behind(RingWords, RingWords),
    /// The first over the second.
    Over(RingWords, RingWords),
    /// On the far side; else on the near one.
    Side(RingWords, bool),
    /// Between two others.
    Between(RingWords, RingList),
    /// Folded back.
    Folded(RingList),
}

/// What a clause says.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Saying {
    /// So many rings of each letter are closed beforehand; without a letter, of the closed ones.
    CloseAll(Vec<(usize, Option<String>)>),
    /// Rings on a tie, with which the work begins.
    Thread(RingList),
    /// The ring in hand.
    Open(RingWords),
    /// Closed, or the first of all.
    Close(RingList),
    /// Closed rings that come in.
    Pick(RingList),
    /// Rings passed, and whether they are spoken of as an eye.
    Go(Way, RingList, bool),
    /// How rings lie.
    Lay(Lay),
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
    /// So many rings are in the work.
    Count(usize),
    /// Rings that hang by one other.
    Dangle(RingList),
    /// The eyes lean to the left; else to the right.
    Lean(bool),
    /// The work is turned over.
    Turn,
    /// So many eyes are left free.
    Skip(usize),
}

/// What a sentence says, one thing after another; `None` where it cannot be read.
pub fn sentence(words: &str) -> Option<Vec<Saying>> {
    let pair = StepsParser::parse(Rule::sentence, words.trim()).ok()?.next()?;
    let clauses = pair
        .into_inner()
        .filter(|p| !matches!(p.as_rule(), Rule::EOI | Rule::kw_now | Rule::kw_then | Rule::kw_next | Rule::kw_and));
    clauses.map(saying).collect()
}

/// A line of the list of what is needed: how many, of which letter, and whether they are closed.
pub fn need(words: &str) -> Option<(usize, String, bool)> {
    let mut parts = StepsParser::parse(Rule::need, words.trim()).ok()?.next()?.into_inner();
    let count = amount(&parts.find(|p| p.as_rule() == Rule::amount)?)?;
    let letter = parts.find(|p| p.as_rule() == Rule::letter)?.as_str().to_owned();
    let state = parts.find(|p| p.as_rule() == Rule::state)?;
    Some((count, letter, state.as_str().eq_ignore_ascii_case("closed")))
}

fn saying(pair: Pair<'_, Rule>) -> Option<Saying> {
    let rule = pair.as_rule();
    Some(match rule {
        Rule::close_all => {
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
            Saying::CloseAll(all)
        }
        Rule::thread => Saying::Thread(rings_of(&pair)),
        Rule::open => Saying::Open(rings_of(&pair).into_iter().next()?),
        // "Close 60 rings": nobody has so many in hand.
        Rule::close => match rings_of(&pair) {
            rings if rings.len() > 1 && rings.iter().all(|r| matches!(r, RingWords::Next(_))) => {
                Saying::CloseAll(vec![(rings.len(), None)])
            }
            rings => Saying::Close(rings),
        },
        Rule::pick => Saying::Pick(rings_of(&pair)),
        Rule::down => Saying::Go(Way::Down, passed(&pair)?, has(&pair, Rule::eye)),
        Rule::up => Saying::Go(Way::Up, passed(&pair)?, has(&pair, Rule::eye)),
        Rule::through => Saying::Go(Way::Through, passed(&pair)?, has(&pair, Rule::eye)),
        Rule::around => Saying::Go(Way::Around, passed(&pair)?, has(&pair, Rule::eye)),
        Rule::lay => {
            let [one, other] = rings_of(&pair).try_into().ok()?;
            let front = has(&pair, Rule::front);
            Saying::Lay(if front { Lay::Behind(other, one) } else { Lay::Behind(one, other) })
        }
        Rule::keep_over => {
            let [one, other] = rings_of(&pair).try_into().ok()?;
            let under = has(&pair, Rule::under);
            Saying::Lay(if under { Lay::Over(other, one) } else { Lay::Over(one, other) })
        }
        Rule::keep_side => Saying::Lay(Lay::Side(rings_of(&pair).into_iter().next()?, has(&pair, Rule::kw_far))),
        Rule::between => {
            let mut all = rings_of(&pair);
            let first = if all.is_empty() { return None } else { all.remove(0) };
            Saying::Lay(Lay::Between(first, all))
        }
        Rule::fold => Saying::Lay(Lay::Folded(rings_of(&pair))),
        Rule::turn => Saying::Turn,
        Rule::skip => {
            let count = pair.into_inner().find(|p| p.as_rule() == Rule::amount);
            Saying::Skip(count.map_or(Some(1), |c| amount(&c))?)
        }
        Rule::repeat => repeat(&pair)?,
        Rule::count => Saying::Count(amount(&pair.into_inner().find(|p| p.as_rule() == Rule::amount)?)?),
        Rule::dangle => Saying::Dangle(rings_of(&pair)),
        Rule::lean => Saying::Lean(has(&pair, Rule::kw_left)),
        _ => return None,
    })
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

/// Whether a word stands anywhere in a clause.
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
            Rule::both => all.extend([0, 1].map(RingWords::OfBoth)),
            Rule::which_eye => {
                let which = match part.as_str().to_lowercase().as_str() {
                    "first" => WhichEye::First,
                    "next" => WhichEye::Next,
                    _ => WhichEye::Last,
                };
                all.extend([0, 1].map(|n| RingWords::OfEye(which, n)));
            }
            Rule::letter => all.push(RingWords::Named(part.as_str().to_owned(), Vec::new())),
            _ => all.extend(rings_of(&part)),
        }
    }
    all
}

/// The rings a clause says are passed: not the one that goes.
fn passed(pair: &Pair<'_, Rule>) -> Option<RingList> {
    let last = pair.clone().into_inner().filter(|p| matches!(p.as_rule(), Rule::passed | Rule::eye)).last()?;
    Some(rings_of(&last))
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

/// Whether rings are said to be closed; `None` where it is not said.
fn state(pair: &Pair<'_, Rule>) -> Option<bool> {
    let state = pair.clone().into_inner().find(|p| p.as_rule() == Rule::state)?;
    Some(state.as_str().eq_ignore_ascii_case("closed"))
}

/// The most rings that are counted off in one sentence.
const MOST_COUNTED: usize = 1000;

fn amount(pair: &Pair<'_, Rule>) -> Option<usize> {
    amount_of(pair.as_str())
}

/// A number in digits, or in words from one to twelve.
pub(crate) fn amount_of(words: &str) -> Option<usize> {
    const WORDS: [&str; 12] =
        ["one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];
    let words = words.trim().to_lowercase();
    words.parse().ok().or_else(|| WORDS.iter().position(|w| *w == words).map(|n| n + 1))
}
