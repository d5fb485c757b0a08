//! One file per command. Files are read and written here and nowhere else.

mod build;
mod chart;
mod count;
mod drawing;
mod explain;
mod files;
mod fit;
mod graph;
mod lint;
mod mend;
mod model;
mod patience;
mod picture;
mod settle;
mod shelf;
mod shown;
mod size;
mod steps;
mod tidy;
mod tutorial;
mod weaves;

use self::patience::patiently;
use crate::cli::{Command, SizeArgs};
use byrnie::Weave;
use byrnie::draw::picture::Options;
use byrnie::pattern::{Lattice, Repeats};
use byrnie::settle::Settled;
use std::path::Path;
use std::process::ExitCode;

/// Why a command stopped before its end: a message for standard error and an exit code.
#[derive(Debug)]
pub struct Stop {
    message: String,
    code: u8,
}

impl Stop {
    /// Wrong usage, or a file that cannot be read or written.
    fn usage(message: impl Into<String>) -> Self {
        Self { message: message.into(), code: 2 }
    }

    /// Something was found in the weave.
    fn found(message: impl Into<String>) -> Self {
        Self { message: message.into(), code: 1 }
    }
}

/// What a command ended with: 0 clean, 1 findings.
type Outcome = Result<u8, Stop>;

/// Runs a command.
pub fn run(command: Command) -> ExitCode {
    let outcome = match command {
        Command::Build { file, into } => build::run(&file, &into),
        Command::Lint { schema: true, .. } => lint::schema(),
        Command::Lint { files, format, unread, fix, shelf, .. } => {
            lint::run(&files, &lint::Options { format, unread, fix, shelf })
        }
        Command::Explain { rule } => explain::run(rule.as_deref()),
        Command::Tidy { files, check } => tidy::run(&files, check),
        Command::Count { schema: true, .. } => count::schema(),
        Command::Count { file, size, shelf, json, markdown, .. } => match file {
            Some(file) => count::run(&file, &count::Options { size: &size, shelf: shelf.as_deref(), json, markdown }),
            None => Err(Stop::usage("name a weave file")),
        },
        Command::Graph { schema: true, .. } => graph::schema(),
        Command::Graph { file, size, one_repeat, dot, .. } => match file {
            Some(file) => graph::run(&file, &size, one_repeat, dot),
            None => Err(Stop::usage("name a weave file")),
        },
        Command::Settle { schema: true, .. } => settle::schema(),
        Command::Settle { file, json, .. } => match file {
            Some(file) => settle::run(&file, json),
            None => Err(Stop::usage("name a weave file")),
        },
        Command::Fit { schema: true, .. } => fit::schema(),
        Command::Fit { file, shelf, kind, most, output, json, markdown, .. } => match file {
            Some(file) => fit::run(
                &file,
                shelf.as_deref(),
                &fit::Shown { map: output, most: usize::from(most), json, markdown, kind },
            ),
            None => Err(Stop::usage("name a weave file")),
        },
        Command::Chart { file, output } => chart::run(&file, output.as_deref()),
        Command::Picture {
            file,
            output,
            from,
            turn,
            tilt,
            look,
            scale,
            fit,
            call_out,
            enlarge_eye,
            step,
            steps,
            size,
        } => {
            let call_out = picture::call_out(&call_out, enlarge_eye);
            let options = Options { call_out, ..picture::options(from, [turn, tilt], look, scale, fit) };
            match (step, steps) {
                (Some(step), _) => picture::step(&file, output.as_deref(), &size, &options, step),
                (None, Some(folder)) => picture::steps(&file, &folder, &size, &options),
                (None, None) => picture::run(&file, output.as_deref(), &size, &options),
            }
        }
        Command::Model { file, output, size } => model::run(&file, &output, &size),
        Command::Size { size, coil, kerf } => size::run(&size, coil.as_deref(), kerf.as_deref()),
        Command::Steps { file, output, pictures, size } => {
            steps::run(&file, output.as_deref(), pictures.as_deref(), &size)
        }
        Command::Weaves { schema: true, .. } => weaves::schema(),
        Command::Weaves { name: Some(name), .. } => weaves::one(&name),
        Command::Weaves { table, json, charts, pictures, .. } => {
            let drawn = charts.as_deref().map_or(Ok(0), weaves::charts);
            match drawn {
                Ok(_) if table || json || pictures.is_some() => {
                    weaves::settled(table, json, charts.as_deref(), pictures.as_deref())
                }
                Ok(_) if charts.is_none() => weaves::list(),
                drawn => drawn,
            }
        }
    };
    match outcome {
        Ok(code) => ExitCode::from(code),
        Err(stop) => {
            files::complain(&stop.message);
            ExitCode::from(stop.code)
        }
    }
}

/// A weave whose ring graph can be relied on; otherwise what is wrong with it.
fn sound_weave(file: &Path) -> Result<Weave, Stop> {
    let weave = files::weave(file)?;
    if let Some(broken) = byrnie::lint::graph_broken(&weave) {
        let shown = byrnie::report::terminal(weave.sources(), &broken, files::width(), files::colour_on_stderr());
        return Err(Stop::found(format!("{shown}the ring graph cannot be made before this is mended")));
    }
    Ok(weave)
}

/// A weave's pose, or why there is none.
fn settled(weave: &Weave) -> Result<&Settled, Stop> {
    let settled = patiently(format!("settling {}", weave.name()), || weave.settled());
    settled.map_err(|why| Stop::found(format!("{}: {why}", weave.name())))
}

/// The size asked for on the command line, else in the file, else one that shows both ends.
fn size_of(weave: &Weave, asked: &SizeArgs) -> Result<Repeats, Stop> {
    let sheet = asked.rows.is_some() || asked.columns.is_some();
    match weave.pattern().lattice {
        Lattice::Unit if sheet || asked.repeats.is_some() => {
            Err(Stop::usage("this piece does not repeat, so there is nothing to choose a size of"))
        }
        Lattice::Chain if sheet => Err(Stop::usage("this is a chain: say how long with --repeats")),
        Lattice::Sheet if asked.repeats.is_some() => {
            Err(Stop::usage("this is a sheet: say how large with --rows and --columns"))
        }
        _ => {
            // A length alone is settled to say how many repeats it takes.
            let Repeats([first, second]) = patiently(format!("settling {}", weave.name()), || weave.size());
            Ok(Repeats([asked.repeats.or(asked.rows).unwrap_or(first), asked.columns.unwrap_or(second)]))
        }
    }
}

/// The piece of a size, or how many rings it would have.
fn piece_of(weave: &Weave, size: Repeats) -> Result<byrnie::rings::Piece, Stop> {
    weave.piece(size).map_err(too_many)
}

fn too_many(many: byrnie::rings::TooMany) -> Stop {
    let most = byrnie::rings::MOST_RINGS;
    Stop::usage(format!("the piece would have {} rings; up to {most} are worked out", many.rings))
}
