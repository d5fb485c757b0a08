//! Sizes a passage tells → lines as `rings` has them, so that the same rules look at them.

use super::mention::{Measure, Mention, Precision, Sized, Sizes};
use super::passage::{Passage, Sort};
use crate::lint::{GaugeDisagrees, InchDisagrees, Rule};
use crate::measure::{Twice, awg_mm, swg_mm, twice};
use crate::notation::{KindPart, Number, Size, Unit};
use crate::report::Diagnostic;
use crate::text::{Span, Spanned};
use std::ops::Range;

/// A size, and the same again where it is written twice.
pub type Written = Spanned<(Size, Option<Size>)>;

/// An aspect ratio, and a unit it should not have.
pub type Ratio = Spanned<(Number, Option<Spanned<Unit>>)>;

/// Sizes that are told together.
#[derive(Clone, Debug, Default)]
pub struct Line {
    /// The wire.
    pub wire: Option<Written>,
    /// The inner diameter.
    pub inner: Option<Written>,
    /// The aspect ratio, and a unit it should not have.
    pub ratio: Option<Ratio>,
}

impl Line {
    /// The same as parts of a line of `rings`.
    pub fn parts(&self) -> Vec<Spanned<KindPart>> {
        let wire = self.wire.iter().map(|w| Spanned::new(KindPart::Wire(w.value.0.clone(), w.value.1.clone()), w.span));
        let inner =
            self.inner.iter().map(|i| Spanned::new(KindPart::Inner(i.value.0.clone(), i.value.1.clone()), i.span));
        let ratio = self.ratio.iter().map(|r| {
            let (number, unit) = r.value.clone();
            Spanned::new(KindPart::AspectRatio(number, unit), r.span)
        });
        wire.chain(inner).chain(ratio).collect()
    }

    /// The place of its words.
    pub fn span(&self) -> Option<Span> {
        self.parts().iter().map(|p| p.span).reduce(Span::to)
    }
}

/// What a size measures.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Role {
    Wire,
    Inner,
    /// Not said: a length written twice.
    Something,
}

/// The sizes a passage tells: lines, and what is wrong with how they are written. `at` gives the span of words of it.
pub fn sizes(
    passage: &Passage,
    mentions: &[(Mention, Range<usize>)],
    at: &dyn Fn(Range<usize>) -> Span,
) -> (Vec<Line>, Vec<Diagnostic>) {
    let mut reader = Reader { passage, at, findings: Vec::new() };
    let mut found: Vec<(Role, Written, Range<usize>)> = Vec::new();
    let mut ratios = Vec::new();
    for (mention, words) in mentions {
        let told = match mention {
            Mention::Wire(sizes) => reader.told(sizes, Some(Role::Wire)),
            Mention::Inner(sizes) => reader.told(sizes, Some(Role::Inner)),
            Mention::Bare(sizes) => reader.told(sizes, None),
            Mention::Ratio { number, precision, unit } => {
                let unit = unit.as_ref().map(|unit| {
                    let inch = passage.words.get(unit.clone()).is_some_and(|w| w.to_lowercase().starts_with("in"));
                    Spanned::new(if inch { Unit::Inch } else { Unit::Mm }, at(unit.clone()))
                });
                if unit.is_some() || *precision == Precision::Exact {
                    ratios.push((*precision, Spanned::new((number.clone(), unit), at(words.clone()))));
                }
                None
            }
            _ => None,
        };
        found.extend(told.map(|(role, written)| (role, written, words.clone())));
    }
    reader.same_wire(&mut found);
    (lines(found, ratios), reader.findings)
}

/// Sizes that belong together: one wire, one inner diameter, one aspect ratio; else each by itself.
fn lines(found: Vec<(Role, Written, Range<usize>)>, ratios: Vec<(Precision, Ratio)>) -> Vec<Line> {
    let count = |role| found.iter().filter(|f| f.0 == role).count();
    let together = count(Role::Wire) <= 1 && count(Role::Inner) <= 1 && ratios.len() <= 1;
    let mut whole = Line::default();
    let mut alone = Vec::new();
    for (role, written, _) in found {
        match role {
            Role::Wire if together => whole.wire = Some(written),
            Role::Inner if together => whole.inner = Some(written),
            Role::Wire => alone.push(Line { wire: Some(written), ..Line::default() }),
            Role::Inner | Role::Something => alone.push(Line { inner: Some(written), ..Line::default() }),
        }
    }
    for (precision, ratio) in ratios {
        if together && precision == Precision::Exact {
            whole.ratio = Some(ratio);
        } else {
            alone.push(Line { ratio: Some(ratio), ..Line::default() });
        }
    }
    if whole.span().is_some() {
        alone.insert(0, whole);
    }
    alone
}

/// Ratios of two sizes side by side that mean one size: a wire and a hole are never this close.
const ALIKE: std::ops::RangeInclusive<f64> = 0.55..=1.8;
/// The same where the text says what both measure.
const PERHAPS_ALIKE: std::ops::RangeInclusive<f64> = 0.4..=2.5;
/// How far "about" reaches.
const ABOUT: f64 = 0.12;
/// Nobody makes rings of thicker wire, mm.
const THICKEST: f64 = 12.0;
/// No ring has a wider hole, mm; a larger number of inches was a fraction.
const WIDEST: f64 = 50.0;

struct Reader<'p> {
    passage: &'p Passage,
    at: &'p dyn Fn(Range<usize>) -> Span,
    findings: Vec<Diagnostic>,
}

impl Reader<'_> {
    fn told(&mut self, sizes: &Sizes, role: Option<Role>) -> Option<(Role, Written)> {
        let mut size = sizes.size.clone();
        let mut again = sizes.again.clone();
        match &mut again {
            Some((other, _)) => {
                self.fraction_with_a_dot(&mut size, Some(other));
                self.fraction_with_a_dot(other, Some(&size));
            }
            None if role.is_some() => self.fraction_with_a_dot(&mut size, None),
            None => {}
        }
        let Some((other, precision)) = again else {
            // A gauge that is called an inner diameter is none.
            let role = role.or(is_gauge(&size).then_some(Role::Wire))?;
            let (written, span) = (self.size(&size)?, (self.at)(size.words.clone()));
            // So long a wire is no wire of rings, but a length of it.
            let long = role == Role::Wire && crate::measure::millimetres(&written).is_some_and(|mm| mm > THICKEST);
            return (!long).then(|| (role, Spanned::new((written, None), span)));
        };
        let whole = (self.at)(size.words.start.min(other.words.start)..size.words.end.max(other.words.end));
        for (gauge, beside) in [(&size, &other), (&other, &size)] {
            if gauge.measure == Measure::Gauge {
                self.unnamed_gauge(gauge, beside, precision, whole);
                let written = (self.size(beside)?, None);
                return Some((Role::Wire, Spanned::new(written, (self.at)(beside.words.clone()))));
            }
        }
        let (one, two) = (self.size(&size)?, self.size(&other)?);
        let (gauge, other_gauge) = (is_gauge(&size), is_gauge(&other));
        let parts = crate::measure::millimetres(&two)? / crate::measure::millimetres(&one)?;
        let comparable = size.measure != other.measure && !(gauge && other_gauge);
        let surely = role.is_some() && !gauge && !other_gauge && PERHAPS_ALIKE.contains(&parts);
        if role == Some(Role::Inner) && gauge {
            return Some((Role::Inner, Spanned::new((one, None), (self.at)(size.words.clone()))));
        }
        if !comparable || !(ALIKE.contains(&parts) || surely) {
            // A wire by its gauge, and something else beside it.
            let span = (self.at)(size.words.clone());
            return gauge.then(|| (Role::Wire, Spanned::new((one, None), span)));
        }
        let role = if gauge || other_gauge { Role::Wire } else { role.unwrap_or(Role::Something) };
        // Things larger than rings are not measured so finely.
        let large = crate::measure::millimetres(&one).is_some_and(|mm| mm > WIDEST);
        let loosely = (precision == Precision::Loose || large) && (parts - 1.0).abs() <= ABOUT;
        Some((role, Spanned::new((one, (!loosely).then_some(two)), whole)))
    }

    fn size(&self, sized: &Sized) -> Option<Size> {
        let unit = match sized.measure {
            Measure::Mm => Unit::Mm,
            Measure::Inch => Unit::Inch,
            Measure::Awg => Unit::Awg,
            Measure::Swg => Unit::Swg,
            Measure::Cm | Measure::Gauge => return None,
        };
        Some(Size::new(sized.number.clone(), unit, (self.at)(sized.words.clone())))
    }

    /// "7.32 inch" beside 5.56 mm, or as a hole: the fraction was written with a dot.
    fn fraction_with_a_dot(&mut self, sized: &mut Sized, beside: Option<&Sized>) {
        let Some(fraction) = as_fraction(sized) else { return };
        let (written, meant) = (sized.number.value * 25.4, fraction.value * 25.4);
        let words = |s: &Sized| self.passage.words.get(s.words.clone()).unwrap_or("").to_owned();
        let evidence = match beside.map(|b| (b, self.size(b))) {
            Some((beside, Some(other))) => {
                let as_inches = |number: &Number| Size::new(number.clone(), Unit::Inch, other.span);
                let agrees = |number| twice(&as_inches(number), &other) == Twice::Agree;
                if agrees(&sized.number) || !agrees(&fraction) {
                    return;
                }
                format!("but the text says {} beside it", words(beside))
            }
            None if written > WIDEST && meant < WIDEST => "wider than any ring".to_owned(),
            _ => return,
        };
        let message =
            format!("{} is {written:.1} mm, {evidence}; {} inch is {meant:.3} mm", words(sized), fraction.text);
        self.findings.push(
            InchDisagrees::at((self.at)(sized.words.clone()), message)
                .label("a fraction written with a dot")
                .fix(format!("write `{}`", fraction.text), (self.at)(sized.digits.clone()), fraction.text.clone())
                // The millimetres beside it leave no doubt.
                .safe(beside.is_some()),
        );
        sized.number = fraction;
    }

    /// A gauge whose system is not said agrees with a wire that either system gives it.
    fn unnamed_gauge(&mut self, gauge: &Sized, beside: &Sized, precision: Precision, whole: Span) {
        let (Some(other), Ok(number)) = (self.size(beside), gauge.number.text.parse::<u32>()) else { return };
        let (Some(awg), Some(swg), Some(mm)) = (awg_mm(number), swg_mm(number), crate::measure::millimetres(&other))
        else {
            return;
        };
        let named = |unit| Size::new(gauge.number.clone(), unit, whole);
        let agrees = |unit| twice(&named(unit), &other) == Twice::Agree;
        let near = |wire: f64| precision == Precision::Loose && (wire / mm - 1.0).abs() <= ABOUT;
        let apart = !ALIKE.contains(&(awg / mm)) && !ALIKE.contains(&(swg / mm));
        if agrees(Unit::Awg) || agrees(Unit::Swg) || near(awg) || near(swg) || apart {
            return;
        }
        let words = self.passage.words.get(beside.words.clone()).unwrap_or("");
        let message =
            format!("{number} gauge is {awg:.3} mm in AWG and {swg:.3} mm in SWG, but the text says {words} beside it");
        self.findings.push(
            GaugeDisagrees::at(whole, message)
                .label("another wire")
                .help("write the wire you measured, and with a gauge its system"),
        );
    }

    /// Two wires in one row, or side by side, in two measures: the same wire twice.
    fn same_wire(&self, found: &mut Vec<(Role, Written, Range<usize>)>) {
        let wires: Vec<usize> = (0..found.len()).filter(|n| found.get(*n).is_some_and(|f| f.0 == Role::Wire)).collect();
        let [one, two] = wires.as_slice() else { return };
        let (Some(first), Some(second)) = (found.get(*one).cloned(), found.get(*two).cloned()) else { return };
        let between = self.passage.words.get(first.2.end..second.2.start).unwrap_or("");
        let between =
            between.trim_matches(|c: char| c.is_whitespace() || matches!(c, ',' | '/' | '=' | '(')).to_lowercase();
        let beside = ["", "that is", "which is", "is"].contains(&between.as_str());
        let (a, b) = (&first.1.value, &second.1.value);
        let gauge = |size: &Size| matches!(size.unit, Unit::Awg | Unit::Swg);
        let mixed = gauge(&a.0) != gauge(&b.0);
        if (beside || self.passage.sort == Sort::Row) && mixed && a.1.is_none() && b.1.is_none() {
            let both = Spanned::new((a.0.clone(), Some(b.0.clone())), first.1.span.to(second.1.span));
            if let Some(slot) = found.get_mut(*one) {
                slot.1 = both;
            }
            found.remove(*two);
        }
    }
}

fn is_gauge(sized: &Sized) -> bool {
    matches!(sized.measure, Measure::Awg | Measure::Swg | Measure::Gauge)
}

/// Inches such as 7.32 that may have been a fraction: 7/32.
fn as_fraction(sized: &Sized) -> Option<Number> {
    let (over, under) = sized.number.text.split_once('.')?;
    let (parts, of): (u32, u32) = (over.parse().ok()?, under.parse().ok()?);
    let sound = sized.measure == Measure::Inch && [2, 4, 8, 16, 32, 64].contains(&of) && parts > 0 && parts < of;
    (sound && parts % 2 == 1).then(|| Number::read(&format!("{parts}/{of}")).ok()).flatten()
}
