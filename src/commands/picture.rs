//! `byrnie picture`

use super::png::png;
use super::{Outcome, Stop, files, patiently, size_of, sound_weave};
use crate::cli::{Look, Side, SizeArgs};
use byrnie::draw::picture::{self, Options, Scale, Viewpoint, picture};
use std::path::Path;

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
        },
        scale: scale.map_or(fitted, Scale::Times),
    }
}

pub fn run(file: &Path, output: Option<&Path>, size: &SizeArgs, options: &Options) -> Outcome {
    let weave = sound_weave(file)?;
    let size = size_of(&weave, size)?;
    let settled = patiently(format!("settling {}", weave.name()), || weave.settled());
    let settled = settled.map_err(|why| Stop::found(format!("{}: {why}", weave.name())))?;
    let drawn = picture(&weave, settled, size, options);
    let drawn = drawn.map_err(|why| Stop::found(format!("{}: {why}", weave.name())))?;
    match output {
        Some(path) if path.extension().is_some_and(|e| e.eq_ignore_ascii_case("png")) => {
            files::write_bytes(path, &png(&drawn)?)?;
        }
        Some(path) => files::write(path, &drawn)?,
        None => files::print(&drawn)?,
    }
    Ok(0)
}
