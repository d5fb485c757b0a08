//! The sizes there are to choose from.

use super::common::common_sizes;
use crate::measure::written;
use crate::notation::Size;
use crate::shelf::{Shelf, ShelfRing};

/// One size of ring, with every line of the shelf that has it.
#[derive(Clone, Debug, PartialEq)]
pub struct Offer {
    /// Wire diameter, mm.
    pub wire_mm: f64,
    /// Inner diameter, mm.
    pub inner_mm: f64,
    /// Wire and inner diameter in words.
    pub words: [String; 2],
    /// The lines of the shelf; none where sizes are those in common use.
    pub rings: Vec<ShelfRing>,
}

impl Offer {
    /// A size with no line of a shelf.
    pub fn plain(wire: (f64, &Size), inner: (f64, &Size)) -> Self {
        let words = [wire.1, inner.1].map(written);
        Self { wire_mm: wire.0, inner_mm: inner.0, words, rings: Vec::new() }
    }

    /// Aspect ratio.
    pub fn ratio(&self) -> f64 {
        self.inner_mm / self.wire_mm
    }

    /// Core radius, mm.
    pub fn radius(&self) -> f64 {
        0.5 * (self.inner_mm + self.wire_mm)
    }

    /// "1.6 mm × 1/4 in (6.35 mm)".
    pub fn size(&self) -> String {
        let [wire, inner] = &self.words;
        format!("{wire} × {inner}")
    }
}

/// The sizes on a shelf, or else those in common use, from the thinnest wire and the smallest ring up; and the lines of the
/// shelf that are left out because their rings stretch.
pub fn offers(shelf: Option<&Shelf>) -> (Vec<Offer>, Vec<&ShelfRing>) {
    let Some(shelf) = shelf else { return (common_sizes(), Vec::new()) };
    let (rubber, rigid): (Vec<&ShelfRing>, Vec<&ShelfRing>) =
        shelf.rings.iter().partition(|r| r.known().is_some_and(|m| m.stretches));
    let mut offers: Vec<Offer> = Vec::new();
    for ring in rigid {
        let (wire_mm, inner_mm) = (ring.wire_mm(), ring.inner_mm());
        let words = [(&ring.measured[0], &ring.nominal[0]), (&ring.measured[1], &ring.nominal[1])]
            .map(|(measured, nominal)| written(measured.as_ref().unwrap_or(nominal)));
        offers.push(Offer { wire_mm, inner_mm, words, rings: vec![ring.clone()] });
    }
    // Of rings alike the words that come first are shown, whatever the order of the lines.
    offers.sort_by(|a, b| key(a).total_cmp(&key(b)).then_with(|| a.words.cmp(&b.words)));
    offers.dedup_by(|next, kept| {
        let same = (next.wire_mm - kept.wire_mm).abs() < SAME && (next.inner_mm - kept.inner_mm).abs() < SAME;
        if same {
            kept.rings.append(&mut next.rings);
        }
        same
    });
    for offer in &mut offers {
        offer.rings.sort_by_cached_key(|r| (r.called(), r.on_hand, r.line));
    }
    (offers, rubber)
}

/// Sizes that differ by less are one, mm: nobody measures them apart.
const SAME: f64 = 1e-4;

/// By wire, then by inner diameter; both rounded, so that sizes that are one stand together.
fn key(offer: &Offer) -> f64 {
    libm::round(offer.wire_mm / SAME) * 1e8 + libm::round(offer.inner_mm / SAME)
}
