//! The size of a kind of ring, as written and as measured.

use super::{Kind, Pattern};
use crate::measure::{half_step, length_mm, material, millimetres};
use crate::notation::Number;

/// The size of a kind of ring: what is written and measured, and what follows from it.
#[derive(Clone, Debug, PartialEq)]
pub struct KindSize {
    /// The kind.
    pub name: String,
    /// Wire diameter, mm: as measured, or else nominal.
    pub wire_mm: Option<f64>,
    /// Inner diameter, mm: as measured, or else nominal.
    pub inner_mm: Option<f64>,
    /// Aspect ratio of these: inner / wire.
    pub aspect_ratio: Option<f64>,
    /// Nominal wire diameter, mm: the one the rings are sold by.
    pub nominal_wire_mm: Option<f64>,
    /// Nominal inner diameter, mm: the one the rings are sold by.
    pub nominal_inner_mm: Option<f64>,
    /// Aspect ratio of the nominal sizes.
    pub nominal_aspect_ratio: Option<f64>,
}

impl KindSize {
    /// The size of a kind. Any two of nominal wire, inner diameter and aspect ratio give the third; where all three are
    /// written, the aspect ratio is not used. A measured size takes precedence over the nominal one; with a nominal
    /// aspect ratio alone, one measured size gives the other.
    pub fn of(kind: &Kind) -> Self {
        let wire = kind.wire.as_ref().and_then(|(size, _)| millimetres(size));
        let inner = kind.inner.as_ref().and_then(|(size, _)| length_mm(size));
        let ratio = kind.aspect_ratio.as_ref().map(|r| r.value).filter(|r| *r > 0.0);
        let nominal_wire_mm = wire.or_else(|| Some(inner? / ratio?));
        let nominal_inner_mm = inner.or_else(|| Some(wire? * ratio?));
        let nominal_aspect_ratio = wire.zip(inner).map(|(w, i)| i / w).or(ratio);
        let measured_wire = kind.measured_wire.as_ref().and_then(length_mm);
        let measured_inner = kind.measured_inner.as_ref().and_then(length_mm);
        let wire_mm = measured_wire.or(nominal_wire_mm).or_else(|| Some(measured_inner? / ratio?));
        let inner_mm = measured_inner.or(nominal_inner_mm).or_else(|| Some(measured_wire? * ratio?));
        let measured = measured_wire.is_some() || measured_inner.is_some();
        let of_measured = wire_mm.zip(inner_mm).filter(|_| measured).map(|(w, i)| i / w);
        Self {
            name: kind.name.clone(),
            wire_mm,
            inner_mm,
            aspect_ratio: of_measured.or(nominal_aspect_ratio),
            nominal_wire_mm,
            nominal_inner_mm,
            nominal_aspect_ratio,
        }
    }

    /// Wire and inner diameter that the rings are sold by, mm; the measured ones where there are no others.
    pub fn sold_mm(&self) -> [Option<f64>; 2] {
        [self.nominal_wire_mm.or(self.wire_mm), self.nominal_inner_mm.or(self.inner_mm)]
    }

    /// Whether an aspect ratio, rounded to its own decimals, is that of the nominal sizes.
    pub fn is_sold_as(&self, ratio: &Number) -> bool {
        self.nominal_aspect_ratio.is_some_and(|sold| (sold - ratio.value).abs() <= half_step(ratio) + 1e-9)
    }

    /// The nominal aspect ratio, where the measured one differs.
    pub fn sold_as(&self) -> Option<f64> {
        self.nominal_aspect_ratio.filter(|sold| self.aspect_ratio.is_some_and(|ratio| (ratio - sold).abs() > 1e-9))
    }
}

/// The sizes of every kind with a line in `rings`.
pub fn sizes(pattern: &Pattern) -> Vec<KindSize> {
    pattern.kinds.iter().map(KindSize::of).collect()
}

/// Whether rings of a kind are of a material that stretches; nothing that is known of rigid rings applies to them.
pub fn stretches(pattern: &Pattern, kind: &str) -> bool {
    let words = pattern.kind(kind).and_then(|k| k.material.as_ref());
    words.and_then(|m| material(&m.value)).is_some_and(|m| m.stretches)
}

/// Whether rings of some family stretch.
pub fn some_stretch(pattern: &Pattern) -> bool {
    pattern.families.iter().any(|f| stretches(pattern, &f.kind))
}
