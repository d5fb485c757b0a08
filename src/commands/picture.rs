//! `byrnie picture`

use super::{Outcome, Stop, files, image, settled, size_of, sound_weave};
use crate::cli::{CallOut, Look, PictureArgs, Side, SizeArgs};
use byrnie::Weave;
use byrnie::draw::picture;
use byrnie::draw::picture::{Frames, Options, Scale, Viewpoint, picture};
use byrnie::pattern::{Lattice, Repeats};
use std::path::Path;

/// The most pictures of steps that are written.
const MOST_FRAMES: usize = 500;
/// Repeats of a chain, and rows and columns of a sheet, that show how the work goes on.
const SHORT_CHAIN: u32 = 6;
const SHORT_SHEET: [u32; 2] = [4, 5];

pub fn run(args: &PictureArgs) -> Outcome {
    let weave = sound_weave(&args.file)?;
    let options = options(args);
    if let Some(folder) = &args.steps {
        return steps(&weave, folder, &frames(&weave, &args.size, &options)?);
    }
    let drawn = if let Some(step) = args.step {
        one_step(&weave, &frames(&weave, &args.size, &options)?, step)?
    } else {
        let size = size_of(&weave, &args.size)?;
        picture(&weave, settled(&weave)?, size, &options).map_err(Stop::of(&weave))?
    };
    image::put(&args.output, &drawn)?;
    Ok(0)
}

/// What the arguments ask for.
fn options(args: &PictureArgs) -> Options {
    let side = match args.from {
        Side::Front => Viewpoint::FRONT,
        Side::Back => Viewpoint::BACK,
        Side::Edge => Viewpoint::EDGE,
    };
    let fitted = args.fit.map_or(Options::default().scale, |(w, h)| Scale::Fit(w, h));
    Options {
        from: Viewpoint { turn_deg: side.turn_deg + args.turn, tilt_deg: side.tilt_deg + args.tilt },
        look: match args.look {
            Look::Shaded => picture::Look::Shaded,
            Look::Outline => picture::Look::Outline,
            Look::Dashed => picture::Look::Dashed,
        },
        scale: args.scale.map_or(fitted, Scale::Times),
        call_out: picture::CallOut {
            eye: args.call_out.contains(&CallOut::Eye),
            lean: args.call_out.contains(&CallOut::Lean),
            aspect_ratio: args.call_out.contains(&CallOut::Ar),
            enlarged: args.enlarge_eye,
        },
    }
}

/// The picture of one step of the work, from 1.
fn one_step(weave: &Weave, frames: &Frames<'_>, step: u32) -> Result<String, Stop> {
    let steps = frames.order().steps.len();
    frames.frame(step as usize - 1).ok_or_else(|| Stop::NoSuchStep { weave: weave.name().to_owned(), steps })
}

/// The pictures of all steps, in a folder.
fn steps(weave: &Weave, folder: &Path, frames: &Frames<'_>) -> Outcome {
    let steps = frames.order().steps.len();
    if steps > MOST_FRAMES {
        return Err(Stop::TooManySteps { steps, most: MOST_FRAMES });
    }
    files::folder(folder)?;
    let name = byrnie::text::short_name(weave.name());
    let digits = steps.to_string().len();
    for number in 0..steps {
        let Some(drawn) = frames.frame(number) else { break };
        files::write(&folder.join(format!("{name}-step-{:0digits$}.svg", number + 1)), drawn)?;
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
    Frames::of(weave, settled(weave)?, size, options).map_err(Stop::of(weave))
}
