//! Which families are drawn as circles and which as loops, which share a row, and which are twins.

use super::threadings::Threading;
use crate::pattern::{FamilyId, Lattice, Pattern, PerFamily, Shift};
use crate::steps::Direction;
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
pub type Placed = (usize, (FamilyId, Shift));

/// Pairs of rings that must overlap, with their places in the row: the rings of an eye, and rings of the rows that go through
/// one another.
pub fn together<'g>(
    threadings: &'g [Threading],
    slots: &'g BTreeMap<FamilyId, usize>,
) -> impl Iterator<Item = (Placed, Placed)> + 'g {
    let placed = |name: (FamilyId, Shift)| slots.get(&name.0).map(|slot| (*slot, name));
    threadings.iter().flat_map(move |threading| {
        let eye = threading
            .through
            .first()
            .copied()
            .into_iter()
            .flat_map(|first| threading.through.iter().map(move |n| (first, *n)));
        let own = threading.through.iter().map(|n| ((threading.family, Shift::ZERO), *n));
        eye.chain(own)
            .filter(|(one, other)| one != other)
            .filter_map(move |(one, other)| Some((placed(one)?, placed(other)?)))
    })
}

/// A link from the side of one of its rings: whether this ring goes through the other, the other's family and shift, and the
/// way.
type Deed = (bool, FamilyId, Shift, Direction);

/// Families whose rings go through the same rings as another family's and have the same rings through them, as rings woven in
/// pairs do. Each comes with the first family like it and its number after that one.
pub fn twins(rooted: &[FamilyId], threadings: &[Threading]) -> BTreeMap<FamilyId, (FamilyId, usize)> {
    let mut does: BTreeMap<FamilyId, Vec<Deed>> = BTreeMap::new();
    for threading in threadings {
        for (to, offset) in &threading.through {
            does.entry(threading.family).or_default().push((true, *to, *offset, threading.way));
            does.entry(*to).or_default().push((false, threading.family, *offset, threading.way));
        }
    }
    let mut alike: BTreeMap<Vec<Deed>, Vec<FamilyId>> = BTreeMap::new();
    for family in rooted {
        let Some(mut does) = does.remove(family).filter(|d| d.iter().any(|d| d.0)) else { continue };
        does.sort_unstable();
        alike.entry(does).or_default().push(*family);
    }
    let mut twins = BTreeMap::new();
    for kind in alike.values() {
        let Some((first, others)) = kind.split_first() else { continue };
        twins.extend(others.iter().zip(1..).map(|(twin, nth)| (*twin, (*first, nth))));
    }
    twins
}

/// The rows. Families share a row if they share an eye or go through one another; all others form a block.
pub fn group_rows(rooted: &[FamilyId], threadings: &[Threading]) -> Vec<Vec<FamilyId>> {
    let slots: BTreeMap<FamilyId, usize> = rooted.iter().map(|f| (*f, 0)).collect();
    let mut row_of: BTreeMap<FamilyId, FamilyId> = rooted.iter().map(|f| (*f, *f)).collect();
    for (one, other) in together(threadings, &slots) {
        let (a, b) = (row_of.get(&one.1.0).copied(), row_of.get(&other.1.0).copied());
        if let (Some(a), Some(b)) = (a, b)
            && a != b
        {
            row_of.values_mut().filter(|r| **r == a.max(b)).for_each(|r| *r = a.min(b));
        }
    }
    let tied: BTreeSet<FamilyId> = together(threadings, &slots).flat_map(|(one, other)| [one.1.0, other.1.0]).collect();
    let mut rows: BTreeMap<FamilyId, Vec<FamilyId>> = BTreeMap::new();
    let mut single = Vec::new();
    for family in rooted {
        if tied.contains(family) {
            rows.entry(row_of.get(family).copied().unwrap_or(*family)).or_default().push(*family);
        } else {
            single.push(*family);
        }
    }
    let mut rows: Vec<Vec<FamilyId>> = rows.into_values().collect();
    let mut wide = 1;
    while (wide + 1) * (wide + 1) <= single.len() {
        wide += 1;
    }
    rows.extend(single.chunks(wide).map(<[FamilyId]>::to_vec));
    rows
}

/// How many layers of rings each family rests on. A family that goes through nothing has 0. A family has none where rings go
/// through one another in a circle, and where it rests on such rings.
pub fn depths(pattern: &Pattern, threadings: &[Threading]) -> PerFamily<Option<usize>> {
    let mut waits = pattern.families.map(|_| 0_usize);
    let mut rest_on: PerFamily<Vec<FamilyId>> = pattern.families.map(|_| Vec::new());
    for threading in threadings {
        for (to, _) in &threading.through {
            rest_on[*to].push(threading.family);
            waits[threading.family] += 1;
        }
    }
    let mut depths = pattern.families.map(|_| None);
    let mut layer: Vec<FamilyId> = waits.numbered().filter(|(_, w)| **w == 0).map(|(f, _)| f).collect();
    let mut depth = 0;
    while !layer.is_empty() {
        let mut next = Vec::new();
        for family in layer {
            depths[family] = Some(depth);
            for above in &rest_on[family] {
                waits[*above] -= 1;
                if waits[*above] == 0 {
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
pub fn looks(pattern: &Pattern, threadings: &[Threading], depths: &PerFamily<Option<usize>>) -> PerFamily<Look> {
    let mut passed = pattern.families.map(|_| false);
    let mut weaves = pattern.families.map(|_| false);
    let mut high = pattern.families.map(|_| false);
    for threading in threadings {
        weaves[threading.family] = true;
        for (to, _) in &threading.through {
            // A base stays as it is whatever accents are hung on it.
            passed[*to] |= !threading.accent;
            high[threading.family] |= depths[*to] != Some(0);
        }
    }
    let unit = pattern.lattice == Lattice::Unit;
    let look = |family: FamilyId| {
        if weaves[family] && !passed[family] && !(unit && high[family]) { Look::Loop } else { Look::Circle }
    };
    pattern.families.ids().map(look).collect()
}
