//! `byrnie picture`

use super::{Outcome, Stop, files, image, settled, size_of, sound_weave};
use crate::cli::{CallOut, Look, PictureArgs, Side, SizeArgs};
use byrnie::Weave;
use byrnie::draw::picture;
use byrnie::draw::picture::{Frames, Options, Scale, Viewpoint, picture};
use byrnie::pattern::Repeats;
use byrnie::steps::Instructions;
use std::path::Path;

/// The most pictures of steps that are written.
const MOST_FRAMES: usize = 500;

pub fn run(args: &PictureArgs) -> Outcome {
    let weave = sound_weave(&args.file)?;
    let options = options(args);
    if let Some(folder) = &args.steps {
        return steps(&Pictured::of(&weave, &args.size, &options)?, folder);
    }
    let drawn = if let Some(step) = args.step {
        one_step(&Pictured::of(&weave, &args.size, &options)?, step)?
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

/// The picture of one step of the written instructions, by its number there.
fn one_step(pictured: &Pictured<'_>, step: u32) -> Result<String, Stop> {
    pictured.step(step as usize).ok_or_else(|| Stop::NoSuchStep {
        weave: pictured.weave.name().to_owned(),
        step,
        steps: pictured.numbers().collect(),
    })
}

/// The pictures of all steps that add one ring, in a folder, with the numbers of the written instructions.
fn steps(pictured: &Pictured<'_>, folder: &Path) -> Outcome {
    let count = pictured.numbers().count();
    if count > MOST_FRAMES {
        return Err(Stop::TooManySteps { steps: count, most: MOST_FRAMES });
    }
    pictured.write(folder)?;
    files::print(&format!("{count} pictures in {}\n", folder.display()))?;
    Ok(0)
}

/// The steps of written instructions, and their pictures: of the shortest piece whose instructions have the same steps, so
/// that rings are as large as can be.
pub struct Pictured<'w> {
    weave: &'w Weave,
    told: Instructions,
    frames: Frames<'w>,
}

impl<'w> Pictured<'w> {
    fn of(weave: &'w Weave, size: &SizeArgs, options: &Options) -> Result<Self, Stop> {
        let size = size_of(weave, size)?;
        let told = Instructions::of(weave, Some(settled(weave)?), size).map_err(Stop::of(weave))?;
        Self::of_told(weave, told, size, options)
    }

    /// The pictures of instructions for a piece of this size.
    pub fn of_told(weave: &'w Weave, told: Instructions, size: Repeats, options: &Options) -> Result<Self, Stop> {
        let (size, told) = shortest_alike(weave, told, size);
        let frames = Frames::of(weave, settled(weave)?, size, options).map_err(Stop::of(weave))?;
        Ok(Self { weave, told, frames })
    }

    /// The numbers of the steps that add one ring.
    fn numbers(&self) -> impl Iterator<Item = usize> + '_ {
        self.told.items.iter().zip(1..).filter(|(item, _)| item.step.is_some()).map(|(_, number)| number)
    }

    /// The picture of a step, by its number; `None` where it adds no single ring.
    fn step(&self, number: usize) -> Option<String> {
        self.frames.frame(self.told.items.get(number.checked_sub(1)?)?.step?, number)
    }

    /// Writes the pictures of all steps that add one ring.
    pub fn write(&self, folder: &Path) -> Result<(), Stop> {
        files::folder(folder)?;
        for number in self.numbers() {
            if let Some(drawn) = self.step(number) {
                files::write(&folder.join(picture_name(self.weave, &self.told, number)), drawn)?;
            }
        }
        Ok(())
    }
}

/// The file name of a step's picture.
pub fn picture_name(weave: &Weave, told: &Instructions, number: usize) -> String {
    let digits = told.items.len().to_string().len();
    format!("{}-step-{number:0digits$}.svg", byrnie::text::short_name(weave.name()))
}

/// The shortest piece whose instructions have the same steps, and those instructions.
fn shortest_alike(weave: &Weave, told: Instructions, size: Repeats) -> (Repeats, Instructions) {
    let kinds = |all: &Instructions| all.items.iter().map(|i| (i.step.is_some(), i.accent)).collect::<Vec<_>>();
    let Repeats([first, second]) = size;
    for more in LEAST..MOST {
        let short = Repeats([first.min(more), second.min(more + 1)]);
        if short == size {
            break;
        }
        let shorter = Instructions::of(weave, None, short).ok();
        if let Some(shorter) = shorter.filter(|shorter| kinds(shorter) == kinds(&told)) {
            return (short, shorter);
        }
    }
    (size, told)
}

/// Repeats of a pictured piece, from and up to.
const LEAST: u32 = 4;
const MOST: u32 = 30;
