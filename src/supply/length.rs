//! How long a chain comes out.

use super::size::{length_mm, some_stretch};
use super::table::count;
use crate::pattern::{Lattice, Make};
use crate::rings::Size;
use crate::settle::Sizes;
use crate::weave::Weave;

/// The length of a chain, by a maker's own measurement or as computed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LengthCount {
    /// So many repeats were measured so long, mm.
    pub measured: Option<(u32, f64)>,
    /// Length of one repeat drawn out as rigid rings lie, mm; `None` where sizes are not given in mm, where the
    /// weave does not close at them, or where rings stretch.
    pub computed_pitch_mm: Option<f64>,
    /// The clasp, mm; 0 where there is none.
    pub clasp_mm: f64,
    /// The length that was asked for, mm.
    pub asked_mm: Option<f64>,
    /// Length of one repeat that counts, mm: as measured, or else as computed.
    pub pitch_mm: f64,
    /// The length of the piece with its clasp, mm, with that repeat.
    pub length_mm: f64,
}

impl LengthCount {
    /// The length of a chain of this size. Settles the weave where sizes are given in mm. `None` where no sample
    /// was measured and nothing can be computed.
    pub fn of(weave: &Weave, size: Size) -> Option<Self> {
        let make = &weave.pattern.make;
        let measured = measured(weave);
        let computed_pitch_mm = computed_pitch_mm(weave);
        let pitch_mm = measured.map(|(repeats, mm)| mm / f64::from(repeats)).or(computed_pitch_mm)?;
        let clasp_mm = make.clasp.as_ref().and_then(length_mm).unwrap_or(0.0);
        let asked_mm = make.length.as_ref().and_then(length_mm);
        let length_mm = f64::from(size.0[0]) * pitch_mm + clasp_mm;
        Some(Self { measured, computed_pitch_mm, clasp_mm, asked_mm, pitch_mm, length_mm })
    }

    /// Which length was used, in sentences, a line each.
    pub(super) fn words(&self) -> String {
        let mut lines = Vec::new();
        if let Some((repeats, mm)) = self.measured {
            let pitch = self.pitch_mm;
            lines.push(format!(
                "Measured: {} in {mm:.1} mm, a pitch of {pitch:.2} mm.",
                count(u64::from(repeats), "repeat")
            ));
        }
        if let Some(pitch) = self.computed_pitch_mm {
            let besides = if self.measured.is_some() { "; the measured one is used" } else { "" };
            lines.push(format!(
                "Computed: a pitch of {pitch:.2} mm drawn out, for rigid rings of these sizes{besides}."
            ));
        }
        let clasp =
            if self.clasp_mm > 0.0 { format!(" with the {:.1} mm clasp", self.clasp_mm) } else { String::new() };
        let asked = self.asked_mm.map_or(String::new(), |mm| format!(" (asked for: {mm:.1} mm)"));
        lines.push(format!("Finished length{clasp}: {:.1} mm{asked}.", self.length_mm));
        lines.iter().map(|line| format!("{line}\n")).collect()
    }
}

/// The number of repeats that comes nearest to the finished length without the clasp, by a maker's own
/// measurement, or else as computed; `None` where `make` says no length or the length of a repeat is not known.
/// At least 1, at most 9,999,999.
pub fn repeats_for_length(weave: &Weave) -> Option<u32> {
    let pitch = measured(weave).map(|(repeats, mm)| mm / f64::from(repeats));
    // Nothing is settled where no length is asked for.
    weave.pattern.make.length.as_ref()?;
    repeats_of_pitch(&weave.pattern.make, pitch.or_else(|| computed_pitch_mm(weave))?)
}

/// The number of repeats of `pitch` mm that comes nearest to the finished length without the clasp; `None` where
/// `make` says no length. At least 1, at most 9,999,999.
pub fn repeats_of_pitch(make: &Make, pitch: f64) -> Option<u32> {
    let length = make.length.as_ref().and_then(length_mm)?;
    let clasp = make.clasp.as_ref().and_then(length_mm).unwrap_or(0.0);
    let repeats = libm::round((length - clasp) / pitch);
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // Clamped to what a u32 holds.
    Some(repeats.clamp(1.0, 9_999_999.0) as u32)
}

fn measured(weave: &Weave) -> Option<(u32, f64)> {
    let pattern = &weave.pattern;
    let (repeats, measured) = pattern.make.measured.as_ref().filter(|_| pattern.lattice == Lattice::Chain)?;
    Some(((*repeats).max(1), length_mm(measured)?))
}

fn computed_pitch_mm(weave: &Weave) -> Option<f64> {
    let pattern = &weave.pattern;
    if pattern.lattice != Lattice::Chain || !Sizes::of(pattern).all_in_mm || some_stretch(pattern) {
        return None;
    }
    let natural = weave.settled().ok()?.natural.as_ref()?;
    natural.first().copied().filter(|mm| mm.is_finite() && *mm > 0.0)
}
