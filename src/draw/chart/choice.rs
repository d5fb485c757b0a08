//! Which rings are drawn: those of the repeat with the rings they go through, then their neighbours, while there is room.

use super::layout::{Layout, Look};
use super::threadings::{Name, Threading};
use crate::pattern::{FamilyId, Lattice, Pattern, Shift};
use std::collections::{BTreeMap, BTreeSet};

/// The most rings in one chart: more cannot be told apart on a page.
const MOST_DRAWN: usize = 60;
/// Rings more repeats away than this are not drawn.
const FARTHEST: i32 = 4;
/// The most rings whose neighbours are drawn as well.
const MOST_WITH_NEIGHBOURS: usize = 40;

/// What a ring is to the repeat that is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Role {
    /// Of another repeat, for the surroundings.
    Neighbour,
    /// Of another repeat; a ring of this one goes through it.
    Passed,
    /// Of the repeat.
    Own,
}

/// Which rings are drawn, and what each is to the repeat.
pub fn choose(pattern: &Pattern, layout: &Layout, threadings: &[Threading]) -> BTreeMap<Name, Role> {
    let mut chosen: BTreeMap<Name, Role> = BTreeMap::new();
    let mut order: Vec<(Name, Role)> = Vec::new();
    // A ring of the repeat comes with the rings it goes through: its marks need them.
    let mut of: BTreeMap<FamilyId, Vec<Name>> = BTreeMap::new();
    for threading in threadings {
        of.entry(threading.family).or_default().extend(&threading.through);
    }
    for family in pattern.families.ids() {
        order.push(((family, Shift::ZERO), Role::Own));
        order.extend(
            of.get(&family)
                .into_iter()
                .flatten()
                .map(|n| (*n, if n.1 == Shift::ZERO { Role::Own } else { Role::Passed })),
        );
    }
    let near = |n: &Name| n.1.to_array().iter().all(|o| o.abs() <= FARTHEST);
    for (name, role) in order.into_iter().filter(|(n, _)| near(n)) {
        if chosen.len() < MOST_DRAWN {
            chosen.entry(name).or_insert(role);
        }
    }
    if pattern.lattice == Lattice::Unit {
        return chosen;
    }
    let context = neighbours(pattern, layout, &chosen);
    if chosen.len() + context.len() <= MOST_WITH_NEIGHBOURS {
        chosen.extend(context.into_iter().map(|name| (name, Role::Neighbour)));
    }
    chosen
}

/// The rings round those chosen: circles one repeat farther each way, loops one repeat away.
fn neighbours(pattern: &Pattern, layout: &Layout, chosen: &BTreeMap<Name, Role>) -> BTreeSet<Name> {
    // Rows above and below would crowd out the names.
    let beside = if pattern.lattice == Lattice::Sheet { Shift::new(0, 1) } else { Shift::new(1, 0) };
    let reach = |way: usize| {
        let offsets = chosen.keys().map(|n| n.1.along(way));
        offsets.fold((0, 0), |(low, high): (i32, i32), o| (low.min(o), high.max(o)))
    };
    let (rows, columns) = (reach(0), reach(1));
    let (first, last) = (Shift::new(rows.0, columns.0) - beside, Shift::new(rows.1, columns.1) + beside);
    let mut found = BTreeSet::new();
    for at in first.up_to(last) {
        for (id, family) in pattern.families.numbered() {
            let circle = layout.look(id) == Look::Circle;
            let close = at.row.abs() <= 1 && at.column.abs() <= 1;
            if family.accent.is_none() && (circle || close) && !chosen.contains_key(&(id, at)) {
                found.insert((id, at));
            }
            if found.len() > MOST_DRAWN {
                return found;
            }
        }
    }
    found
}
