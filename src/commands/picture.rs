//! `byrnie picture`

use super::{Outcome, Stop, drawing, files, settled, size_of, sound_weave};
use crate::cli::{CallOut, Look, Side, SizeArgs};
use byrnie::Weave;
use byrnie::draw::picture;
use byrnie::draw::picture::{Frames, NotDrawn, Options, Scale, Viewpoint, picture};
use byrnie::pattern::{Lattice, Repeats};
use std::path::Path;

/// The most pictures of steps that are written.
const MOST_FRAMES: usize = 500;
/// Repeats of a chain, and rows and columns of a sheet, that show how the work goes on.
const SHORT_CHAIN: u32 = 6;
const SHORT_SHEET: [u32; 2] = [4, 5];

/// What the arguments ask for.
pub fn options(from: Side, [turn, tilt]: [f64; 2], look: Look, scale: Option<f64>, fit: Option<(f64, f64)>) -> Options {
    let side = match from {
        Side::Front => Viewpoint::FRONT,
        Side::Back => Viewpoint::BACK,
        Side::Edge => Viewpoint::EDGE,
    };
    let plain = Options::default();
    let fitted = fit.map_or(plain.scale, |(w, h)| Scale::Fit(w, h));
    Options {
        from: Viewpoint { turn_deg: side.turn_deg + turn, tilt_deg: side.tilt_deg + tilt },
        look: match look {
            Look::Shaded => picture::Look::Shaded,
            Look::Outline => picture::Look::Outline,
            Look::Dashed => picture::Look::Dashed,
        },
        scale: scale.map_or(fitted, Scale::Times),
        ..plain
    }
}

/// What is to be called out.
pub fn call_out(what: &[CallOut], enlarged: bool) -> picture::CallOut {
    picture::CallOut {
        eye: what.contains(&CallOut::Eye),
        lean: what.contains(&CallOut::Lean),
        aspect_ratio: what.contains(&CallOut::Ar),
        enlarged,
    }
}

pub fn run(file: &Path, output: Option<&Path>, size: &SizeArgs, options: &Options) -> Outcome {
    let weave = sound_weave(file)?;
    let size = size_of(&weave, size)?;
    let drawn = picture(&weave, settled(&weave)?, size, options).map_err(|why| not_drawn(&weave, &why))?;
    drawing::write(output, &drawn)?;
    Ok(0)
}

/// The picture of one step of the work, from 1.
pub fn step(file: &Path, output: Option<&Path>, size: &SizeArgs, options: &Options, step: u32) -> Outcome {
    let weave = sound_weave(file)?;
    let frames = frames(&weave, size, options)?;
    let steps = frames.order().steps.len();
    let drawn = frames.frame(step as usize - 1).ok_or_else(|| {
        Stop::usage(format!("{} has {steps} steps at this size; choose one of them, or make it longer", weave.name()))
    })?;
    drawing::write(output, &drawn)?;
    Ok(0)
}

/// The pictures of all steps, in a folder.
pub fn steps(file: &Path, folder: &Path, size: &SizeArgs, options: &Options) -> Outcome {
    let weave = sound_weave(file)?;
    let frames = frames(&weave, size, options)?;
    let steps = frames.order().steps.len();
    if steps > MOST_FRAMES {
        return Err(Stop::usage(format!(
            "{steps} steps are too many pictures, of {MOST_FRAMES} at most; choose a shorter piece with --repeats, --rows and --columns"
        )));
    }
    files::folder(folder)?;
    let name = byrnie::text::short_name(weave.name());
    let digits = steps.to_string().len();
    for number in 0..steps {
        let Some(drawn) = frames.frame(number) else { break };
        files::write(&folder.join(format!("{name}-step-{:0digits$}.svg", number + 1)), &drawn)?;
    }
    files::print(&format!("{steps} pictures in {}\n", folder.display()))?;
    Ok(0)
}

/// The frames of a piece. Without a size asked for it is a short one: as long as it takes to see the work go on alike.
fn frames<'w>(weave: &'w Weave, asked: &SizeArgs, options: &Options) -> Result<Frames<'w>, Stop> {
    let Repeats([first, second]) = size_of(weave, asked)?;
    let [most, across] = if weave.pattern().lattice == Lattice::Sheet { SHORT_SHEET } else { [SHORT_CHAIN, 1] };
    let size = Repeats([
        if asked.repeats.or(asked.rows).is_some() { first } else { first.min(most) },
        if asked.columns.is_some() { second } else { second.min(across) },
    ]);
    Frames::of(weave, settled(weave)?, size, options).map_err(|why| not_drawn(weave, &why))
}

fn not_drawn(weave: &Weave, why: &NotDrawn) -> Stop {
    Stop::found(format!("{}: {why}", weave.name()))
}
