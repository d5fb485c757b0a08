//! How families hang together: which are drawn as circles and which as loops, which share a row, which
//! are twins.

use super::goings::Going;
use crate::pattern::{FamilyId, Lattice, Pattern, PerFamily, Shift};
use std::collections::{BTreeMap, BTreeSet};

/// How a ring is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Look {
    /// A circle of a row.
    Circle,
    /// A loop woven through the rows: it passes rings and none passes it.
    Loop,
}

/// A ring with its place in its row.
pub type Placed = (usize, (FamilyId, Shift));

/// Pairs of rings that must overlap, with their places in the row: the rings of an eye, and rings of
/// the rows that pass one another.
pub fn together<'g>(
    goings: &'g [Going],
    slots: &'g BTreeMap<FamilyId, usize>,
) -> impl Iterator<Item = (Placed, Placed)> + 'g {
    let placed = |name: (FamilyId, Shift)| slots.get(&name.0).map(|slot| (*slot, name));
    goings.iter().flat_map(move |going| {
        let eye =
            going.through.first().copied().into_iter().flat_map(|first| going.through.iter().map(move |n| (first, *n)));
        let own = going.through.iter().map(|n| ((going.family, Shift::ZERO), *n));
        eye.chain(own)
            .filter(|(one, other)| one != other)
            .filter_map(move |(one, other)| Some((placed(one)?, placed(other)?)))
    })
}

/// A link as one of its rings sees it: whether it passes the other, the other, the shift, and the
/// direction.
type Deed = (bool, FamilyId, Shift, bool);

/// Families of the rows that pass and are passed by the very same rings, as rings woven in pairs are:
/// each with the first of its kind and its number after that.
pub fn twins(rooted: &[FamilyId], goings: &[Going]) -> BTreeMap<FamilyId, (FamilyId, usize)> {
    let mut does: BTreeMap<FamilyId, Vec<Deed>> = BTreeMap::new();
    for going in goings {
        for (to, offset) in &going.through {
            does.entry(going.family).or_default().push((true, *to, *offset, going.down));
            does.entry(*to).or_default().push((false, going.family, *offset, going.down));
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

/// Families that share an eye or pass one another share a row; families that have nothing to do with
/// each other stand in a block.
pub fn group_rows(rooted: &[FamilyId], goings: &[Going]) -> Vec<Vec<FamilyId>> {
    let slots: BTreeMap<FamilyId, usize> = rooted.iter().map(|f| (*f, 0)).collect();
    let mut row_of: BTreeMap<FamilyId, FamilyId> = rooted.iter().map(|f| (*f, *f)).collect();
    for (one, other) in together(goings, &slots) {
        let (a, b) = (row_of.get(&one.1.0).copied(), row_of.get(&other.1.0).copied());
        if let (Some(a), Some(b)) = (a, b)
            && a != b
        {
            row_of.values_mut().filter(|r| **r == a.max(b)).for_each(|r| *r = a.min(b));
        }
    }
    let tied: BTreeSet<FamilyId> = together(goings, &slots).flat_map(|(one, other)| [one.1.0, other.1.0]).collect();
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

/// How many layers of rings each family rests on: 0 passes nothing; none where rings pass one another
/// in turn, or rest on such.
pub fn depths(pattern: &Pattern, goings: &[Going]) -> PerFamily<Option<usize>> {
    let mut waits = pattern.families.map(|_| 0_usize);
    let mut rest_on: PerFamily<Vec<FamilyId>> = pattern.families.map(|_| Vec::new());
    for going in goings {
        for (to, _) in &going.through {
            rest_on[*to].push(going.family);
            waits[going.family] += 1;
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

/// Which families are drawn as circles and which as loops.
pub fn looks(pattern: &Pattern, goings: &[Going], depths: &PerFamily<Option<usize>>) -> PerFamily<Look> {
    let mut passed = pattern.families.map(|_| false);
    let mut weaves = pattern.families.map(|_| false);
    let mut high = pattern.families.map(|_| false);
    for going in goings {
        weaves[going.family] = true;
        for (to, _) in &going.through {
            // A base stays as it is whatever accents are hung on it.
            passed[*to] |= !going.accent;
            high[going.family] |= depths[*to] != Some(0);
        }
    }
    let unit = pattern.lattice == Lattice::Unit;
    let look = |family: FamilyId| {
        if weaves[family] && !passed[family] && !(unit && high[family]) { Look::Loop } else { Look::Circle }
    };
    pattern.families.ids().map(look).collect()
}
