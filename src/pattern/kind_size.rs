//! The size of a kind of ring, as written and as measured.

use super::{Kind, Pattern};
use crate::measure::{half_step, length_mm, material, millimetres};
use crate::notation::Number;

/// The size of a kind of ring: what is written and measured, and what follows from it.
#[derive(Clone, Debug, PartialEq)]
pub struct KindSize {
    /// The kind.
    pub name: String,
    /// Wire diameter as it counts, mm: as measured, or else nominal.
    pub wire_mm: Option<f64>,
    /// Inner diameter as it counts, mm: as measured, or else nominal.
    pub inner_mm: Option<f64>,
    /// Aspect ratio as it counts: inner / wire.
    pub aspect_ratio: Option<f64>,
    /// Wire diameter the rings are sold by, mm.
    pub nominal_wire_mm: Option<f64>,
    /// Inner diameter the rings are sold by, mm.
    pub nominal_inner_mm: Option<f64>,
    /// Their aspect ratio.
    nominal_ratio: Option<f64>,
}

impl KindSize {
    /// The size of a kind. Of nominal wire, inner diameter and aspect ratio any two give the third; where all three are
    /// written, wire and inner diameter count. What is measured counts before what is nominal, each on its own; with a
    /// nominal aspect ratio alone, what is measured of a ring gives the rest of it.
    pub fn of(kind: &Kind) -> Self {
        let wire = kind.wire.as_ref().and_then(|(size, _)| millimetres(size));
        let inner = kind.inner.as_ref().and_then(|(size, _)| length_mm(size));
        let ratio = kind.aspect_ratio.as_ref().map(|r| r.value).filter(|r| *r > 0.0);
        let nominal_wire_mm = wire.or_else(|| Some(inner? / ratio?));
        let nominal_inner_mm = inner.or_else(|| Some(wire? * ratio?));
        let nominal_ratio = wire.zip(inner).map(|(w, i)| i / w).or(ratio);
        let measured_wire = kind.measured_wire.as_ref().and_then(length_mm);
        let measured_inner = kind.measured_inner.as_ref().and_then(length_mm);
        let wire_mm = measured_wire.or(nominal_wire_mm).or_else(|| Some(measured_inner? / ratio?));
        let inner_mm = measured_inner.or(nominal_inner_mm).or_else(|| Some(measured_wire? * ratio?));
        let measured = measured_wire.is_some() || measured_inner.is_some();
        let counts = wire_mm.zip(inner_mm).filter(|_| measured).map(|(w, i)| i / w);
        Self {
            name: kind.name.clone(),
            wire_mm,
            inner_mm,
            aspect_ratio: counts.or(nominal_ratio),
            nominal_wire_mm,
            nominal_inner_mm,
            nominal_ratio,
        }
    }

    /// Wire and inner diameter the rings are sold by, mm; as measured where nothing is sold.
    pub fn sold_mm(&self) -> [Option<f64>; 2] {
        [self.nominal_wire_mm.or(self.wire_mm), self.nominal_inner_mm.or(self.inner_mm)]
    }

    /// The aspect ratio of the sizes the rings are sold by.
    pub fn nominal_aspect_ratio(&self) -> Option<f64> {
        self.nominal_ratio
    }

    /// Whether an aspect ratio is that of the sizes the rings are sold by, to its own decimals.
    pub fn is_sold_as(&self, ratio: &Number) -> bool {
        self.nominal_ratio.is_some_and(|sold| (sold - ratio.value).abs() <= half_step(ratio) + 1e-9)
    }

    /// The nominal aspect ratio, where it is another than the one that counts.
    pub fn sold_as(&self) -> Option<f64> {
        self.nominal_ratio.filter(|sold| self.aspect_ratio.is_some_and(|counts| (counts - sold).abs() > 1e-9))
    }
}

/// The sizes of every kind with a line in `rings`.
pub fn sizes(pattern: &Pattern) -> Vec<KindSize> {
    pattern.kinds.iter().map(KindSize::of).collect()
}

/// Whether rings of a kind are of a material that stretches: what holds of rigid rings does not hold of them.
pub fn stretches(pattern: &Pattern, kind: &str) -> bool {
    let words = pattern.kind(kind).and_then(|k| k.material.as_ref());
    words.and_then(|m| material(&m.value)).is_some_and(|m| m.stretches)
}

/// Whether some ring stretches.
pub fn some_stretch(pattern: &Pattern) -> bool {
    pattern.families.iter().any(|f| stretches(pattern, &f.kind))
}
