//! The sizes there are to choose from: those on a shelf, or those in common use.

use crate::measure::{millimetres, written};
use crate::notation::{Number, Size, Unit};
use crate::settle::RingSize;
use crate::shelf::{Shelf, ShelfRing};
use crate::text::Span;

/// One size of ring, with every line of the shelf that has it.
#[derive(Clone, Debug, PartialEq)]
pub struct Offer {
    /// Wire diameter, mm.
    pub wire_mm: f64,
    /// Inner diameter, mm.
    pub inner_mm: f64,
    /// Wire and inner diameter in words.
    pub words: [String; 2],
    /// The lines of the shelf; none for a size in common use.
    pub rings: Vec<ShelfRing>,
}

impl Offer {
    /// Aspect ratio.
    pub fn ratio(&self) -> f64 {
        self.inner_mm / self.wire_mm
    }

    /// Its core radius and its wire.
    pub(super) fn ring(&self) -> RingSize {
        ring(self.wire_mm, self.inner_mm)
    }

    /// "1.6 mm × 1/4 in (6.35 mm)".
    pub fn size(&self) -> String {
        let [wire, inner] = &self.words;
        format!("{wire} × {inner}")
    }
}

/// The core radius and wire of a ring of this wire and inner diameter, mm.
pub(super) fn ring(wire_mm: f64, inner_mm: f64) -> RingSize {
    RingSize { radius: 0.5 * (inner_mm + wire_mm), wire: wire_mm }
}

/// How much thicker all wires could be, as a part of them, with rings of this aspect ratio in a weave that closes from
/// `floor` on.
pub(super) fn room(ratio: f64, floor: f64) -> f64 {
    (ratio + 1.0) / (floor + 1.0) - 1.0
}

/// All sizes there are to choose from.
#[derive(Clone, Debug)]
pub struct Offers {
    /// Whether they are those of a shelf.
    pub from_shelf: bool,
    /// From the thinnest wire and the smallest ring up.
    pub sizes: Vec<Offer>,
    /// Lines of the shelf that are left out because their rings stretch.
    pub stretching: Vec<ShelfRing>,
}

impl Offers {
    /// The sizes on a shelf; without a shelf those in common use.
    pub fn of(shelf: Option<&Shelf>) -> Self {
        let common = || Self { from_shelf: false, sizes: common_sizes(), stretching: Vec::new() };
        shelf.map_or_else(common, Self::on)
    }

    fn on(shelf: &Shelf) -> Self {
        let stretches = |ring: &ShelfRing| ring.known().is_some_and(|material| material.stretches);
        let (stretching, rigid): (Vec<ShelfRing>, Vec<ShelfRing>) = shelf.rings.iter().cloned().partition(stretches);
        let mut sizes: Vec<Offer> = rigid.into_iter().map(on_line).collect();
        // Of equal sizes the words that come first are shown, whatever the order of the lines.
        sizes.sort_by(|a, b| key(a).total_cmp(&key(b)).then_with(|| a.words.cmp(&b.words)));
        sizes.dedup_by(|next, kept| {
            let same = (next.wire_mm - kept.wire_mm).abs() < SAME && (next.inner_mm - kept.inner_mm).abs() < SAME;
            if same {
                kept.rings.append(&mut next.rings);
            }
            same
        });
        for offer in &mut sizes {
            offer.rings.sort_by_cached_key(|r| (r.called(), r.on_hand, r.line));
        }
        Self { from_shelf: true, sizes, stretching }
    }
}

/// The size on one line of a shelf.
fn on_line(ring: ShelfRing) -> Offer {
    let (wire_mm, inner_mm) = (ring.wire_mm(), ring.inner_mm());
    let words = [(&ring.measured[0], &ring.nominal[0]), (&ring.measured[1], &ring.nominal[1])]
        .map(|(measured, nominal)| written(measured.as_ref().unwrap_or(nominal)));
    Offer { wire_mm, inner_mm, words, rings: vec![ring] }
}

/// Sizes that differ by less are the same, mm: nobody can measure the difference.
const SAME: f64 = 1e-4;

/// By wire, then by inner diameter; both rounded, so that sizes that are the same come together.
fn key(offer: &Offer) -> f64 {
    libm::round(offer.wire_mm / SAME) * 1e8 + libm::round(offer.inner_mm / SAME)
}

/// Wires in common use, mm. Common practice, no source; so are the other sizes below.
const METRIC_WIRES: [&str; 9] = ["0.6", "0.8", "0.9", "1", "1.2", "1.5", "1.6", "2", "2.5"];
/// Inner diameters that go with them, in tenths of a mm: from 2 mm to 14 mm in steps of half a mm.
const METRIC_INNERS: std::ops::RangeInclusive<u32> = 20..=140;
const METRIC_STEP: usize = 5;
/// Gauges, American and British.
const GAUGES: [u32; 7] = [14, 16, 17, 18, 19, 20, 22];
/// Inner diameters that go with gauges, in 64ths of an inch: by 64ths up to 5/16, by 32nds up to 3/8, by 16ths up to
/// 1/2.
const SIXTY_FOURTHS: [u32; 20] = [5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20, 22, 24, 28, 32];
/// Aspect ratios makers weave with.
const RATIOS: std::ops::RangeInclusive<f64> = 2.0..=12.0;

/// Every wire in common use with every inner diameter that goes with it, of an aspect ratio from 2 to 12; from the
/// thinnest wire and the smallest ring up.
fn common_sizes() -> Vec<Offer> {
    let mm = |value: f64| (format!("{value}"), value, Unit::Mm);
    let wires = METRIC_WIRES.iter().filter_map(|text| Some(((*text).to_owned(), text.parse().ok()?, Unit::Mm)));
    let inners = METRIC_INNERS.step_by(METRIC_STEP).map(|tenths| mm(f64::from(tenths) / 10.0));
    let gauges = [Unit::Awg, Unit::Swg]
        .into_iter()
        .flat_map(|system| GAUGES.map(|number| (number.to_string(), f64::from(number), system)));
    let inches = SIXTY_FOURTHS.map(|parts| {
        let under = 64 >> parts.trailing_zeros().min(6);
        (format!("{}/{under}", parts * under / 64), f64::from(parts) / 64.0, Unit::Inch)
    });
    let mut all = combined(&sizes(wires), &sizes(inners));
    all.extend(combined(&sizes(gauges), &sizes(inches)));
    all.sort_by(|a, b| a.wire_mm.total_cmp(&b.wire_mm).then(a.inner_mm.total_cmp(&b.inner_mm)));
    all
}

/// Sizes by their words, value and unit; each with its mm.
fn sizes(written: impl IntoIterator<Item = (String, f64, Unit)>) -> Vec<(f64, Size)> {
    let size = |(text, value, unit)| {
        let size = Size::new(Number { text, value }, unit, Span::new(0, 0, 0));
        Some((millimetres(&size)?, size))
    };
    written.into_iter().filter_map(size).collect()
}

/// Every wire with every inner diameter, as far as makers weave with the aspect ratio.
fn combined(wires: &[(f64, Size)], inners: &[(f64, Size)]) -> Vec<Offer> {
    let offer = |wire: &(f64, Size), inner: &(f64, Size)| Offer {
        wire_mm: wire.0,
        inner_mm: inner.0,
        words: [written(&wire.1), written(&inner.1)],
        rings: Vec::new(),
    };
    let all = wires.iter().flat_map(|wire| inners.iter().map(move |inner| offer(wire, inner)));
    all.filter(|offer| RATIOS.contains(&offer.ratio())).collect()
}
