//! One kind of ring is chosen, and all others stay as the text has them.

use super::answer::{Fit, Held, Nearest};
use super::holes::Holes;
use super::need::Counter;
use super::offer::Offer;
use super::order::SOUGHT;
use super::pairs::OUT_BY;
use super::survey::{Beside, Ratios, Survey, first_of_each, ratios};
use super::trial::Trial;
use crate::Weave;
use crate::measure::{in_mm, millimetres, written};
use crate::pattern::{sizes, stretches};
use crate::settle::Settled;
use rayon::prelude::*;

/// How many sizes are settled for each row that is asked for: how an accent sits cannot be guessed.
const TRIES: usize = 2;
/// Wire that differs from that of the others by this part counts as much as 1 % of room: rings of one piece are chosen with
/// similar wire. Common practice, no source.
const OFF_WIRE: f64 = 0.1;

/// The size the text gives a kind; `None` where it gives none, or where its rings stretch.
pub(super) fn as_written(weave: &Weave, kind: &str) -> Option<Held> {
    let pattern = weave.pattern();
    let size = sizes(pattern).into_iter().find(|s| s.name == kind).filter(|_| !stretches(pattern, kind))?;
    let (wire_mm, inner_mm) = (size.wire_mm?, size.inner_mm?);
    let own = pattern.kind(kind);
    let words = [(own.and_then(|k| k.wire.as_ref()), wire_mm), (own.and_then(|k| k.inner.as_ref()), inner_mm)];
    let words = words.map(|(size, mm)| {
        // Where a size was measured, it is not the one that is written.
        let same = |size: &&_| millimetres(size).is_some_and(|written| (written - mm).abs() < 1e-9);
        size.map(|(size, _)| size).filter(same).map_or_else(|| in_mm(mm), written)
    });
    Some(Held { kind: kind.to_owned(), offer: Offer { wire_mm, inner_mm, words, rings: Vec::new() } })
}

/// Settles the sizes that look best in a survey, each once, for at most `most` rows.
pub(super) fn choose(fit: &mut Fit, weave: &Weave, settled: &Settled, most: usize) {
    let Some(kind) = fit.kinds.first().cloned() else { return };
    let kinds = settled.kinds(weave.pattern());
    fit.beside = survey(fit, settled, &kinds, &kind);
    fit.work.surveyed = fit.beside.as_ref().map_or(0, |beside| beside.survey.points());
    let left = by_promise(fit, &Holes::of(settled, &kinds));
    let tried: Vec<Offer> = left.iter().take(most.saturating_mul(TRIES)).map(|(offer, _)| offer.clone()).collect();
    fit.misses.promising = left.len() - tried.len();
    fit.work.settled += tried.len();
    let trial = |offer: &Offer| Trial::of(weave, &[(&kind, (offer.wire_mm, offer.inner_mm))]);
    let trials: Vec<Option<Trial>> = tried.par_iter().map(trial).collect();
    let counter = Counter::of(weave);
    for (offer, trial) in tried.into_iter().zip(trials) {
        match trial {
            Some(trial) if trial.closes => fit.rows.push(trial.row(&fit.kinds, &[&offer], &counter)),
            trial => {
                fit.misses.not_found += 1;
                fit.misses.nearest.push(Nearest { offers: vec![offer], room: trial.map(|t| t.room) });
            }
        }
    }
}

/// Surveys how much room there is with all sizes there are to choose from.
fn survey(fit: &Fit, settled: &Settled, kinds: &[&str], kind: &str) -> Option<Beside> {
    let (ring, _) = first_of_each(settled, kinds, kind)?;
    let wanted: Vec<Ratios> = fit.offers.iter().map(|offer| ratios(ring, offer.ring())).collect();
    Some(Beside { survey: Survey::of(settled, kinds, kind, &wanted), ring })
}

/// Sizes that look as if they close and about how much room they have, in the order in which they are settled. All others
/// are counted among the misses.
fn by_promise(fit: &mut Fit, holes: &Holes<'_>) -> Vec<(Offer, f64)> {
    let mut left: Vec<(Offer, f64)> = Vec::new();
    for offer in &fit.offers {
        let size = |kind: &str| {
            let held = fit.held.iter().find(|held| held.kind == kind).map(|held| &held.offer);
            let size = held.unwrap_or(offer);
            Some((size.wire_mm, size.inner_mm))
        };
        match fit.beside.as_ref().and_then(|beside| beside.room(offer.ring())) {
            _ if holes.too_small(size) => fit.misses.proved += 1,
            Some(room) if room >= -OUT_BY => left.push((offer.clone(), room)),
            Some(_) => fit.misses.tight += 1,
            None => fit.misses.beyond += 1,
        }
    }
    let other_wire = fit.held.first().map_or(1.0, |held| held.offer.wire_mm);
    let off = |(offer, room): &(Offer, f64)| {
        let wires = offer.wire_mm / other_wire;
        // Rounded, so that of nearly equal sizes the larger ring comes first: it has less space to rock in.
        libm::round(100.0 * (room - SOUGHT).abs() + (wires.max(1.0 / wires) - 1.0) / OFF_WIRE)
    };
    left.sort_by(|a, b| off(a).total_cmp(&off(b)).then_with(|| b.0.ring().radius.total_cmp(&a.0.ring().radius)));
    left
}
