//! Sizes of the base that no accent on the shelf sits straight with, and what they want.

use super::choose::Fit;
use super::offer::Offer;
use super::rows::Row;
use crate::Weave;
use crate::settle::{Hold, LITTLE_ROOM, Word};
use rayon::prelude::*;
use std::collections::BTreeSet;

/// For so many sizes it is worked out what they want, by so many tries each.
const MOST_WANTED: usize = 3;
const MOST_TRIES: usize = 2;
/// Inner diameters that are tried where no accent is known to sit straight, as parts of that of the base.
const PARTS: [f64; MOST_TRIES] = [0.9, 0.8];
/// Wires that differ by less than this part are alike.
const ALIKE: f64 = 0.25;
/// Sizes that differ by less than this part may do as well.
const THERE: f64 = 0.05;

/// A size of the first kind with which no size of the second was found to sit straight.
#[derive(Clone, Debug, PartialEq)]
pub struct Wanted {
    /// The size of the first kind.
    pub base: Offer,
    /// The second kind.
    pub kind: String,
    /// Whether some of the second kind close with it.
    pub some_close: bool,
    /// How many sizes were tried, with wire like that of the first kind: none after the third such size.
    pub tried: usize,
    /// The inner diameter, mm, of the first of them that sits straight; `None` where none does.
    pub inner_mm: Option<f64>,
    /// Of the rings of like wire the one whose inner diameter is nearest to that.
    pub nearest: Option<Offer>,
}

/// The sizes of the first kind with which the base alone closes, neither with little room nor open, and with none of the
/// second kind a pose that sits straight was found, nor is there a first one still to be looked for (`open`, by number).
pub(super) fn wanted(weave: &Weave, fit: &Fit, open: &BTreeSet<usize>) -> Vec<Wanted> {
    let Some((floor, kind)) = fit.base_floor.zip(fit.kinds.get(1)) else { return Vec::new() };
    let rows = |offer: &Offer| {
        let offer = offer.clone();
        fit.rows.iter().filter(move |r| first(r).is_some_and(|o| *o == offer))
    };
    let lonely = fit.offers.iter().enumerate().filter(|(number, offer)| {
        let room = (offer.ratio() + 1.0) / (floor + 1.0) - 1.0;
        let may = open.contains(number) && rows(offer).next().is_none();
        room >= LITTLE_ROOM && Hold::of(room) != Hold::Open && !rows(offer).any(straight) && !may
    });
    let lonely: Vec<(usize, &Offer)> = lonely.collect();
    let found = |(number, (own, base)): (usize, &(usize, &Offer))| {
        let tries = if number < MOST_WANTED { tries(fit, base) } else { Vec::new() };
        let inner_mm = tries.iter().copied().find(|inner| sits_straight(weave, fit, base, *inner));
        let far = |o: &&Offer| inner_mm.map_or(0.0, |mm| (o.inner_mm - mm).abs());
        let alike = |o: &&Offer| inner_mm.is_some() && (o.wire_mm / base.wire_mm - 1.0).abs() < ALIKE;
        let nearest = fit.offers.iter().filter(alike).min_by(|a, b| far(a).total_cmp(&far(b))).cloned();
        let some_close = rows(base).next().is_some();
        // What may still be on the shelf is not wanted.
        let there = |o: &Offer| {
            inner_mm.is_some_and(|mm| (o.inner_mm / mm - 1.0).abs() < THERE)
                && (o.wire_mm / base.wire_mm - 1.0).abs() < THERE
        };
        let may = open.contains(own) && (inner_mm.is_none() || fit.offers.iter().any(there));
        (!may).then(|| Wanted {
            base: (*base).clone(),
            kind: kind.clone(),
            some_close,
            tried: tries.len(),
            inner_mm,
            nearest,
        })
    };
    lonely.par_iter().enumerate().filter_map(found).collect()
}

fn first(row: &Row) -> Option<&Offer> {
    row.picks.first().map(|p| &p.offer)
}

fn straight(row: &Row) -> bool {
    matches!(row.worst(), None | Some(Word::Straight))
}

/// Inner diameters to try with wire like the base's, in tenths of a mm: as large as those that sit straight with other
/// sizes of the base of nearly its aspect ratio; or else a little smaller than the base's own.
fn tries(fit: &Fit, base: &Offer) -> Vec<f64> {
    let alike = |row: &&Row| match row.picks.as_slice() {
        [one, two] => straight(row) && (two.offer.wire_mm / one.offer.wire_mm - 1.0).abs() < ALIKE,
        _ => false,
    };
    let far = |row: &&Row| first(row).map_or(0.0, |o| (o.ratio() - base.ratio()).abs());
    let mut known: Vec<&Row> = fit.rows.iter().filter(alike).collect();
    known.sort_by(|a, b| far(a).total_cmp(&far(b)));
    let like = known.iter().filter_map(|row| Some(row.picks.get(1)?.offer.inner_mm / first(row)?.inner_mm));
    let parts = like.chain(PARTS).map(|part| libm::round(10.0 * part * base.inner_mm) / 10.0);
    let mut tries: Vec<f64> = Vec::new();
    for inner in parts {
        if inner > base.wire_mm && !tries.contains(&inner) && tries.len() < MOST_TRIES {
            tries.push(inner);
        }
    }
    tries
}

/// Whether the second kind sits straight with this inner diameter and wire like the base's.
fn sits_straight(weave: &Weave, fit: &Fit, base: &Offer, inner_mm: f64) -> bool {
    let [first, second] = fit.kinds.as_slice() else { return false };
    let there = weave.with_sizes(&[(first, (base.wire_mm, base.inner_mm)), (second, (base.wire_mm, inner_mm))]);
    there.settled().is_ok_and(|s| s.closes() == Some(true) && s.sits.iter().all(|s| s.word == Word::Straight))
}
