//! Which rings are drawn: those of the repeat with the rings they go through, then their neighbours, while there is room.

use super::layout::{Layout, Look};
use super::threadings::{Name, Threading};
use crate::pattern::{Lattice, Pattern};
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
    let mut of: BTreeMap<usize, Vec<Name>> = BTreeMap::new();
    for threading in threadings {
        of.entry(threading.family).or_default().extend(&threading.through);
    }
    for family in 0..pattern.families.len() {
        order.push(((family, [0, 0]), Role::Own));
        order.extend(
            of.get(&family).into_iter().flatten().map(|n| (*n, if n.1 == [0, 0] { Role::Own } else { Role::Passed })),
        );
    }
    let near = |n: &Name| n.1.iter().all(|o| o.abs() <= FARTHEST);
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
    let reach = |i: usize| -> (i32, i32) {
        let offsets = chosen.keys().filter_map(|n| n.1.get(i).copied());
        offsets.fold((0, 0), |(low, high), o| (low.min(o), high.max(o)))
    };
    let (rows, columns) = (reach(0), reach(1));
    let sheet = pattern.lattice == Lattice::Sheet;
    let columns = if sheet { columns.0 - 1..=columns.1 + 1 } else { 0..=0 };
    let mut found = BTreeSet::new();
    // Rows above and below would crowd out the names.
    let rows = if sheet { rows.0..=rows.1 } else { rows.0 - 1..=rows.1 + 1 };
    for row in rows {
        for column in columns.clone() {
            for (number, family) in pattern.families.iter().enumerate() {
                let circle = layout.look(number) == Look::Circle;
                let close = row.abs() <= 1 && column.abs() <= 1;
                if family.accent.is_none() && (circle || close) && !chosen.contains_key(&(number, [row, column])) {
                    found.insert((number, [row, column]));
                }
                if found.len() > MOST_DRAWN {
                    return found;
                }
            }
        }
    }
    found
}
