//! How long a chain comes out.

use super::size::length_mm;
use crate::pattern::{Lattice, Pattern};
use crate::rings::Size;

/// The length of a chain by a maker's own measurement.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LengthCount {
    /// So many repeats were measured …
    pub repeats: u32,
    /// … so long, mm.
    pub measured_mm: f64,
    /// The clasp, mm; 0 where there is none.
    pub clasp_mm: f64,
    /// The length that was asked for, mm.
    pub asked_mm: Option<f64>,
    /// The length of the piece with its clasp, mm.
    pub length_mm: f64,
}

impl LengthCount {
    /// The length of a chain of this size; `None` where no sample was measured.
    pub fn of(pattern: &Pattern, size: Size) -> Option<Self> {
        let make = &pattern.make;
        let (repeats, measured) = make.measured.as_ref().filter(|_| pattern.lattice == Lattice::Chain)?;
        let (repeats, measured_mm) = ((*repeats).max(1), length_mm(measured)?);
        let clasp_mm = make.clasp.as_ref().and_then(length_mm).unwrap_or(0.0);
        let length = f64::from(size.0[0]) * measured_mm / f64::from(repeats) + clasp_mm;
        let asked_mm = make.length.as_ref().and_then(length_mm);
        Some(Self { repeats, measured_mm, clasp_mm, asked_mm, length_mm: length })
    }

    /// Length of one repeat, mm.
    pub fn pitch_mm(&self) -> f64 {
        self.measured_mm / f64::from(self.repeats)
    }
}
