//! Which families are drawn as circles and which as loops, which share a row, and which are twins.

use super::threadings::Threading;
use crate::draw::Way;
use crate::pattern::{Lattice, Offset, Pattern};
use std::collections::{BTreeMap, BTreeSet};

/// How a ring is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Look {
    /// A circle of a row.
    Circle,
    /// A loop woven through the rows: it goes through rings, and no ring goes through it.
    Loop,
}

/// A place in a row, and the ring there.
pub type Placed = (usize, (usize, Offset));

/// Pairs of rings that must overlap, with their places in the row: the rings of an eye, and rings of the rows that go through
/// one another.
pub fn together<'g>(
    threadings: &'g [Threading],
    slots: &'g BTreeMap<usize, usize>,
) -> impl Iterator<Item = (Placed, Placed)> + 'g {
    let placed = |name: (usize, Offset)| slots.get(&name.0).map(|slot| (*slot, name));
    threadings.iter().flat_map(move |threading| {
        let eye = threading
            .through
            .first()
            .copied()
            .into_iter()
            .flat_map(|first| threading.through.iter().map(move |n| (first, *n)));
        let own = threading.through.iter().map(|n| ((threading.family, [0, 0]), *n));
        eye.chain(own)
            .filter(|(one, other)| one != other)
            .filter_map(move |(one, other)| Some((placed(one)?, placed(other)?)))
    })
}

/// A link from the side of one of its rings: whether this ring goes through the other, the other's family and shift, and the
/// way.
type Deed = (bool, usize, Offset, Way);

/// Families whose rings go through the same rings as another family's and have the same rings through them, as rings woven in
/// pairs do. Each comes with the first family like it and its number after that one.
pub fn twins(rooted: &[usize], threadings: &[Threading]) -> BTreeMap<usize, (usize, usize)> {
    let mut does: BTreeMap<usize, Vec<Deed>> = BTreeMap::new();
    for threading in threadings {
        for (to, offset) in &threading.through {
            does.entry(threading.family).or_default().push((true, *to, *offset, threading.way));
            does.entry(*to).or_default().push((false, threading.family, *offset, threading.way));
        }
    }
    let mut alike: BTreeMap<Vec<Deed>, Vec<usize>> = BTreeMap::new();
    for family in rooted {
        let Some(mut does) = does.remove(family).filter(|d| d.iter().any(|d| d.0)) else { continue };
        does.sort_unstable();
        alike.entry(does).or_default().push(*family);
    }
    let after = |kind: &Vec<usize>| {
        let first = kind.first().copied().unwrap_or(0);
        kind.iter().enumerate().skip(1).map(|(nth, f)| (*f, (first, nth))).collect::<Vec<_>>()
    };
    alike.values().flat_map(after).collect()
}

/// The rows. Families share a row if they share an eye or go through one another; all others form a block.
pub fn group_rows(rooted: &[usize], threadings: &[Threading]) -> Vec<Vec<usize>> {
    let slots: BTreeMap<usize, usize> = rooted.iter().map(|f| (*f, 0)).collect();
    let mut row_of: BTreeMap<usize, usize> = rooted.iter().map(|f| (*f, *f)).collect();
    for (one, other) in together(threadings, &slots) {
        let (a, b) = (row_of.get(&one.1.0).copied(), row_of.get(&other.1.0).copied());
        if let (Some(a), Some(b)) = (a, b)
            && a != b
        {
            row_of.values_mut().filter(|r| **r == a.max(b)).for_each(|r| *r = a.min(b));
        }
    }
    let tied: BTreeSet<usize> = together(threadings, &slots).flat_map(|(one, other)| [one.1.0, other.1.0]).collect();
    let mut rows: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    let mut single = Vec::new();
    for family in rooted {
        if tied.contains(family) {
            rows.entry(row_of.get(family).copied().unwrap_or(0)).or_default().push(*family);
        } else {
            single.push(*family);
        }
    }
    let mut rows: Vec<Vec<usize>> = rows.into_values().collect();
    let mut wide = 1;
    while (wide + 1) * (wide + 1) <= single.len() {
        wide += 1;
    }
    rows.extend(single.chunks(wide).map(<[usize]>::to_vec));
    rows
}

/// How many layers of rings each family rests on. A family that goes through nothing has 0. A family has none where rings go
/// through one another in a circle, and where it rests on such rings.
pub fn depths(families: usize, threadings: &[Threading]) -> Vec<Option<usize>> {
    let mut waits = vec![0_usize; families];
    let mut rest_on: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    for threading in threadings {
        for (to, _) in &threading.through {
            rest_on.entry(*to).or_default().push(threading.family);
            waits.iter_mut().skip(threading.family).take(1).for_each(|w| *w += 1);
        }
    }
    let mut depths = vec![None; families];
    let mut layer: Vec<usize> = waits.iter().enumerate().filter(|(_, w)| **w == 0).map(|(f, _)| f).collect();
    let mut depth = 0;
    while !layer.is_empty() {
        let mut next = Vec::new();
        for family in layer {
            depths.iter_mut().skip(family).take(1).for_each(|d| *d = Some(depth));
            for above in rest_on.get(&family).map_or(&[][..], Vec::as_slice) {
                let Some(wait) = waits.get_mut(*above) else { continue };
                *wait -= 1;
                if *wait == 0 {
                    next.push(*above);
                }
            }
        }
        layer = next;
        depth += 1;
    }
    depths
}

/// How each family is drawn.
pub fn looks(pattern: &Pattern, threadings: &[Threading], depths: &[Option<usize>]) -> Vec<Look> {
    let mut passed = vec![false; pattern.families.len()];
    let mut weaves = vec![false; pattern.families.len()];
    let mut high = vec![false; pattern.families.len()];
    for threading in threadings {
        weaves.iter_mut().skip(threading.family).take(1).for_each(|w| *w = true);
        for (to, _) in &threading.through {
            // A base stays as it is whatever accents are hung on it.
            passed.iter_mut().skip(*to).take(1).for_each(|p| *p |= !threading.accent);
            let on_woven = depths.get(*to) != Some(&Some(0));
            high.iter_mut().skip(threading.family).take(1).for_each(|h| *h |= on_woven);
        }
    }
    let unit = pattern.lattice == Lattice::Unit;
    let look = |((weaves, passed), high): ((bool, bool), bool)| {
        if weaves && !passed && !(unit && high) { Look::Loop } else { Look::Circle }
    };
    weaves.into_iter().zip(passed).zip(high).map(look).collect()
}
