//! Sizes of the base for which the shelf has no accent that was found to sit straight, and the accent to try.

use super::answer::Fit;
use super::offer::{Offer, room};
use super::row::Row;
use super::trial::Trial;
use crate::Weave;
use crate::settle::{Hold, LITTLE_ROOM};
use rayon::prelude::*;
use std::collections::BTreeSet;

/// For how many sizes of the base an accent is looked for, and the most inner diameters that are tried for each.
const MOST_WANTED: usize = 3;
const MOST_TRIES: usize = 2;
/// Inner diameters that are tried where no accent is known to sit straight, as parts of that of the base.
const PARTS: [f64; MOST_TRIES] = [0.9, 0.8];
/// Wires that differ by less than this part are alike.
const ALIKE: f64 = 0.25;
/// A size that differs by less than this part may do as well.
const THERE: f64 = 0.05;

/// A size of the first kind for which no size of the second was found to sit straight.
#[derive(Clone, Debug, PartialEq)]
pub struct Gap {
    /// The size of the first kind.
    pub base: Offer,
    /// The second kind.
    pub kind: String,
    /// Whether some of the second kind close with it.
    pub some_close: bool,
    /// How many inner diameters were tried with wire like that of the first kind; none beyond the third such size.
    pub tried: usize,
    /// The first of them that sits straight, mm; `None` where none does.
    pub inner_mm: Option<f64>,
    /// Of the rings of like wire the one whose inner diameter is nearest to that.
    pub nearest: Option<Offer>,
}

/// The sizes of the first kind with which the base alone closes, neither with little room nor open, and for which nothing of
/// the second kind was found to sit straight. For sizes in `open`, by number, some pairs are still untried: they are left out
/// where one of those may do.
pub(super) fn gaps(weave: &Weave, fit: &Fit, open: &BTreeSet<usize>) -> Vec<Gap> {
    let Some((floor, kind)) = fit.base_floor.zip(fit.kinds.get(1)) else { return Vec::new() };
    let rows = |offer: &Offer| -> Vec<&Row> { fit.rows.iter().filter(|row| base(row) == Some(offer)).collect() };
    let lonely = fit.offers.iter().enumerate().filter(|(number, offer)| {
        let (room, rows) = (room(offer.ratio(), floor), rows(offer));
        let untried = rows.is_empty() && open.contains(number);
        room >= LITTLE_ROOM && Hold::of(room) != Hold::Open && !rows.into_iter().any(Row::straight) && !untried
    });
    let lonely: Vec<(usize, &Offer)> = lonely.collect();
    let gap = |(place, (number, base)): (usize, &(usize, &Offer))| {
        let tries = if place < MOST_WANTED { tries(fit, base) } else { Vec::new() };
        let inner_mm = tries.iter().copied().find(|inner| sits_straight(weave, fit, base, *inner));
        let may_be_there = inner_mm.is_none_or(|inner| fit.offers.iter().any(|offer| may_do(offer, base, inner)));
        if open.contains(number) && may_be_there {
            return None;
        }
        Some(Gap {
            base: (*base).clone(),
            kind: kind.clone(),
            some_close: !rows(base).is_empty(),
            tried: tries.len(),
            inner_mm,
            nearest: inner_mm.and_then(|inner| nearest(&fit.offers, base, inner)).cloned(),
        })
    };
    lonely.par_iter().enumerate().filter_map(gap).collect()
}

/// The size of the first kind.
fn base(row: &Row) -> Option<&Offer> {
    row.picks.first().map(|pick| &pick.offer)
}

/// By what part the wire of one differs from that of the other.
fn off_wire(one: &Offer, other: &Offer) -> f64 {
    (one.wire_mm / other.wire_mm - 1.0).abs()
}

/// Whether an offer is nearly of this inner diameter, mm, and of the wire of the base.
fn may_do(offer: &Offer, base: &Offer, inner_mm: f64) -> bool {
    (offer.inner_mm / inner_mm - 1.0).abs() < THERE && off_wire(offer, base) < THERE
}

/// Of the rings of wire like the base's the one whose inner diameter is nearest to this one, mm.
fn nearest<'o>(offers: &'o [Offer], base: &Offer, inner_mm: f64) -> Option<&'o Offer> {
    let far = |offer: &Offer| (offer.inner_mm - inner_mm).abs();
    let alike = offers.iter().filter(|offer| off_wire(offer, base) < ALIKE);
    alike.min_by(|a, b| far(a).total_cmp(&far(b)))
}

/// Inner diameters to try with wire like the base's, in tenths of a mm: as large as those that sit straight with other
/// sizes of the base of nearly its aspect ratio; or else a little smaller than the base's own.
fn tries(fit: &Fit, own: &Offer) -> Vec<f64> {
    let alike = |row: &&Row| match row.picks.as_slice() {
        [one, two] => row.straight() && off_wire(&two.offer, &one.offer) < ALIKE,
        _ => false,
    };
    let far = |row: &&Row| base(row).map_or(0.0, |offer| (offer.ratio() - own.ratio()).abs());
    let mut known: Vec<&Row> = fit.rows.iter().filter(alike).collect();
    known.sort_by(|a, b| far(a).total_cmp(&far(b)));
    let like = known.iter().filter_map(|row| Some(row.picks.get(1)?.offer.inner_mm / base(row)?.inner_mm));
    let parts = like.chain(PARTS).map(|part| libm::round(10.0 * part * own.inner_mm) / 10.0);
    let mut tries: Vec<f64> = Vec::new();
    for inner in parts {
        if inner > own.wire_mm && !tries.contains(&inner) && tries.len() < MOST_TRIES {
            tries.push(inner);
        }
    }
    tries
}

/// Whether the second kind sits straight with this inner diameter, mm, and wire like the base's.
fn sits_straight(weave: &Weave, fit: &Fit, base: &Offer, inner_mm: f64) -> bool {
    let [first, second] = fit.kinds.as_slice() else { return false };
    let sizes = [(first.as_str(), (base.wire_mm, base.inner_mm)), (second, (base.wire_mm, inner_mm))];
    Trial::of(weave, &sizes).is_some_and(|trial| trial.straight())
}
