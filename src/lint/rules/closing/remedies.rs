//! Which sizes would close.

use crate::lint::Context;
use crate::measure::{awg_mm, fraction, swg_mm};
use crate::settle::{Floor, LITTLE_ROOM, Settled};
use crate::text::round_up;

/// The most thinner gauges tried in each system where there are several kinds of ring.
const GAUGES: usize = 6;
/// Every gauge.
const ALL_GAUGES: std::ops::RangeInclusive<u32> = 0..=40;

type Table = fn(u32) -> Option<f64>;

/// Which sizes would close, kind by kind: the smallest inner diameter with the wire as it is, the next usual sizes with
/// some room, and the next thinner gauges that have room with the inner diameter as it is.
pub fn remedies(context: &Context<'_>, settled: &Settled) -> String {
    settled.floors.iter().map(|floor| remedy(context, settled, floor)).collect::<Vec<_>>().join("; ")
}

fn remedy(context: &Context<'_>, settled: &Settled, Floor { kind, found, .. }: &Floor) -> String {
    let Some((wire, inner)) = context.size(kind).and_then(|s| s.wire_mm.zip(s.inner_mm)) else {
        let ratio = (1.0 + LITTLE_ROOM) * (found + 1.0) - 1.0;
        return format!("take AR {:.2} or more for `{kind}`", round_up(ratio, 0.01));
    };
    let Some(least) = settled.smallest_inner(context.pattern, kind) else {
        return format!("larger rings of `{kind}` alone make no room");
    };
    let least = round_up(least, 0.01);
    let mut words = format!("with this wire, `{kind}` closes from inner diameter {least:.2} mm");
    if least <= inner {
        words += &format!(" (now {inner:.2} mm)");
    }
    if let Some(roomy) = settled.inner_with_room(context.pattern, kind, wire, LITTLE_ROOM) {
        words += &format!(", and moves freely from {}", usual(roomy));
    }
    let gauges = [("AWG", awg_mm as Table), ("SWG", swg_mm)].into_iter().filter_map(|(system, table)| {
        let (number, mm) = thinner(context, settled, kind, table)?;
        Some(format!("{number} {system} ({mm:.2} mm)"))
    });
    let gauges: Vec<String> = gauges.collect();
    if !gauges.is_empty() {
        words += &format!("; or keep the inner diameter and take {} wire", gauges.join(" or "));
    }
    words
}

/// The thickest gauge thinner than its wire with which a kind's inner diameter has some room.
fn thinner(context: &Context<'_>, settled: &Settled, kind: &str, table: Table) -> Option<(u32, f64)> {
    let (wire, inner) = context.size(kind).and_then(|s| s.wire_mm.zip(s.inner_mm))?;
    let thinner = ALL_GAUGES.filter_map(|n| Some((n, table(n)?))).filter(|(_, mm)| *mm < wire);
    // Rings all alike cost nothing to try.
    let tried = if settled.floors.len() == 1 { usize::MAX } else { GAUGES };
    thinner.take(tried).find(|(_, mm)| {
        settled.inner_with_room(context.pattern, kind, *mm, LITTLE_ROOM).is_some_and(|least| least <= inner)
    })
}

/// The next usual inner diameters from this one, mm, upwards: in half millimetres, and in 64ths of an inch.
fn usual(mm: f64) -> String {
    let parts = round_up(mm / 25.4 * 64.0, 1.0);
    format!("{:.1} mm or {} in ({:.2} mm)", round_up(mm, 0.5), fraction(parts), parts / 64.0 * 25.4)
}
