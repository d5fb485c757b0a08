//! How large the piece is that instructions make.

use super::events::{Claim, Name, Need};
use super::follow::Work;
use super::read::Reading;
use crate::notation::State;
use crate::pattern::{Lattice, Repeats};
use crate::rings::Piece;
use crate::weave::Weave;
use std::collections::BTreeMap;

/// How far from the last ring that is named the size is looked for.
const AROUND: u32 = 3;
/// The largest piece, along each way, that instructions are read for.
const LARGEST: u32 = 3000;
/// Points for each statement on the number of rings that is true of a piece.
const TRUE_COUNT: usize = 2;
/// Points for a piece that has the rings of the text and no others: more than one true statement, less than two.
const SAME_RINGS: usize = 3;

/// How well a piece agrees with a text: by points first.
#[derive(Default, PartialEq, Eq, PartialOrd, Ord)]
struct Agreement {
    points: usize,
    /// Rings in both the piece and the text, less those in one of them alone.
    shared: usize,
}

/// The size of the piece that instructions make: the one that agrees with most of what they say of their rings; the smallest
/// of those that agree alike.
pub fn size_told(weave: &Weave, reading: &Reading, work: &Work) -> Repeats {
    let counts = counts_told(reading, work);
    let sizes = sizes(weave, work);
    let agreement = |size: &Repeats| {
        weave.piece(*size).map_or_else(|_| Agreement::default(), |piece| agreement(weave, &piece, &counts, work))
    };
    sizes.into_iter().rev().max_by_key(agreement).unwrap_or(Repeats([1, 1]))
}

/// The sizes that may be meant: those about the last ring that is named, and the one the weave asks for.
fn sizes(weave: &Weave, work: &Work) -> Vec<Repeats> {
    let until = work.claims.iter().filter_map(|c| match &c.claim.what {
        Claim::Repeated(until) => until.as_ref(),
        _ => None,
    });
    let named = work.rings.keys().chain(work.woven.iter().map(|w| &w.ring.what)).chain(until);
    let mut last = [1_u32, 1];
    for name in named {
        for (last, number) in last.iter_mut().zip(&name.numbers) {
            *last = (*last).max(u32::try_from(*number).unwrap_or(1)).min(LARGEST);
        }
    }
    let [rows, columns] = last.map(|n| n.saturating_sub(AROUND).max(1)..=n + AROUND);
    let mut sizes: Vec<Repeats> = match weave.pattern().lattice {
        Lattice::Unit => vec![Repeats([1, 1])],
        Lattice::Chain => rows.map(|n| Repeats([n, 1])).collect(),
        Lattice::Sheet => rows.flat_map(|r| columns.clone().map(move |c| Repeats([r, c]))).collect(),
    };
    sizes.extend(weave.pattern().make.repeats.as_ref().map(|n| Repeats([n.value.clamp(1, LARGEST), 1])));
    sizes
}

/// Every number of rings the text gives for a letter: in the list, and where rings are closed beforehand.
fn counts_told(reading: &Reading, work: &Work) -> Vec<Need> {
    let listed = reading.needs.iter().map(|need| need.what.clone());
    let closed = work.claims.iter().filter_map(|c| match &c.claim.what {
        Claim::Closed(count, letter) => Some(Need { count: *count, letter: letter.clone(), state: State::Closed }),
        _ => None,
    });
    listed.chain(closed).collect()
}

fn agreement(weave: &Weave, piece: &Piece, told: &[Need], work: &Work) -> Agreement {
    let mut counts: BTreeMap<(&str, State), usize> = BTreeMap::new();
    for ring in piece.graph.node_weights() {
        *counts.entry((weave.pattern().family_name(ring.family), ring.state)).or_insert(0) += 1;
    }
    let is_true = |need: &&Need| counts.get(&(need.letter.as_str(), need.state)) == Some(&need.count);
    let whole = work.claims.iter().rev().find_map(|c| match c.claim.what {
        Claim::Rings(count) => Some(count),
        _ => None,
    });
    let rings = piece.graph.node_count();
    let true_counts = told.iter().filter(is_true).count() + usize::from(whole == Some(rings));
    let named = |at: &crate::rings::Ring| work.rings.contains_key(&Name::of(weave.pattern(), at.family, at.at));
    let both = piece.graph.node_weights().filter(|ring| named(ring)).count();
    let apart = (rings - both) + (work.rings.len() - both);
    let same = if apart == 0 { SAME_RINGS } else { 0 };
    Agreement { points: TRUE_COUNT * true_counts + same, shared: both.saturating_sub(apart) }
}
