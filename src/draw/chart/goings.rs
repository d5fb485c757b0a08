//! What each ring goes through, mark by mark: the text's eyes with the solved directions.

use crate::pattern::{FamilyId, Pattern, Shift};
use crate::rings::Links;
use std::collections::BTreeMap;

/// A ring by family and repeat, counted from the repeat that is drawn.
pub type Name = (FamilyId, Shift);

/// One going of a ring of the repeat through a ring, or through the eye of several.
#[derive(Clone, Debug)]
pub struct Going {
    /// The family of the ring that goes.
    pub family: FamilyId,
    /// What it goes through, in order: one ring, or the rings of an eye.
    pub through: Vec<Name>,
    /// From front to back, or from back to front.
    pub down: bool,
    /// Whether it belongs to an accent.
    pub accent: bool,
}

/// Every going of one repeat, by family, in the order of the text.
///
/// A ring that passes two rings the same way in their eye goes through the two at one place; `around`
/// an eye, or anywhere else, it goes through each by itself.
pub fn goings(pattern: &Pattern, links: &Links) -> Vec<Going> {
    let mut eyes: BTreeMap<Name, Vec<Name>> = BTreeMap::new();
    for pass in &pattern.passes {
        for meet in pass.meets.iter().filter(|m| m.eye) {
            if let [one, other] = meet.at.as_slice() {
                let (one, other) = ((one.family, one.offset), (other.family, other.offset));
                eyes.entry((pass.family, Shift::ZERO)).or_default().extend([one, other]);
            }
        }
    }
    let mut of_family: BTreeMap<FamilyId, Vec<Going>> = BTreeMap::new();
    for link in &links.links {
        let accent = link.accent.is_some();
        let going = Going { family: link.from, through: vec![(link.to, link.offset)], down: link.sign > 0, accent };
        of_family.entry(link.from).or_default().push(going);
    }
    for (family, goings) in &mut of_family {
        let pairs = eyes.get(&(*family, Shift::ZERO)).map_or(&[][..], Vec::as_slice);
        join_eyes(goings, pairs);
    }
    of_family.into_values().flatten().collect()
}

/// The goings of each family.
pub fn by_family(goings: &[Going]) -> BTreeMap<FamilyId, Vec<&Going>> {
    let mut of: BTreeMap<FamilyId, Vec<&Going>> = BTreeMap::new();
    for going in goings {
        of.entry(going.family).or_default().push(going);
    }
    of
}

fn join_eyes(goings: &mut Vec<Going>, pairs: &[Name]) {
    let mut place: BTreeMap<Name, usize> = BTreeMap::new();
    for (number, going) in goings.iter().enumerate() {
        for name in &going.through {
            place.insert(*name, number);
        }
    }
    for pair in pairs.chunks_exact(2) {
        let [one, other] = pair else { continue };
        let (Some(&one), Some(&other)) = (place.get(one), place.get(other)) else { continue };
        let (keep, give) = (one.min(other), one.max(other));
        let same = goings.get(keep).map(|g| g.down) == goings.get(give).map(|g| g.down);
        if keep == give || !same {
            continue;
        }
        let given = goings.get_mut(give).map(|g| std::mem::take(&mut g.through)).unwrap_or_default();
        for name in &given {
            place.insert(*name, keep);
        }
        if let Some(going) = goings.get_mut(keep) {
            going.through.extend(given);
        }
    }
    goings.retain(|g| !g.through.is_empty());
    for going in goings {
        going.through.sort_unstable();
    }
}
