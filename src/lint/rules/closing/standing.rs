//! What the rules share on whether a weave closes at its sizes.

use crate::lint::Context;
use crate::pattern::{FamilyId, Shift};
use crate::settle::{Floor, Known, Settled};

/// Whether a weave closes at the sizes written.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Closes {
    /// It closes, and all wires could be thicker by this part of them.
    Straight(f64),
    /// It closes only when it may twist or curl.
    Curled,
    /// No pose was found in which it closes.
    No,
}

impl Closes {
    /// With the settled weave; `None` where its sizes are unknown or mean nothing.
    pub fn of<'w>(context: &Context<'w>) -> Option<(&'w Settled, Self)> {
        let settled = context.settled_at_sizes()?;
        let room = settled.room()?;
        let closes = match settled.curled {
            _ if settled.closes() == Some(true) => Self::Straight(room.max(0.0)),
            Some(_) => Self::Curled,
            None => Self::No,
        };
        Some((settled, closes))
    }
}

/// "this weave needs about 3.89 (smallest found; 2.15 is the proved minimum)", for a kind of
/// ring that has this aspect ratio.
pub fn needed(floor: &Floor, ratio: f64) -> String {
    let places = places(floor, ratio);
    let proved = match floor.proved {
        proved if proved > 0.0 => format!("; {proved:.places$} is the proved minimum"),
        _ => String::new(),
    };
    format!("this weave needs about {:.places$} (smallest found{proved})", floor.found)
}

/// "`main` has AR 3.50; this weave needs about 3.89 (smallest found; 2.15 is the proved minimum)".
pub fn standing(settled: &Settled, floor: &Floor) -> String {
    let ratio = (floor.found + 1.0) * settled.scale.unwrap_or(1.0) - 1.0;
    let places = places(floor, ratio);
    format!("`{}` has AR {ratio:.places$}; {}", floor.kind, needed(floor, ratio))
}

/// A third decimal is written where two would hardly tell an aspect ratio from what is needed.
fn places(floor: &Floor, ratio: f64) -> usize {
    if (ratio - floor.found).abs() < 0.05 { 3 } else { 2 }
}

/// The places where rings would overlap at the sizes written, each pair of families once, the worst first: the family of
/// the first ring, and "a[1] and b[2] would overlap by 0.12 mm".
pub fn collisions(context: &Context<'_>, settled: &Settled) -> Vec<(FamilyId, String)> {
    const MOST: usize = 3;
    let mut seen: Vec<[FamilyId; 2]> = Vec::new();
    let mut found = Vec::new();
    for near in &settled.collisions {
        let family = |ring: usize| settled.rings.get(ring).map(|r| r.family);
        let Some((from, to)) = family(near.from).zip(family(near.to)) else { continue };
        let pair = [from.min(to), from.max(to)];
        if found.len() >= MOST || seen.contains(&pair) {
            continue;
        }
        seen.push(pair);
        let name = |ring, shift| settled.ring_name(context.pattern, ring, shift);
        let overlap = near.wires - near.distance;
        let by = if settled.sizes.known == Known::Millimetres {
            format!("{overlap:.2} mm")
        } else {
            format!("{:.1} % of their wire", 100.0 * overlap / near.wires)
        };
        let words = format!("{} and {} would overlap by {by}", name(near.from, Shift::ZERO), name(near.to, near.shift));
        found.push((from, words));
    }
    found
}
