//! The words of a passage → what they mention. The grammar is `grammar/prose.pest`.

use crate::notation::{Hand, Number, State};
use crate::steps::number_of;
use pest::Parser;
use pest::iterators::Pair;
use std::ops::Range;

mod grammar {
    // The generated enum of rules has no documentation; each rule is explained in the grammar itself.
    #![allow(missing_docs)]

    #[derive(pest_derive::Parser)]
    #[grammar = "../grammar/prose.pest"]
    pub struct ProseParser;
}

use grammar::{ProseParser, Rule};

/// What a number counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measure {
    /// Millimetres.
    Mm,
    /// Centimetres.
    Cm,
    /// Inches.
    Inch,
    /// American wire gauge.
    Awg,
    /// British standard wire gauge.
    Swg,
    /// A wire gauge; which is not said.
    Gauge,
}

/// A size, and its words.
#[derive(Clone, Debug, PartialEq)]
pub struct Sized {
    /// The number; a decimal comma as a point.
    pub number: Number,
    /// What it counts.
    pub measure: Measure,
    /// Its words in the passage.
    pub words: Range<usize>,
    /// The words of the number alone.
    pub digits: Range<usize>,
}

/// How closely a number is meant.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Precision {
    /// As it is written.
    Exact,
    /// About so, or as a bound.
    Loose,
}

/// A size, and the same size again where the text writes it twice.
#[derive(Clone, Debug, PartialEq)]
pub struct Sizes {
    /// The size.
    pub size: Sized,
    /// The other.
    pub again: Option<(Sized, Precision)>,
}

/// Words that bear on the whole passage.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Mark {
    /// It may say the opposite, or speak of something else.
    Doubt,
    /// "About".
    About,
    /// "At least".
    Least,
    /// "Held upright".
    Upright,
    /// "In all".
    InAll,
    /// "You need".
    Needed,
    /// "Close".
    Close,
    /// "Before you start".
    Before,
    /// "To start".
    Starting,
    /// Something that has a length and is not the piece: a wire, a clasp.
    OtherThing,
    /// The piece.
    Piece,
    /// "These", "our".
    Ours,
}

/// What is mentioned.
#[derive(Clone, Debug, PartialEq)]
pub enum Mention {
    /// The wire.
    Wire(Sizes),
    /// The inner diameter.
    Inner(Sizes),
    /// A size of which is not said what it measures.
    Bare(Sizes),
    /// How long something is.
    Length(Sized),
    /// An aspect ratio.
    Ratio {
        /// The number.
        number: Number,
        /// How closely it is meant.
        precision: Precision,
        /// A unit it should not have.
        unit: Option<Range<usize>>,
    },
    /// So many rings.
    Rings {
        /// How many, where the text says it.
        count: Option<u32>,
        /// Which: words before "rings".
        sorts: Vec<String>,
        /// Their letter.
        letter: Option<String>,
        /// Closed or open.
        state: Option<State>,
    },
    /// "3 in 1".
    In(u32, u32),
    /// A lean.
    Lean(Hand),
    /// See [`Mark`].
    Mark(Mark),
}

/// What a passage mentions, in order, each with its words.
pub fn mentions(passage: &str) -> Vec<(Mention, Range<usize>)> {
    let Some(whole) = ProseParser::parse(Rule::passage, passage).ok().and_then(|mut p| p.next()) else {
        return Vec::new();
    };
    whole.into_inner().filter_map(|pair| Some((mention(&pair)?, words(&pair)))).collect()
}

fn words(pair: &Pair<'_, Rule>) -> Range<usize> {
    let span = pair.as_span();
    // A rule may take the blanks behind it along.
    span.start()..span.start() + span.as_str().trim_end().len()
}

fn find<'i>(pair: &Pair<'i, Rule>, rule: Rule) -> Option<Pair<'i, Rule>> {
    pair.clone().into_inner().find(|p| p.as_rule() == rule)
}

fn mention(pair: &Pair<'_, Rule>) -> Option<Mention> {
    let mark = |mark| Some(Mention::Mark(mark));
    match pair.as_rule() {
        Rule::wire => Some(Mention::Wire(sizes(&find(pair, Rule::sizes).unwrap_or_else(|| pair.clone()))?)),
        Rule::inner => Some(Mention::Inner(sizes(&find(pair, Rule::sizes).unwrap_or_else(|| pair.clone()))?)),
        Rule::sizes => Some(Mention::Bare(sizes(pair)?)),
        Rule::length => Some(Mention::Length(sized(&find(&find(pair, Rule::extent)?, Rule::reach)?)?)),
        Rule::ratio => Some(Mention::Ratio {
            number: number(find(pair, Rule::number)?.as_str())?,
            precision: precision(find(pair, Rule::bound).or_else(|| find(pair, Rule::until)).as_ref()),
            unit: find(pair, Rule::ratio_unit).map(|unit| words(&unit)),
        }),
        Rule::rings => Some(rings(pair)),
        Rule::in_one => {
            let mut numbers = pair.clone().into_inner().filter(|p| p.as_rule() == Rule::whole);
            let mut next = || numbers.next()?.as_str().parse().ok();
            Some(Mention::In(next()?, next()?))
        }
        Rule::each_holds => Some(Mention::In(amount(&find(pair, Rule::amount)?)?, 1)),
        Rule::lean => Some(Mention::Lean(if find(pair, Rule::left).is_some() { Hand::Left } else { Hand::Right })),
        Rule::doubt => mark(Mark::Doubt),
        Rule::about => mark(Mark::About),
        Rule::least => mark(Mark::Least),
        Rule::upright => mark(Mark::Upright),
        Rule::in_all => mark(Mark::InAll),
        Rule::needed => mark(Mark::Needed),
        Rule::shut => mark(Mark::Close),
        Rule::before => mark(Mark::Before),
        Rule::starting => mark(Mark::Starting),
        Rule::other_thing => mark(Mark::OtherThing),
        Rule::piece => mark(Mark::Piece),
        Rule::ours => mark(Mark::Ours),
        _ => None,
    }
}

fn rings(pair: &Pair<'_, Rule>) -> Mention {
    let sorts = pair.clone().into_inner().filter(|p| p.as_rule() == Rule::sort);
    let mut sorts: Vec<String> = sorts.map(|p| p.as_str().trim().to_lowercase()).collect();
    let state = |word: &str| match word.to_lowercase().as_str() {
        "closed" => Some(State::Closed),
        "open" => Some(State::Open),
        _ => None,
    };
    let told = find(pair, Rule::state).and_then(|s| state(s.as_str().trim()));
    let told = told.or_else(|| sorts.iter().find_map(|s| state(s)));
    sorts.retain(|s| state(s).is_none());
    Mention::Rings {
        count: find(pair, Rule::amount).and_then(|a| amount(&a)),
        sorts,
        letter: find(pair, Rule::letter).map(|l| l.as_str().to_owned()),
        state: told,
    }
}

/// Loose where the text has words that say so.
fn precision(words: Option<&Pair<'_, Rule>>) -> Precision {
    if words.is_some() { Precision::Loose } else { Precision::Exact }
}

fn sizes(pair: &Pair<'_, Rule>) -> Option<Sizes> {
    let again = find(pair, Rule::again).or_else(|| find(pair, Rule::surely));
    let again = again.and_then(|a| Some((sized(&find(&a, Rule::size)?)?, precision(find(&a, Rule::roughly).as_ref()))));
    Some(Sizes { size: sized(&find(pair, Rule::size)?)?, again })
}

/// A number and its measure, whichever comes first.
fn sized(pair: &Pair<'_, Rule>) -> Option<Sized> {
    let whole = words(pair);
    let parts = find(pair, Rule::gauge).unwrap_or_else(|| pair.clone());
    let (mut digits, mut measure) = (None, None);
    for part in parts.into_inner() {
        match part.as_rule() {
            Rule::whole | Rule::decimal | Rule::fraction | Rule::mixed => digits = Some(part),
            Rule::mm => measure = Some(Measure::Mm),
            Rule::cm => measure = Some(Measure::Cm),
            Rule::inch | Rule::short_inch => measure = Some(Measure::Inch),
            Rule::awg => measure = Some(Measure::Awg),
            Rule::swg => measure = Some(Measure::Swg),
            Rule::unnamed => measure = Some(Measure::Gauge),
            _ => {}
        }
    }
    let digits = digits?;
    Some(Sized { number: number(digits.as_str())?, measure: measure?, words: whole, digits: words(&digits) })
}

/// One-sign fractions, and what they say.
const SIGNS: [(&str, &str); 7] =
    [("½", "1/2"), ("¼", "1/4"), ("¾", "3/4"), ("⅛", "1/8"), ("⅜", "3/8"), ("⅝", "5/8"), ("⅞", "7/8")];

fn number(words: &str) -> Option<Number> {
    let mut text = words.trim().replace('⁄', "/").replace(',', ".");
    for (sign, says) in SIGNS {
        text = text.replace(sign, &format!(" {says}"));
    }
    if text.contains('/') {
        text = text.replace('-', " ");
    }
    Number::read(&text).ok()
}

fn amount(pair: &Pair<'_, Rule>) -> Option<u32> {
    number_of(pair.as_str()).and_then(|n| u32::try_from(n).ok())
}
