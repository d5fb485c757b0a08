//! The sizes a weave is settled at.

use super::problem::RingSize;
use crate::pattern::Pattern;
use crate::supply::{KindSize, sizes};

/// What the text says of sizes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Known {
    /// Wire and inner diameter: lengths are in mm.
    Millimetres,
    /// Aspect ratios alone: lengths are in wires of the first kind.
    Ratios,
    /// Nothing: all rings are taken as alike, and only floors mean something.
    Nothing,
}

/// The size of every family's rings.
#[derive(Clone, Debug)]
pub struct Sizes {
    /// One for each family, in order.
    pub rings: Vec<RingSize>,
    /// What the text says.
    pub known: Known,
    /// Kinds that have no size of their own and are taken to be like the first that has one.
    pub assumed: Vec<String>,
}

impl Sizes {
    /// The size of the rings of a family.
    pub fn of_family(&self, family: usize) -> RingSize {
        self.rings.get(family).copied().unwrap_or(RingSize { radius: 1.0, wire: 1.0 })
    }

    /// The sizes a text gives. A kind with an aspect ratio alone has wire like the first sized kind; a kind
    /// with nothing is taken to be like it altogether.
    pub fn of(pattern: &Pattern) -> Self {
        let written: Vec<KindSize> = sizes(pattern);
        let of_kind = |kind: &str| written.iter().find(|s| s.name == kind);
        let sound = |wire: f64, inner: f64| {
            let size = RingSize { radius: 0.5 * (inner + wire), wire };
            (size.radius.is_finite() && wire > 1e-6 && inner > 1e-6 && inner < 1e5).then_some(size)
        };
        let full = |s: &KindSize| s.wire_mm.zip(s.inner_mm).and_then(|(wire, inner)| sound(wire, inner));
        let kinds = || pattern.families.iter().map(|f| f.kind.as_str());
        let first = kinds().find_map(|kind| of_kind(kind).and_then(full));
        let ratio = |s: &KindSize, wire: f64| s.aspect_ratio.and_then(|ratio| sound(wire, ratio * wire));
        let first_ratio = || kinds().find_map(|kind| of_kind(kind).and_then(|s| ratio(s, 1.0)));
        let (known, like) = match (first, first_ratio()) {
            (Some(size), _) => (Known::Millimetres, size),
            (None, Some(size)) => (Known::Ratios, size),
            (None, None) => (Known::Nothing, RingSize { radius: 1.0, wire: 1.0 }),
        };
        let own = |kind: &str| of_kind(kind).and_then(|s| full(s).or_else(|| ratio(s, like.wire)));
        let rings = kinds().map(|kind| own(kind).unwrap_or(like)).collect();
        let mut assumed: Vec<String> = kinds().filter(|kind| own(kind).is_none()).map(str::to_owned).collect();
        assumed.dedup();
        Self { rings, known, assumed: if known == Known::Nothing { Vec::new() } else { assumed } }
    }
}
