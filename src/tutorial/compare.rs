//! Sizes and lengths of a text compared with the weave's own, and with where its rings can lie.

use super::claims::{Meant, Read};
use super::mention::{Mark, Mention};
use super::passage::Sort;
use super::several::sizes_of_sets;
use super::sizes::Line;
use crate::count::LengthCount;
use crate::lint::{self, ClaimLength, RingsTooSmall, Rule, StepMiscounted, WireAndInnerSwapped, WrongSize};
use crate::measure::{gives, half_step, length_mm, millimetres};
use crate::notation::{Claim, Number, Size, Unit};
use crate::pattern::{Kind, KindSize, Lattice, Repeats, sizes, some_stretch};
use crate::report::Diagnostic;
use crate::steps::Order;
use crate::text::{Span, Spanned};
use crate::weave::Weave;
use std::cell::OnceCell;
use std::collections::BTreeMap;

/// A text compared with its weave: what is found so far.
pub struct Comparison<'w> {
    weave: &'w Weave,
    own: Vec<KindSize>,
    /// The sizes of its other sets of rings.
    sets: Vec<KindSize>,
    /// Sizes the text gives for kinds without sizes in the weave, by kind.
    told: BTreeMap<String, Kind>,
    /// How many rings must be closed before the start, once somebody asks.
    least_closed: OnceCell<Option<usize>>,
    /// How many more lengths are worked out from a number of rings.
    lengths_left: u32,
    found: Found,
}

/// Findings, and claims for the rules on claims.
#[derive(Default)]
pub struct Found {
    pub findings: Vec<Diagnostic>,
    pub claims: Vec<Spanned<Claim>>,
}

/// A length is wrong when it is off by more than this part of it, and by more than a repeat: rings vary, and a chain gives.
const LENGTH_GIVES: f64 = 0.05;
/// Below a floor by less than this part is not surely below it.
const FLOOR_GIVES: f64 = 5e-3;
/// The most rings a number of which is turned into a length.
const MOST_RINGS: u32 = 2000;
/// The most times that is done for one text.
const MOST_LENGTHS: u32 = 20;

impl<'w> Comparison<'w> {
    /// Nothing is found yet.
    pub fn new(weave: &'w Weave) -> Self {
        let own = sizes(weave.pattern());
        let (least_closed, lengths_left) = (OnceCell::new(), MOST_LENGTHS);
        let sets = sizes_of_sets(weave);
        Self { weave, own, sets, told: BTreeMap::new(), least_closed, lengths_left, found: Found::default() }
    }

    /// Sizes of a passage: of rings it names against theirs; of others against the floor.
    pub fn sizes(&mut self, read: &Read<'_>, lines: &[Line]) {
        for line in lines {
            self.hole_called_wire(line);
        }
        let listed = matches!(read.passage.sort, Sort::Item | Sort::Row);
        let ([line], rings) = (lines, read.rings()) else { return };
        let kind = match rings.as_slice() {
            [(count, which, _)]
                if listed && (count.is_some() || matches!(which.word(self.weave.pattern()), Meant::These(_))) =>
            {
                which.kind(self.weave.pattern())
            }
            _ => None,
        };
        // Rings for something else; those with a letter are the weave's own.
        let lettered = matches!(rings.as_slice(), [(_, which, _)] if which.has_letter());
        if read.has(Mark::OtherThing) && !lettered {
            return;
        }
        match kind {
            Some(kind) if self.own.iter().any(|k| k.name == kind && (k.wire_mm.is_some() || k.inner_mm.is_some())) => {
                self.against_own(line, &kind);
            }
            Some(kind) => {
                let wire = line.wire.as_ref().map(|w| w.value.clone());
                let inner = line.inner.as_ref().map(|i| i.value.clone());
                if let (Some(_), Some(_), Some(span)) = (&wire, &inner, line.span()) {
                    let own = self.weave.pattern().kind(&kind);
                    let told = Kind {
                        name: kind.clone(),
                        span: Some(span),
                        wire,
                        inner,
                        material: own.and_then(|k| k.material.clone()),
                        colour: own.and_then(|k| k.colour.clone()),
                        ..Kind::default()
                    };
                    self.told.entry(kind).or_insert(told);
                }
            }
            None if !read.vague() && (listed || read.has(Mark::Ours)) => {
                self.against_floor(line);
            }
            None => {}
        }
    }

    /// A wire of the weave that is called an inner diameter, or the other way round.
    fn hole_called_wire(&mut self, line: &Line) {
        let near = |a: [Option<f64>; 2], b: f64| a.into_iter().flatten().any(|a| (a - b).abs() <= 0.05);
        let whole = self.own.iter().all(|k| k.wire_mm.is_some() && k.inner_mm.is_some());
        if !whole || self.own.is_empty() || line.wire.is_some() && line.inner.is_some() {
            return;
        }
        let swapped = |size: &Size,
                       called: &str,
                       is: &str,
                       right: &dyn Fn(&KindSize) -> [Option<f64>; 2],
                       other: &dyn Fn(&KindSize) -> [Option<f64>; 2]| {
            let mm = millimetres(size)?;
            let kind = self.own.iter().find(|k| near(other(k), mm))?;
            let has = right(kind).into_iter().flatten().next()?;
            (!self.own.iter().chain(&self.sets).any(|k| near(right(k), mm))).then(|| {
                let message = format!(
                    "the text calls {mm:.2} mm the {called}; it is the {is} of `{}`, whose {called} is {has:.2} mm",
                    kind.name
                );
                WireAndInnerSwapped::at(size.span, message)
                    .label(format!("the {is}"))
                    .help("wire is the thickness of the wire, inner the diameter of the hole")
            })
        };
        // As sold, and as measured.
        let wire = |k: &KindSize| [k.nominal_wire_mm, k.wire_mm];
        let inner = |k: &KindSize| [k.nominal_inner_mm, k.inner_mm];
        let found = match (&line.wire, &line.inner) {
            (Some(told), None) => swapped(&told.value.0, "wire", "inner diameter", &wire, &inner),
            (None, Some(told)) => swapped(&told.value.0, "inner diameter", "wire", &inner, &wire),
            _ => None,
        };
        self.found.findings.extend(found);
    }

    /// Sizes of a kind in the text, compared with those in the weave: as its rings are sold, or as they were measured.
    fn against_own(&mut self, line: &Line, kind: &str) {
        if self.sets.iter().any(|set| set.name == kind && told_of(line, set)) {
            return;
        }
        let Some(own) = self.own.iter().find(|k| k.name == kind) else { return };
        let place = self.weave.pattern().kind(kind).and_then(|k| k.span);
        let parts = [
            ("wire", &line.wire, own.nominal_wire_mm, own.wire_mm),
            ("inner diameter", &line.inner, own.nominal_inner_mm, own.inner_mm),
        ];
        for (what, told, sold, counts) in parts {
            let (Some(told), Some(counts)) = (told, counts) else { continue };
            let right = sold.unwrap_or(counts);
            let Some(mm) = millimetres(&told.value.0) else { continue };
            if [right, counts].into_iter().any(|size| (mm - size).abs() <= gives(&told.value.0)) {
                continue;
            }
            let measured =
                if (right - counts).abs() < 1e-9 { String::new() } else { format!(" (measured {counts:.2} mm)") };
            let message =
                format!("the text says {what} {mm:.2} mm for `{kind}`; the weave says {right:.2} mm{measured}");
            let found = WrongSize::at(told.value.0.span, message).label(format!("the weave: {right:.2} mm"));
            let found = match place {
                Some(place) => found.related(place, "its size in the weave"),
                None => found,
            };
            self.found.findings.push(found.help("write the size the rings have, here or in the weave"));
        }
        if let (Some(ratio), Some(right), None) =
            (&line.ratio, own.aspect_ratio, line.wire.as_ref().or(line.inner.as_ref()))
        {
            let kinds = vec![Spanned::new(kind.to_owned(), ratio.span)];
            let claim = Claim::AspectRatio { number: ratio.value.0.clone(), unit: None, kinds };
            // What a student is told to buy may go by the sizes rings are sold by.
            if right > 0.0 && !own.is_sold_as(&ratio.value.0) {
                self.found.claims.push(Spanned::new(claim, ratio.span));
            }
        }
    }

    /// Rings all of one size against the floor of a weave of one kind.
    fn against_floor(&mut self, line: &Line) {
        let size = |written: &Option<super::sizes::Written>| written.as_ref().and_then(|w| millimetres(&w.value.0));
        let by_size = size(&line.wire).zip(size(&line.inner)).map(|(wire, inner)| inner / wire);
        let Some(ratio) = by_size.or_else(|| line.ratio.as_ref().map(|r| r.value.0.value)) else { return };
        let (Some(span), Ok(settled)) = (line.span(), self.weave.settled()) else { return };
        let [floor] = settled.floors.as_slice() else { return };
        // A ratio of these rings is compared with theirs.
        let known = self.own.iter().any(|k| k.aspect_ratio.is_some()) && by_size.is_none();
        if known || some_stretch(self.weave.pattern()) || ratio <= 1.0 || ratio >= floor.found * (1.0 - FLOOR_GIVES) {
            return;
        }
        let proof =
            if floor.proved > 0.0 { format!(" and never below {:.3} (proved)", floor.proved) } else { String::new() };
        let message = format!(
            "the text says rings of AR {ratio:.2}; {} closes from AR {:.3} on (found){proof}",
            self.weave.name(),
            floor.found
        );
        self.found.findings.push(
            RingsTooSmall::at(span, message)
                .label(format!("AR {ratio:.3}"))
                .help("a larger inner diameter, or thinner wire"),
        );
    }

    /// How many rings must be closed before the start, and lengths.
    pub fn words(&mut self, read: &Read<'_>) {
        self.least_closed(read);
        self.length(read);
    }

    /// "At least two rings must be closed before you start."
    fn least_closed(&mut self, read: &Read<'_>) {
        if !(read.has(Mark::Least) && (read.has(Mark::Before) || read.has(Mark::Starting))) {
            return;
        }
        let rings = read.rings();
        let [(Some(count), _, words)] = rings.as_slice() else { return };
        let order = || {
            let piece = self.weave.piece(self.weave.size()).ok()?;
            Some(Order::of(self.weave.pattern(), &piece).ok()?.least_closed())
        };
        let Some(right) = *self.least_closed.get_or_init(order) else { return };
        if usize::try_from(*count).is_ok_and(|n| n != right) {
            let said = crate::text::count(*count, "ring");
            let message = format!("the text says at least {said} must be closed first; it takes {right}");
            let found = StepMiscounted::at((read.at)(words.clone()), message);
            self.found.findings.push(found.label(format!("{right}")));
        }
    }

    /// A length, where it is surely that of the piece, and surely another.
    fn length(&mut self, read: &Read<'_>) {
        let lengths = read.mentions.iter().filter_map(|(mention, _)| match mention {
            Mention::Length(sized) => Some(sized),
            _ => None,
        });
        let lengths: Vec<_> = lengths.collect();
        let ([sized], Lattice::Chain) = (lengths.as_slice(), self.weave.pattern().lattice) else { return };
        let off = [Mark::Doubt, Mark::Least, Mark::OtherThing].into_iter().any(|m| read.has(m));
        if off || read.passage.sort == Sort::Row || !read.has(Mark::Piece) {
            return;
        }
        let scale = match sized.measure {
            super::mention::Measure::Mm => 1.0,
            super::mention::Measure::Cm => 10.0,
            super::mention::Measure::Inch => 25.4,
            _ => return,
        };
        let mm = sized.number.value * scale;
        let count = match read.rings().as_slice() {
            [(Some(count), which, _)] if which.word(self.weave.pattern()) == Meant::Any => Some(*count),
            _ => None,
        };
        let (size, counted) = match (self.weave.size_asked(), count) {
            (Some(size), _) => (size, None),
            (None, Some(count)) if self.lengths_left > 0 => match self.with_rings(count) {
                Some(size) => (size, Some(count)),
                None => return,
            },
            _ => return,
        };
        let Some(length) = LengthCount::of(self.weave, size) else { return };
        let gives = length.pitch_mm.max(LENGTH_GIVES * length.length_mm);
        if (length.length_mm - mm).abs() <= gives {
            return;
        }
        let span = (read.at)(sized.words.clone());
        if let Some(count) = counted {
            let message = format!(
                "the text says {count} rings make {mm:.0} mm; at {:.2} mm per repeat they make {:.0} mm",
                length.pitch_mm, length.length_mm
            );
            self.found.findings.push(ClaimLength::warning(span, message).label("another length"));
            return;
        }
        // As it would be claimed: in mm, to the whole millimetre.
        let number = Number { text: format!("{mm:.0}"), value: mm };
        let size = Size::new(number, Unit::Mm, span);
        if length_mm(&size).is_some() {
            self.found.claims.push(Spanned::new(Claim::Length(size), span));
        }
    }

    /// The repeats of a chain with this number of rings.
    fn with_rings(&mut self, count: u32) -> Option<Repeats> {
        self.lengths_left -= 1;
        if count > MOST_RINGS {
            return None;
        }
        (1..=count)
            .map(|n| Repeats([n, 1]))
            .find(|size| self.weave.piece(*size).is_ok_and(|p| p.graph.node_count() >= count as usize))
            .filter(|size| self.weave.piece(*size).is_ok_and(|p| p.graph.node_count() == count as usize))
    }

    /// All that is found. Where the text alone gives the sizes of all rings, the weave is settled with them.
    pub fn done(mut self) -> Found {
        self.found.findings.truncate(lint::MOST_FINDINGS);
        let kinds: Vec<&str> = self.weave.pattern().families.iter().map(|f| f.kind.as_str()).collect();
        if self.own.iter().all(|k| k.aspect_ratio.is_none())
            && !self.told.is_empty()
            && kinds.iter().all(|k| self.told.contains_key(*k))
        {
            let sized = self.weave.with_kinds(self.told.values().cloned().collect());
            let here = |span: Span| self.told.values().any(|k| k.span == Some(span));
            let on_sizes = |f: &Diagnostic| here(f.span) || f.related.iter().any(|(span, _)| here(*span));
            let findings = lint::of_fit(&sized);
            self.found
                .findings
                .extend(findings.into_iter().filter(on_sizes).map(|finding| at_its_size(finding, &here)));
        }
        self.found
    }
}

/// Whether all that a line tells is so of a size: as rings are sold, or as they were measured.
fn told_of(line: &Line, size: &KindSize) -> bool {
    let near = |told: &Option<super::sizes::Written>, sold: Option<f64>, counts: Option<f64>| {
        let Some(told) = told else { return true };
        let mm = millimetres(&told.value.0);
        [sold, counts].into_iter().flatten().any(|size| mm.is_some_and(|mm| (mm - size).abs() <= gives(&told.value.0)))
    };
    let ratio = line.ratio.as_ref().is_none_or(|told| {
        let number = &told.value.0;
        let counts = size.aspect_ratio.is_some_and(|r| (r - number.value).abs() <= half_step(number) + 1e-9);
        counts || size.is_sold_as(number)
    });
    near(&line.wire, size.nominal_wire_mm, size.wire_mm)
        && near(&line.inner, size.nominal_inner_mm, size.inner_mm)
        && ratio
}

/// Puts a finding on an accent at the words that give its size.
fn at_its_size(mut finding: Diagnostic, here: &dyn Fn(Span) -> bool) -> Diagnostic {
    if !here(finding.span)
        && let Some(at) = finding.related.iter().position(|(span, _)| here(*span))
    {
        let (span, _) = finding.related.remove(at);
        finding.span = span;
    }
    finding
}
