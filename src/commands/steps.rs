//! `byrnie steps`

use super::{Outcome, Stop, files, settled, size_of, sound_weave};
use crate::cli::StepsArgs;
use byrnie::Weave;
use byrnie::draw::picture::{Frames, Options, Scale};
use byrnie::pattern::Repeats;
use byrnie::steps::Instructions;
use std::path::Path;

/// Width and height of a step's picture at most, mm: two go side by side on a page.
const FRAME: (f64, f64) = (80.0, 80.0);

pub fn run(args: &StepsArgs) -> Outcome {
    let weave = sound_weave(&args.file)?;
    let size = size_of(&weave, &args.size)?;
    // Instructions do not need to know where rings lie; they are better if they do.
    let lies = settled(&weave).ok();
    let told = Instructions::of(&weave, lies, size).map_err(Stop::of(&weave))?;
    if let Some(folder) = &args.pictures {
        draw(&weave, &told, size, folder)?;
    }
    let link = |number| {
        let folder = args.pictures.as_ref()?.to_string_lossy();
        Some(format!("{folder}/{}", picture_name(&weave, &told, number)))
    };
    files::put(&args.output, told.markdown(link).as_bytes())?;
    Ok(0)
}

/// Draws the pictures of all items that tell a step.
fn draw(weave: &Weave, told: &Instructions, size: Repeats, folder: &Path) -> Result<(), Stop> {
    let options = Options { scale: Scale::Fit(FRAME.0, FRAME.1), ..Options::default() };
    let (size, shown) = shown(weave, told, size);
    let frames = Frames::of(weave, settled(weave)?, size, &options).map_err(Stop::of(weave))?;
    files::folder(folder)?;
    for (item, number) in shown.items.iter().zip(1..) {
        if let Some(drawn) = item.step.and_then(|step| frames.captioned(step, &format!("step {number}"))) {
            files::write(&folder.join(picture_name(weave, told, number)), &drawn)?;
        }
    }
    Ok(())
}

/// The piece that is pictured: the shortest whose instructions have the same items, so that rings are as large as can be.
fn shown(weave: &Weave, told: &Instructions, size: Repeats) -> (Repeats, Instructions) {
    let alike = |other: &Instructions| {
        let kinds = |all: &Instructions| all.items.iter().map(|i| (i.step.is_some(), i.accent)).collect::<Vec<_>>();
        kinds(other) == kinds(told)
    };
    let Repeats([first, second]) = size;
    for more in LEAST..MOST {
        let short = Repeats([first.min(more), second.min(more + 1)]);
        let shorter = Instructions::of(weave, None, short).ok().filter(alike);
        if let Some(shorter) = shorter.filter(|_| short != size) {
            return (short, shorter);
        }
    }
    (size, told.clone())
}

/// Repeats of a pictured piece, from and up to.
const LEAST: u32 = 4;
const MOST: u32 = 30;

fn picture_name(weave: &Weave, told: &Instructions, number: usize) -> String {
    let digits = told.items.len().to_string().len();
    format!("{}-step-{number:0digits$}.svg", byrnie::text::short_name(weave.name()))
}
