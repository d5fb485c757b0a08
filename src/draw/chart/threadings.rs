//! What each ring goes through, mark by mark: the eyes as the text has them, the ways as they were solved.

use crate::pattern::{FamilyId, Pattern, Shift};
use crate::rings::Links;
use crate::steps::Direction;
use std::collections::BTreeMap;

/// A ring by family and repeat, counted from the repeat that is drawn.
pub type Name = (FamilyId, Shift);

/// A place at which a ring of the repeat goes through one ring, or through the eye of several.
#[derive(Clone, Debug)]
pub struct Threading {
    /// The family of the ring that goes through others.
    pub family: FamilyId,
    /// What it goes through, in order: one ring, or the rings of an eye.
    pub through: Vec<Name>,
    /// Which way.
    pub way: Direction,
    /// Whether it belongs to an accent.
    pub accent: bool,
}

/// All threadings of one repeat, by family, in the order of the text.
///
/// A ring that goes through the two rings of an eye the same way has one threading for both. `around` an eye, and everywhere
/// else, it has one for each ring.
pub fn threadings(pattern: &Pattern, links: &Links) -> Vec<Threading> {
    let mut eyes: BTreeMap<Name, Vec<Name>> = BTreeMap::new();
    for pass in &pattern.passes {
        for meet in pass.meets.iter().filter(|m| m.eye) {
            if let [one, other] = meet.at.as_slice() {
                let (one, other) = ((one.family, one.offset), (other.family, other.offset));
                eyes.entry((pass.family, Shift::ZERO)).or_default().extend([one, other]);
            }
        }
    }
    let mut of_family: BTreeMap<FamilyId, Vec<Threading>> = BTreeMap::new();
    for link in &links.links {
        let accent = link.accent.is_some();
        let way = if link.sign > 0 { Direction::Down } else { Direction::Up };
        let threading = Threading { family: link.from, through: vec![(link.to, link.offset)], way, accent };
        of_family.entry(link.from).or_default().push(threading);
    }
    for (family, threadings) in &mut of_family {
        let pairs = eyes.get(&(*family, Shift::ZERO)).map_or(&[][..], Vec::as_slice);
        join_eyes(threadings, pairs);
    }
    of_family.into_values().flatten().collect()
}

/// The threadings of each family.
pub fn by_family(threadings: &[Threading]) -> BTreeMap<FamilyId, Vec<&Threading>> {
    let mut of: BTreeMap<FamilyId, Vec<&Threading>> = BTreeMap::new();
    for threading in threadings {
        of.entry(threading.family).or_default().push(threading);
    }
    of
}

fn join_eyes(threadings: &mut Vec<Threading>, pairs: &[Name]) {
    let mut place: BTreeMap<Name, usize> = BTreeMap::new();
    for (number, threading) in threadings.iter().enumerate() {
        for name in &threading.through {
            place.insert(*name, number);
        }
    }
    for pair in pairs.chunks_exact(2) {
        let [one, other] = pair else { continue };
        let (Some(&one), Some(&other)) = (place.get(one), place.get(other)) else { continue };
        let (keep, give) = (one.min(other), one.max(other));
        let same = threadings.get(keep).map(|t| t.way) == threadings.get(give).map(|t| t.way);
        if keep == give || !same {
            continue;
        }
        let given = threadings.get_mut(give).map(|t| std::mem::take(&mut t.through)).unwrap_or_default();
        for name in &given {
            place.insert(*name, keep);
        }
        if let Some(threading) = threadings.get_mut(keep) {
            threading.through.extend(given);
        }
    }
    threadings.retain(|t| !t.through.is_empty());
    for threading in threadings {
        threading.through.sort_unstable();
    }
}
