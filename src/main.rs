//! `byrnie`: arguments in, exit code out.

mod cli;
mod commands;

fn main() -> std::process::ExitCode {
    commands::run(&cli::parse())
}
