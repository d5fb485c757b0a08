//! How long a chain comes out.

use super::material::material;
use super::size::{KindSize, length_mm};
use super::table::count;
use crate::pattern::{Lattice, Pattern};
use crate::rings::Size;
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
    let make = &weave.pattern.make;
    let length = make.length.as_ref().and_then(length_mm)?;
    let clasp = make.clasp.as_ref().and_then(length_mm).unwrap_or(0.0);
    let measured = measured(weave).map(|(repeats, mm)| mm / f64::from(repeats));
    let pitch = measured.or_else(|| computed_pitch_mm(weave))?;
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
    if pattern.lattice != Lattice::Chain || !sized_in_mm(pattern) || stretches(pattern) {
        return None;
    }
    let natural = weave.settled().ok()?.natural.as_ref()?;
    natural.first().copied().filter(|mm| mm.is_finite() && *mm > 0.0)
}

/// Whether wire and inner diameter of every ring are given.
fn sized_in_mm(pattern: &Pattern) -> bool {
    let full = |kind: &str| {
        let size = pattern.kind(kind).map(KindSize::of);
        size.is_some_and(|s| s.wire_mm.is_some() && s.inner_mm.is_some())
    };
    pattern.families.iter().all(|f| full(&f.kind))
}

/// Whether some rings are of a material that stretches: what is computed of rigid rings does not hold then.
pub fn stretches(pattern: &Pattern) -> bool {
    let soft = |kind: &str| {
        let words = pattern.kind(kind).and_then(|k| k.material.as_ref());
        words.and_then(|m| material(&m.value)).is_some_and(|m| m.stretches)
    };
    pattern.families.iter().any(|f| soft(&f.kind))
}

/// Whether the sizes written settle how every ring stands to every other: wire and inner diameter of all, or
/// one kind with an aspect ratio.
pub fn sized(pattern: &Pattern) -> bool {
    let mut kinds: Vec<&str> = pattern.families.iter().map(|f| f.kind.as_str()).collect();
    kinds.sort_unstable();
    kinds.dedup();
    let ratio = |kind: &&str| pattern.kind(kind).map(KindSize::of).is_some_and(|s| s.aspect_ratio.is_some());
    sized_in_mm(pattern) || kinds.len() == 1 && kinds.iter().all(ratio)
}
