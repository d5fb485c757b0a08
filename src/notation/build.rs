//! Pairs of the grammar → statements of the tree.

use super::forms::QUOTES;
use super::repair::Understood;
use super::size::{Number, Size, Unit};
use super::tree::{
    Act, Along, Anchor, Claim, Clause, EndVerb, Hand, KindPart, MakePart, Of, Place, Position, RingRef, Side, State,
    What,
};
use crate::notation::Rule;
use crate::text::{Span, Spanned};
use pest::iterators::Pair as PestPair;

type Pair<'i> = PestPair<'i, Rule>;

/// Where the line that is being read stands, to give every pair its place in the file.
pub(super) struct Places<'l> {
    pub source: u16,
    /// Byte of the line's first character.
    pub start: usize,
    pub line: &'l Understood,
}

impl Places<'_> {
    fn span(&self, pair: &Pair<'_>) -> Span {
        let words = pair.as_span();
        // Pest counts the blanks behind an optional part as part of its rule.
        let end = words.start() + words.as_str().trim_end().len();
        Span::new(self.source, self.start + self.line.written(words.start()), self.start + self.line.written(end))
    }

    fn spanned<T>(&self, pair: &Pair<'_>, value: T) -> Spanned<T> {
        Spanned::new(value, self.span(pair))
    }
}

/// What a line's pair says. `None` cannot happen with the grammar as it is.
pub(super) fn statement(at: &Places<'_>, pair: Pair<'_>) -> Option<What> {
    let rule = pair.as_rule();
    let parts = meaningful(pair);
    let first = parts.first();
    Some(match rule {
        Rule::weave_line => What::Weave(quoted(at, first?)?),
        Rule::base_line => What::Base(quoted(at, first?)?),
        Rule::mirrored_line => What::Mirrored,
        Rule::spiral_line => What::Spiral(find(&parts, Rule::hand).and_then(hand)),
        Rule::gauges_line => What::Gauges(unit(first?)?),
        Rule::ring_line => What::Ring {
            names: names(at, &parts),
            kind: find(&parts, Rule::kind_name).map(|p| at.spanned(p, p.as_str().trim().to_owned())),
            state: find(&parts, Rule::state).and_then(state),
        },
        Rule::repeat_line => {
            let sheet = find(&parts, Rule::sheet_names).map(|sheet| meaningful(sheet.clone()));
            What::Repeat(names(at, sheet.as_ref().unwrap_or(&parts)))
        }
        Rule::accent_line => accent(at, &parts)?,
        Rule::pass_line => What::Pass {
            ring: ring(at, first?)?,
            clauses: parts.iter().skip(1).map(|p| clause(at, p)).collect::<Option<_>>()?,
        },
        Rule::lay_line => What::Lay {
            ring: ring(at, first?)?,
            behind: find(&parts, Rule::behind).is_some(),
            of: rings(at, parts.get(2..)?)?,
        },
        Rule::fold_line => What::Fold(ring(at, first?)?, ring(at, parts.get(1)?)?),
        Rule::lean_line => What::Lean(hand(first?)?),
        Rule::ends_line => What::Ends,
        Rule::end_line => What::End(end_verb(first?)?, rings(at, parts.get(1..)?)?),
        Rule::rings_line => What::Rings(find(&parts, Rule::quoted).and_then(|p| quoted(at, p))),
        Rule::kind_line => What::Kind {
            name: names(at, &parts).into_iter().next()?,
            parts: parts.iter().skip(1).map(|p| kind_part(at, p)).collect::<Option<_>>()?,
        },
        Rule::colours_line => What::Colours,
        Rule::colour_line => colours(at, &parts)?,
        Rule::make_heading => What::Make,
        Rule::make_line => match find(&parts, Rule::bag) {
            Some(of) => bag(at, of)?,
            None => What::MakePart(parts.iter().map(|p| make_part(at, p)).collect::<Option<_>>()?),
        },
        Rule::claim_line => {
            let of = find(&parts, Rule::claim_of).map_or(Some(Of::Piece), |p| claim_of(at, p))?;
            What::Claim(claim(at, &inside(first?)?)?, of)
        }
        _ => return None,
    })
}

fn colours(at: &Places<'_>, parts: &[Pair<'_>]) -> Option<What> {
    let by = find(parts, Rule::by).map(|p| match meaningful_all(p.clone()).last().map(Pair::as_rule) {
        Some(Rule::kw_column) => Along::Column,
        _ => Along::Row,
    });
    let colours = parts.iter().filter(|p| p.as_rule() == Rule::colour).map(|p| unquoted(p.as_str())).collect();
    Some(What::Colour { family: names(at, parts).into_iter().next()?, by, colours })
}

/// What is inside a pair, without punctuation, the end of the line and words that only mark the form.
fn meaningful(pair: Pair<'_>) -> Vec<Pair<'_>> {
    meaningful_all(pair).into_iter().filter(|p| !is_mark(p.as_rule())).collect()
}

fn meaningful_all(pair: Pair<'_>) -> Vec<Pair<'_>> {
    use Rule::{EOI, close_round, close_square, colon, comma, open_round, open_square, percent};
    let punctuation = [EOI, comma, percent, colon, open_round, close_round, open_square, close_square];
    pair.into_inner().filter(|p| !punctuation.contains(&p.as_rule())).collect()
}

/// Whether a word only marks the form of its line: all do but those that are read here by their own rule.
fn is_mark(rule: Rule) -> bool {
    use Rule::{
        kw_accent, kw_add, kw_all, kw_close, kw_closed, kw_drop, kw_far, kw_last, kw_left, kw_near, kw_open, kw_right,
    };
    let read = [kw_add, kw_all, kw_close, kw_closed, kw_drop, kw_far, kw_last, kw_left, kw_near, kw_open, kw_right];
    // The words are the last rules of the grammar, in alphabetical order.
    rule >= kw_accent && !read.contains(&rule)
}

fn find<'p, 'i>(parts: &'p [Pair<'i>], rule: Rule) -> Option<&'p Pair<'i>> {
    parts.iter().find(|p| p.as_rule() == rule)
}

fn inside<'i>(pair: &Pair<'i>) -> Option<Pair<'i>> {
    meaningful(pair.clone()).into_iter().next()
}

fn names(at: &Places<'_>, parts: &[Pair<'_>]) -> Vec<Spanned<String>> {
    let named = parts.iter().filter(|p| p.as_rule() == Rule::name);
    named.map(|p| at.spanned(p, p.as_str().to_owned())).collect()
}

fn unquoted(text: &str) -> String {
    text.trim().trim_matches(QUOTES).split_whitespace().collect::<Vec<_>>().join(" ")
}

fn quoted(at: &Places<'_>, pair: &Pair<'_>) -> Option<Spanned<String>> {
    (pair.as_rule() == Rule::quoted).then(|| at.spanned(pair, unquoted(pair.as_str())))
}

fn state(pair: &Pair<'_>) -> Option<State> {
    match inside(pair)?.as_rule() {
        Rule::kw_closed => Some(State::Closed),
        Rule::kw_open => Some(State::Open),
        _ => None,
    }
}

fn hand(pair: &Pair<'_>) -> Option<Hand> {
    match inside(pair)?.as_rule() {
        Rule::kw_left => Some(Hand::Left),
        Rule::kw_right => Some(Hand::Right),
        _ => None,
    }
}

fn count(at: &Places<'_>, pair: &Pair<'_>) -> Option<Spanned<u32>> {
    pair.as_str().trim().parse().ok().map(|n| at.spanned(pair, n))
}

fn counts(at: &Places<'_>, parts: &[Pair<'_>]) -> Option<Vec<Spanned<u32>>> {
    parts.iter().filter(|p| p.as_rule() == Rule::count).map(|p| count(at, p)).collect()
}

fn accent(at: &Places<'_>, parts: &[Pair<'_>]) -> Option<What> {
    // A sheet has its two numbers in a rule of their own.
    let numbers = |parts: &[Pair<'_>], sheet: Rule| match find(parts, sheet) {
        Some(sheet) => counts(at, &meaningful(sheet.clone())),
        None => counts(at, parts),
    };
    let from = find(parts, Rule::accent_from).map(|from| meaningful(from.clone()));
    Some(What::Accent {
        every: numbers(parts, Rule::sheet_period)?,
        from: numbers(&from.unwrap_or_default(), Rule::sheet_start)?,
    })
}

fn ring(at: &Places<'_>, pair: &Pair<'_>) -> Option<RingRef> {
    if pair.as_rule() != Rule::ring {
        return None;
    }
    let parts = meaningful(pair.clone());
    let family = names(at, &parts).into_iter().next()?;
    let index = match find(&parts, Rule::index) {
        Some(index) => meaningful(index.clone()).iter().map(|p| position(at, p)).collect::<Option<_>>()?,
        None => Vec::new(),
    };
    Some(RingRef { family, index, span: at.span(pair) })
}

fn rings(at: &Places<'_>, parts: &[Pair<'_>]) -> Option<Vec<RingRef>> {
    parts.iter().map(|p| ring(at, p)).collect()
}

fn position(at: &Places<'_>, pair: &Pair<'_>) -> Option<Position> {
    let parts = meaningful(pair.clone());
    let first = parts.first()?;
    let anchor = match first.as_rule() {
        Rule::kw_last => Anchor::Last,
        Rule::kw_all => Anchor::All,
        Rule::count => Anchor::Number(first.as_str().trim().parse().ok()?),
        Rule::name => Anchor::Name(first.as_str().to_owned()),
        _ => return None,
    };
    let step = match find(&parts, Rule::step) {
        Some(step) => {
            let size: i32 = inside(step)?.as_str().trim().parse().ok()?;
            if step.as_str().starts_with('-') { -size } else { size }
        }
        None => 0,
    };
    Some(Position { anchor, step, span: at.span(pair) })
}

fn eye(at: &Places<'_>, pair: &Pair<'_>) -> Option<Place> {
    let parts = meaningful(pair.clone());
    Some(Place::Eye(ring(at, parts.first()?)?, ring(at, parts.get(1)?)?, at.span(pair)))
}

fn place(at: &Places<'_>, pair: &Pair<'_>) -> Option<Place> {
    match pair.as_rule() {
        Rule::eye => eye(at, pair),
        Rule::ring => ring(at, pair).map(Place::Ring),
        Rule::place => place(at, &inside(pair)?),
        _ => None,
    }
}

fn clause(at: &Places<'_>, pair: &Pair<'_>) -> Option<Clause> {
    let act_pair = inside(pair)?;
    let parts = meaningful(act_pair.clone());
    let places = || parts.iter().map(|p| place(at, p)).collect::<Option<Vec<_>>>();
    let act = match act_pair.as_rule() {
        Rule::through => Act::Through(places()?),
        Rule::around => Act::Around(places()?),
        Rule::down => Act::Down(places()?),
        Rule::up => Act::Up(places()?),
        Rule::over => Act::Over(rings(at, &parts)?),
        Rule::under => Act::Under(rings(at, &parts)?),
        Rule::between => Act::Between(ring(at, parts.first()?)?, ring(at, parts.get(1)?)?),
        Rule::side => Act::Side(match parts.first()?.as_rule() {
            Rule::kw_far => Side::Far,
            _ => Side::Near,
        }),
        _ => return None,
    };
    Some(Clause { act, span: at.span(&act_pair) })
}

fn end_verb(pair: &Pair<'_>) -> Option<EndVerb> {
    Some(match pair.as_rule() {
        Rule::kw_add => EndVerb::Add,
        Rule::kw_drop => EndVerb::Drop,
        Rule::kw_close => EndVerb::Close,
        Rule::kw_open => EndVerb::Open,
        _ => return None,
    })
}

fn number(pair: &Pair<'_>) -> Option<Number> {
    Number::read(pair.as_str().trim()).ok()
}

fn unit(pair: &Pair<'_>) -> Option<Unit> {
    Unit::named(pair.as_str().trim())
}

fn size(at: &Places<'_>, pair: &Pair<'_>) -> Option<Size> {
    let parts = meaningful_all(pair.clone());
    Some(Size::new(number(parts.first()?)?, unit(parts.get(1)?)?, at.span(pair)))
}

fn kind_part(at: &Places<'_>, pair: &Pair<'_>) -> Option<Spanned<KindPart>> {
    let part = inside(pair)?;
    let parts = meaningful(part.clone());
    let again = || find(&parts, Rule::also).and_then(|also| size(at, &inside(also)?));
    let value = match part.as_rule() {
        Rule::wire => KindPart::Wire(size(at, parts.first()?)?, again()),
        Rule::inner => KindPart::Inner(size(at, parts.first()?)?, again()),
        Rule::measured_wire => KindPart::MeasuredWire(size(at, parts.first()?)?),
        Rule::measured_inner => KindPart::MeasuredInner(size(at, parts.first()?)?),
        Rule::aspect_ratio => KindPart::AspectRatio(number(parts.first()?)?, unit_behind(at, &parts)),
        Rule::quoted => KindPart::Colour(unquoted(part.as_str())),
        Rule::material => KindPart::Material(unquoted(part.as_str())),
        _ => return None,
    };
    Some(at.spanned(&part, value))
}

fn unit_behind(at: &Places<'_>, parts: &[Pair<'_>]) -> Option<Spanned<Unit>> {
    find(parts, Rule::unit).and_then(|p| unit(p).map(|u| at.spanned(p, u)))
}

fn make_part(at: &Places<'_>, pair: &Pair<'_>) -> Option<Spanned<MakePart>> {
    let part = inside(pair)?;
    let parts = meaningful(part.clone());
    let first = parts.first()?;
    let value = match part.as_rule() {
        Rule::make_length => MakePart::Length(size(at, first)?),
        Rule::make_clasp => MakePart::Clasp(size(at, first)?),
        Rule::make_repeats => MakePart::Repeats(count(at, first)?.value),
        Rule::make_rows => MakePart::Rows(count(at, first)?.value),
        Rule::make_columns => MakePart::Columns(count(at, first)?.value),
        Rule::make_pieces => MakePart::Pieces(count(at, first)?.value),
        Rule::make_height => MakePart::Height(size(at, first)?),
        Rule::make_width => MakePart::Width(size(at, first)?),
        Rule::make_spares => MakePart::Spares(number(first)?),
        Rule::measured => MakePart::Measured(count(at, first)?.value, size(at, parts.get(1)?)?),
        _ => return None,
    };
    Some(at.spanned(&part, value))
}

fn bag(at: &Places<'_>, pair: &Pair<'_>) -> Option<What> {
    let parts = meaningful(pair.clone());
    let (mut rings, mut made) = (Vec::new(), Vec::new());
    for part in parts.iter().filter(|p| p.as_rule() == Rule::bag_part) {
        let inner = inside(part)?;
        match inner.as_rule() {
            Rule::bag_rings => rings.push(quoted(at, find(&meaningful(inner), Rule::quoted)?)?),
            _ => made.push(make_part(at, &inner)?),
        }
    }
    Some(What::Bag { name: quoted(at, parts.first()?)?, rings, parts: made })
}

fn claim_of(at: &Places<'_>, pair: &Pair<'_>) -> Option<Of> {
    let parts = meaningful(pair.clone());
    Some(match find(&parts, Rule::quoted) {
        Some(name) => Of::Bag(quoted(at, name)?),
        None => Of::All(at.span(pair)),
    })
}

fn claim(at: &Places<'_>, pair: &Pair<'_>) -> Option<Claim> {
    let parts = meaningful(pair.clone());
    let first = parts.first();
    let named = || find(&parts, Rule::claim_for).map(|p| names(at, &meaningful(p.clone()))).unwrap_or_default();
    Some(match pair.as_rule() {
        Rule::claim_lean => Claim::Lean(hand(first?)?, find(&parts, Rule::upright).is_some()),
        Rule::claim_ar => Claim::AspectRatio { number: number(first?)?, unit: unit_behind(at, &parts), kinds: named() },
        Rule::claim_length => Claim::Length(size(at, first?)?),
        Rule::claim_pitch => Claim::Pitch(size(at, first?)?),
        Rule::claim_weight => Claim::Weight(number(first?)?),
        Rule::claim_fits => Claim::Fits,
        Rule::claim_straight => Claim::Straight,
        Rule::claim_weave => Claim::Weave(quoted(at, first?)?),
        Rule::claim_in => {
            Claim::In { links: count(at, first?)?, together: count(at, parts.get(1)?)?, families: named() }
        }
        Rule::claim_rings => Claim::Rings {
            count: count(at, first?)?,
            which: find(&parts, Rule::ring_word).map(|p| at.spanned(p, p.as_str().trim().to_owned())),
        },
        _ => return None,
    })
}
