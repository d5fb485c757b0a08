//! The sizes a weave is settled at.

use crate::pattern::{FamilyId, KindSize, Pattern, PerFamily, sizes};
use crate::settle::solve::RingSize;
use schemars::JsonSchema;
use serde::Serialize;

/// What the text says of sizes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Known {
    /// Wire and inner diameter: lengths are in mm.
    #[serde(rename = "mm")]
    Millimetres,
    /// Aspect ratios alone: lengths are in wires of the first kind.
    Ratios,
    /// Nothing: all rings are taken as alike, and only floors mean something.
    #[serde(rename = "none")]
    Nothing,
}

/// The size of every family's rings.
#[derive(Clone, Debug)]
pub struct Sizes {
    /// One for each family.
    pub rings: PerFamily<RingSize>,
    /// What the text says.
    pub known: Known,
    /// Kinds that have no size of their own and are taken to be like the first that has one.
    pub assumed: Vec<String>,
    /// Whether wire and inner diameter of every ring are given.
    pub all_in_mm: bool,
    /// Whether what is given settles how every ring stands to every other: all of it in mm, or one kind with an
    /// aspect ratio.
    pub complete: bool,
}

impl Sizes {
    /// The size of the rings of a family.
    pub fn of_family(&self, family: FamilyId) -> RingSize {
        self.rings[family]
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
        let in_mm = |kind: &str| {
            of_kind(kind).and_then(|s| s.wire_mm.zip(s.inner_mm)).and_then(|(wire, inner)| sound(wire, inner))
        };
        let ratio = |kind: &str, wire: f64| {
            of_kind(kind).and_then(|s| s.aspect_ratio).and_then(|ratio| sound(wire, ratio * wire))
        };
        let kinds = || pattern.families.iter().map(|f| f.kind.as_str());
        let (known, like) = match (kinds().find_map(in_mm), kinds().find_map(|kind| ratio(kind, 1.0))) {
            (Some(size), _) => (Known::Millimetres, size),
            (None, Some(size)) => (Known::Ratios, size),
            (None, None) => (Known::Nothing, RingSize::UNKNOWN),
        };
        let own = |kind: &str| in_mm(kind).or_else(|| ratio(kind, like.wire));
        let mut assumed: Vec<String> = Vec::new();
        for kind in kinds().filter(|kind| known != Known::Nothing && own(kind).is_none()) {
            if !assumed.iter().any(|known| known == kind) {
                assumed.push(kind.to_owned());
            }
        }
        let all_in_mm = kinds().all(|kind| in_mm(kind).is_some());
        let one_kind = kinds().all(|kind| Some(kind) == kinds().next());
        Self {
            rings: kinds().map(|kind| own(kind).unwrap_or(like)).collect(),
            known,
            all_in_mm,
            complete: all_in_mm || one_kind && known != Known::Nothing,
            assumed,
        }
    }

    /// The same sizes in mean core radii, and how long one of these is, mm. What is settled in them comes out the
    /// same whatever unit sizes are written in: what differs by rounding is rounded away.
    pub(crate) fn in_mean_radii(&self) -> (Self, f64) {
        const DIGITS: f64 = 1e12;
        let count = u32::try_from(self.rings.len()).map_or(1.0, f64::from).max(1.0);
        let mean = self.rings.iter().map(|r| r.radius).sum::<f64>() / count;
        let part = |x: f64| libm::round(x / mean * DIGITS) / DIGITS;
        let rings = self.rings.map(|r| RingSize { radius: part(r.radius), wire: part(r.wire) });
        (Self { rings, ..self.clone() }, mean)
    }
}
