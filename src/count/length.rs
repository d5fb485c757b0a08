//! The finished length of a chain.

use super::reach::Reach;
use crate::measure::length_mm;
use crate::pattern::{Lattice, Make, Repeats};
use crate::text::count;
use crate::weave::Weave;

/// The most repeats that a length asks for.
const MOST_REPEATS: u32 = 9_999_999;

/// The length of a chain, by a maker's own measurement or as computed.
///
/// Without a clasp it is measured on the bench, from the outer edge of the first ring to the outer edge of the last. A
/// clasp hangs in the end rings: then the chain is measured from the edge of the first hole to the edge of the last,
/// and the clasp from the inside of one loop to the inside of the other.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LengthCount {
    /// A number of repeats, and the length that was measured over them, mm.
    pub measured: Option<(u32, f64)>,
    /// Length of one repeat of rigid rings drawn out, mm; `None` where sizes are not in mm, where the weave does not
    /// close at them, or where rings stretch.
    pub computed_pitch_mm: Option<f64>,
    /// What the end rings add to whole repeats, as computed, mm; below 0 where some are left out. `None` where it is
    /// not known and whole repeats are taken.
    pub ends_mm: Option<f64>,
    /// The clasp, mm; 0 where there is none.
    pub clasp_mm: f64,
    /// The length that was asked for, mm.
    pub asked_mm: Option<f64>,
    /// Length of one repeat, mm: as measured, or else as computed.
    pub pitch_mm: f64,
    /// Length of the piece with its clasp, mm.
    pub length_mm: f64,
}

impl LengthCount {
    /// The length of a chain of this size. Settles the weave where sizes are in mm. `None` where no sample was measured
    /// and nothing can be computed.
    pub fn of(weave: &Weave, size: Repeats) -> Option<Self> {
        let make = &weave.pattern().make;
        let measured = measured(weave);
        let reach = Reach::of_weave(weave, Lattice::Chain);
        let computed_pitch_mm = reach.as_ref().and_then(|r| r.pitch_mm.first().copied());
        let pitch_mm = measured.map(|(repeats, mm)| mm / f64::from(repeats)).or(computed_pitch_mm)?;
        let clasp_mm = clasp_mm(make);
        let ends_mm = reach.and_then(|reach| ends_mm(weave, &reach, size, pitch_mm));
        let asked_mm = make.length.as_ref().and_then(length_mm);
        let length_mm = f64::from(size.0[0]) * pitch_mm + ends_mm.unwrap_or(0.0) + clasp_mm;
        Some(Self { measured, computed_pitch_mm, ends_mm, clasp_mm, asked_mm, pitch_mm, length_mm })
    }

    /// The length and where it comes from, in sentences, a line each.
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
        lines.push(match self.ends_mm {
            Some(mm) if mm >= 0.05 => format!("The end rings add {mm:.1} mm to whole repeats."),
            Some(mm) if mm <= -0.05 => format!("The ends are {:.1} mm shorter than whole repeats.", -mm),
            Some(_) => "The end rings reach as far as whole repeats.".to_owned(),
            None => "What the end rings add to whole repeats is not known.".to_owned(),
        });
        let how = if self.clasp_mm > 0.0 {
            format!(" with the {:.1} mm clasp, which hangs in the end rings", self.clasp_mm)
        } else {
            ", from outer edge to outer edge".to_owned()
        };
        let asked = self.asked_mm.map_or(String::new(), |mm| format!(" (asked for: {mm:.1} mm)"));
        lines.push(format!("Finished length{how}: {:.1} mm{asked}.", self.length_mm));
        lines.iter().map(|line| format!("{line}\n")).collect()
    }
}

/// The number of repeats that comes nearest to the finished length, by the maker's own measurement or else as computed,
/// from 1 to [`MOST_REPEATS`]; `None` where no length is asked for or the length of a repeat is not known.
pub fn repeats_for_length(weave: &Weave) -> Option<u32> {
    // Where no length is asked for, nothing is settled.
    weave.pattern().make.length.as_ref()?;
    let pitch = measured(weave).map(|(repeats, mm)| mm / f64::from(repeats));
    repeats_with(weave, Reach::of_weave(weave, Lattice::Chain).as_ref(), pitch)
}

/// The same, where it is known how far the rings reach, or that a repeat is `pitch` mm long (which takes precedence).
pub fn repeats_with(weave: &Weave, reach: Option<&Reach>, pitch: Option<f64>) -> Option<u32> {
    let make = &weave.pattern().make;
    let without_clasp = make.length.as_ref().and_then(length_mm)? - clasp_mm(make);
    let pitch = pitch.or_else(|| reach?.pitch_mm.first().copied())?;
    let Some(reach) = reach else {
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // Clamped to what a u32 holds.
        return Some(libm::round(without_clasp / pitch).clamp(1.0, f64::from(MOST_REPEATS)) as u32);
    };
    let length = |n: u32| Some(f64::from(n) * pitch + ends_mm(weave, reach, Repeats([n, 1]), pitch).unwrap_or(0.0));
    reach.nearest(without_clasp, 0, MOST_REPEATS, length, pitch)
}

/// What the end rings add to whole repeats of `pitch` mm: from their outer edges, or from the inside where a clasp
/// hangs in them. Where a sample came out shorter or longer than computed, it is scaled likewise.
fn ends_mm(weave: &Weave, reach: &Reach, size: Repeats, pitch: f64) -> Option<f64> {
    let edges = reach.edges(weave, size, 0)?;
    let from_edge_to_edge = if clasp_mm(&weave.pattern().make) > 0.0 { edges.inside_mm } else { edges.outer_mm };
    let computed = reach.pitch_mm.first()?;
    Some((from_edge_to_edge - f64::from(size.0[0]) * computed) * pitch / computed)
}

fn clasp_mm(make: &Make) -> f64 {
    make.clasp.as_ref().and_then(length_mm).unwrap_or(0.0)
}

fn measured(weave: &Weave) -> Option<(u32, f64)> {
    let pattern = weave.pattern();
    let (repeats, measured) = pattern.make.measured.as_ref().filter(|_| pattern.lattice == Lattice::Chain)?;
    Some(((*repeats).max(1), length_mm(measured)?))
}
