//! What the rules share that say whether a weave closes at its sizes, and which sizes would do.

use super::context::Context;
use crate::measure::{awg_mm, fraction, swg_mm};
use crate::pattern::{FamilyId, Shift};
pub use crate::settle::LITTLE_ROOM;
use crate::settle::{Known, Settled};
use crate::text::Span;

/// So many thinner gauges are tried in each system.
const GAUGES: u32 = 6;

/// How a weave stands to its floor at the sizes written.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Closes {
    /// It closes, with so much room.
    Straight(f64),
    /// It closes when it may twist or curl, and how.
    Curled,
    /// It does not close: no pose was found.
    No,
}

/// How a weave stands to its floor; `None` where its sizes do not say or where they mean nothing.
pub fn closes<'w>(context: &Context<'w>) -> Option<(&'w Settled, Closes)> {
    let settled = context.settled_at_sizes()?;
    let room = settled.room()?;
    let closes = match settled.curled {
        _ if settled.closes() == Some(true) => Closes::Straight(room.max(0.0)),
        Some(_) => Closes::Curled,
        None => Closes::No,
    };
    Some((settled, closes))
}

/// The aspect ratio a kind has in a settled weave, and its floor: found, proved.
pub struct Standing<'s> {
    /// The kind.
    pub kind: &'s str,
    /// Its aspect ratio.
    pub ratio: f64,
    /// The aspect ratio of the smallest pose found.
    pub found: f64,
    /// Below this it cannot.
    pub proved: f64,
}

impl<'s> Standing<'s> {
    /// Of all kinds, the first family's first.
    pub fn all(settled: &'s Settled) -> Vec<Self> {
        let scale = settled.scale.unwrap_or(1.0);
        let floors = settled.floors.iter();
        floors
            .map(|f| Self { kind: &f.kind, ratio: (f.found + 1.0) * scale - 1.0, found: f.found, proved: f.proved })
            .collect()
    }

    /// "`main` has AR 3.500; it closes from 3.893 on (found), below 2.155 it cannot (proved)".
    pub fn words(&self) -> String {
        let Self { kind, ratio, found, proved } = self;
        let proof = if *proved > 0.0 { format!(", below {proved:.3} it cannot (proved)") } else { String::new() };
        format!("`{kind}` has AR {ratio:.3}; it closes from {found:.3} on (found){proof}")
    }
}

/// The standing of all kinds in words.
pub fn standings(settled: &Settled) -> String {
    Standing::all(settled).iter().map(Standing::words).collect::<Vec<_>>().join("; ")
}

/// Where a kind's size is written, or else the weave's name.
pub fn kind_span(context: &Context<'_>, kind: &str) -> Span {
    context.pattern.kind(kind).and_then(|k| k.span).unwrap_or(context.whole())
}

/// The places where rings would run into one another at the sizes written, each sort once, the worst first:
/// the family of the first ring, and "a[1] and b[2] would run into one another by 0.12 mm".
pub fn collisions(context: &Context<'_>, settled: &Settled) -> Vec<(FamilyId, String)> {
    const MOST: usize = 3;
    let mut seen: Vec<[FamilyId; 2]> = Vec::new();
    let mut found = Vec::new();
    for near in &settled.collisions {
        let family = |ring: usize| settled.rings.get(ring).map(|r| r.0);
        let (Some(from), Some(to)) = (family(near.from), family(near.to)) else { continue };
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
        let words = format!(
            "{} and {} would run into one another by {by}",
            name(near.from, Shift::ZERO),
            name(near.to, near.shift)
        );
        found.push((from, words));
    }
    found
}

/// What sizes would do, kind by kind: the smallest inner diameter with the wire as it is, the next usual sizes
/// with some room, the next thinner gauges that have room with the inner diameter as it is.
pub fn ways_out(context: &Context<'_>, settled: &Settled) -> String {
    let mut lines: Vec<String> = Vec::new();
    for Standing { kind, found, .. } in Standing::all(settled) {
        let size = context.sizes.iter().find(|s| s.name == kind);
        let Some((wire, inner)) = size.and_then(|s| s.wire_mm.zip(s.inner_mm)) else {
            let ratio = (1.0 + LITTLE_ROOM) * (found + 1.0) - 1.0;
            lines.push(format!("take AR {:.2} or more for `{kind}`", up(ratio, 0.01)));
            continue;
        };
        let Some(least) = settled.smallest_inner(context.pattern, kind) else {
            lines.push(format!("larger rings of `{kind}` alone make no room"));
            continue;
        };
        let least = up(least, 0.01);
        let mut line = if least > inner {
            format!("with its wire `{kind}` closes from an inner diameter of {least:.2} mm on")
        } else {
            format!("with its wire `{kind}` closes from {least:.2} mm of inner diameter on, and has {inner:.2} mm")
        };
        if let Some(roomy) = settled.inner_with_room(context.pattern, kind, wire, LITTLE_ROOM) {
            line += &format!("; with room to move {}", usual(roomy));
        }
        let gauges: Vec<String> = [("AWG", awg_mm as fn(u32) -> Option<f64>), ("SWG", swg_mm)]
            .into_iter()
            .filter_map(|(system, table)| {
                let (number, mm) = thinner(context, settled, kind, (wire, inner), table)?;
                Some(format!("{number} {system} ({mm:.2} mm)"))
            })
            .collect();
        if !gauges.is_empty() {
            line += &format!("; or its inner diameter with wire of {}", gauges.join(" or "));
        }
        lines.push(line);
    }
    lines.join("; ")
}

/// The thickest gauge thinner than the wire with which a kind's inner diameter has some room.
fn thinner(
    context: &Context<'_>,
    settled: &Settled,
    kind: &str,
    (wire, inner): (f64, f64),
    table: fn(u32) -> Option<f64>,
) -> Option<(u32, f64)> {
    let alone = settled.floors.len() == 1;
    let thinner = (0..=40).filter_map(|n| Some((n, table(n)?))).filter(|(_, mm)| *mm < wire);
    // Rings all alike cost nothing to try.
    let mut tried = thinner.take(if alone { 41 } else { GAUGES as usize });
    tried.find(|(_, mm)| {
        settled.inner_with_room(context.pattern, kind, *mm, LITTLE_ROOM).is_some_and(|least| least <= inner)
    })
}

/// The next usual inner diameters from so many mm on: in half millimetres, and in 64ths of an inch.
pub fn usual(mm: f64) -> String {
    let parts = libm::ceil(mm / 25.4 * 64.0 - 1e-6);
    format!("{:.1} mm or {} in ({:.2} mm)", up(mm, 0.5), fraction(parts), parts / 64.0 * 25.4)
}

/// Rounded up to a multiple of a step, so that what is advised is enough.
fn up(x: f64, step: f64) -> f64 {
    libm::ceil(x / step - 1e-6) * step
}
