//! One file per command. Files are read and written here and nowhere else.

mod build;
mod chart;
mod count;
mod explain;
mod files;
mod fit;
mod graph;
mod image;
mod lint;
mod lint_report;
mod mend;
mod model;
mod picture;
mod schema;
mod settle;
mod shelf;
mod size;
mod spinner;
mod steps;
mod stop;
mod tidy;
mod tutorial;
mod weaves;

use self::spinner::busy;
use self::stop::{Outcome, Stop};
use crate::cli::{Command, SizeArgs};
use byrnie::Weave;
use byrnie::pattern::{Lattice, Repeats};
use byrnie::settle::Settled;
use std::path::Path;
use std::process::ExitCode;

/// Runs a command.
pub fn run(command: &Command) -> ExitCode {
    let outcome = match command {
        Command::Build(args) => build::run(args),
        Command::Lint(args) => lint::run(args),
        Command::Explain(args) => explain::run(args),
        Command::Tidy(args) => tidy::run(args),
        Command::Count(args) => count::run(args),
        Command::Graph(args) => graph::run(args),
        Command::Settle(args) => settle::run(args),
        Command::Fit(args) => fit::run(args),
        Command::Size(args) => size::run(args),
        Command::Chart(args) => chart::run(args),
        Command::Picture(args) => picture::run(args),
        Command::Model(args) => model::run(args),
        Command::Steps(args) => steps::run(args),
        Command::Weaves(args) => weaves::run(args),
        Command::Schema(args) => schema::run(args),
    };
    let code = outcome.unwrap_or_else(|stop| {
        files::complain(&stop.to_string());
        stop.code()
    });
    ExitCode::from(code)
}

/// A weave whose ring graph can be relied on; otherwise what is wrong with it.
fn sound_weave(file: &Path) -> Result<Weave, Stop> {
    let weave = files::weave(file)?;
    if let Some(broken) = byrnie::lint::graph_broken(&weave) {
        let shown = byrnie::report::terminal(weave.sources(), &broken, files::width(), files::colour_on_stderr());
        return Err(Stop::GraphBroken { shown });
    }
    Ok(weave)
}

/// The size asked for on the command line, else in the file, else one that shows both ends.
fn size_of(weave: &Weave, asked: &SizeArgs) -> Result<Repeats, Stop> {
    let sheet = asked.rows.is_some() || asked.columns.is_some();
    match weave.pattern().lattice {
        Lattice::Unit if sheet || asked.repeats.is_some() => Err(Stop::NoRepeats),
        Lattice::Chain if sheet => Err(Stop::ChainNotSheet),
        Lattice::Sheet if asked.repeats.is_some() => Err(Stop::SheetNotChain),
        _ => {
            // A length alone is settled to say how many repeats it takes.
            let Repeats([first, second]) = busy("settling", weave.name(), || weave.size());
            Ok(Repeats([asked.repeats.or(asked.rows).unwrap_or(first), asked.columns.unwrap_or(second)]))
        }
    }
}

/// Where the rings of a weave lie.
fn settled(weave: &Weave) -> Result<&Settled, Stop> {
    busy("settling", weave.name(), || weave.settled()).map_err(|why| Stop::of(weave)(why.clone()))
}
