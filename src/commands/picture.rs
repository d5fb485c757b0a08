//! `byrnie picture`

use super::png::png;
use super::{Outcome, Stop, files, patiently, size_of, sound_weave};
use crate::cli::{CallOut, Look, Side, SizeArgs};
use byrnie::Weave;
use byrnie::draw::picture;
use byrnie::draw::picture::{Frames, NotDrawn, Options, Scale, Viewpoint, picture};
use byrnie::pattern::Repeats;
use byrnie::settle::Settled;
use byrnie::steps::Instructions;
use std::path::Path;

/// The most pictures of steps that are written.
const MOST_FRAMES: usize = 500;

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
    put(output, &drawn)
}

/// The picture of one step of the written instructions, by its number there.
pub fn step(file: &Path, output: Option<&Path>, size: &SizeArgs, options: &Options, step: u32) -> Outcome {
    let weave = sound_weave(file)?;
    let pictured = Pictured::of(&weave, size, options)?;
    let drawn = pictured.step(step as usize).ok_or_else(|| {
        let numbers: Vec<String> = pictured.numbers().map(|n| n.to_string()).collect();
        Stop::usage(format!(
            "step {step} of {} adds no single ring; these steps do: {}",
            weave.name(),
            numbers.join(", ")
        ))
    })?;
    put(output, &drawn)
}

/// The pictures of all steps that add one ring, in a folder, with the numbers of the written instructions.
pub fn steps(file: &Path, folder: &Path, size: &SizeArgs, options: &Options) -> Outcome {
    let weave = sound_weave(file)?;
    let pictured = Pictured::of(&weave, size, options)?;
    let pictures = pictured.numbers().count();
    if pictures > MOST_FRAMES {
        return Err(Stop::usage(format!(
            "{pictures} pictures are too many; the most is {MOST_FRAMES}. Choose a shorter piece with --repeats, --rows and --columns"
        )));
    }
    pictured.write(folder)?;
    files::print(&format!("{pictures} pictures in {}\n", folder.display()))?;
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
        let told = Instructions::of(weave, Some(settled(weave)?), size)
            .map_err(|why| Stop::found(format!("{}: {why}", weave.name())))?;
        Self::of_told(weave, told, size, options)
    }

    /// The pictures of instructions for a piece of this size.
    pub fn of_told(weave: &'w Weave, told: Instructions, size: Repeats, options: &Options) -> Result<Self, Stop> {
        let (size, told) = shortest_alike(weave, told, size);
        let frames = Frames::of(weave, settled(weave)?, size, options).map_err(|why| not_drawn(weave, &why))?;
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
                files::write(&folder.join(picture_name(self.weave, &self.told, number)), &drawn)?;
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

pub fn settled(weave: &Weave) -> Result<&Settled, Stop> {
    let settled = patiently(format!("settling {}", weave.name()), || weave.settled());
    settled.map_err(|why| Stop::found(format!("{}: {why}", weave.name())))
}

fn not_drawn(weave: &Weave, why: &NotDrawn) -> Stop {
    Stop::found(format!("{}: {why}", weave.name()))
}

/// Writes a picture where it is wanted, as PNG if its name says so.
pub fn put(output: Option<&Path>, drawn: &str) -> Outcome {
    match output {
        Some(path) if path.extension().is_some_and(|e| e.eq_ignore_ascii_case("png")) => {
            files::write_bytes(path, &png(drawn)?)?;
        }
        Some(path) => files::write(path, drawn)?,
        None => files::print(drawn)?,
    }
    Ok(0)
}
