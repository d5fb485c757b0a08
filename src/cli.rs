//! The command line.

use clap::{Args, Parser, Subcommand, ValueEnum};
use std::path::PathBuf;

/// A notation, compiler and linter for ring weaves.
///
/// Exit codes: 0 clean, 1 something was found, 2 wrong usage or a file that cannot be read.
#[derive(Debug, Parser)]
#[command(name = "byrnie", version, max_term_width = 100)]
pub struct Cli {
    #[command(subcommand)]
    pub command: Command,
}

#[derive(Debug, Subcommand)]
pub enum Command {
    /// Check a weave, count its rings, draw its chart and its picture: the whole job
    Build {
        /// The weave file, or `-` for standard input
        file: PathBuf,
        /// The folder to write to, made if it is not there
        #[arg(long, value_name = "FOLDER", default_value = "out")]
        into: PathBuf,
    },
    /// Find the mistakes in weave files, and in tutorials: Markdown with a weave and numbered steps
    Lint {
        /// The weave files and tutorials (.md); `-` for a weave from standard input
        #[arg(required_unless_present = "schema")]
        files: Vec<PathBuf>,
        /// How findings are shown
        #[arg(long, value_enum, default_value_t = Format::Terminal)]
        format: Format,
        /// List the sentences of a tutorial's steps that could not be read
        #[arg(long)]
        unread: bool,
        /// Mend what can be mended safely, in the files themselves, and show what is left; `-` goes to standard output
        #[arg(long)]
        fix: bool,
        /// Your rings, as for `byrnie fit`: whether there are enough of them for all that the weave files have made
        #[arg(long, value_name = "CSV")]
        shelf: Option<PathBuf>,
        /// Print the JSON Schema of the output of `--format json`
        #[arg(long, exclusive = true)]
        schema: bool,
    },
    /// Explain a rule, or list them all
    Explain {
        /// The rule's name, as a finding shows it
        rule: Option<String>,
    },
    /// Write weave files in the one tidy form
    Tidy {
        /// The weave files, rewritten in place; `-` reads standard input and writes standard output
        #[arg(required = true)]
        files: Vec<PathBuf>,
        /// Only say which files are not tidy
        #[arg(long)]
        check: bool,
    },
    /// Count the rings of a piece, by family, kind, state and colour; of a kit or class, what goes into each bag
    Count {
        /// The weave file, or `-` for standard input
        #[arg(required_unless_present = "schema")]
        file: Option<PathBuf>,
        #[command(flatten)]
        size: SizeArgs,
        /// Your rings, as for `byrnie fit`: what to take, what to buy, what it costs; exit code 1 where something is short
        #[arg(long, value_name = "CSV")]
        shelf: Option<PathBuf>,
        /// Print JSON
        #[arg(long)]
        json: bool,
        /// Print the tables in Markdown
        #[arg(long, conflicts_with = "json")]
        markdown: bool,
        /// Print the JSON Schema of the output
        #[arg(long, exclusive = true)]
        schema: bool,
    },
    /// Print the ring graph
    Graph {
        /// The weave file, or `-` for standard input
        #[arg(required_unless_present = "schema")]
        file: Option<PathBuf>,
        #[command(flatten)]
        size: SizeArgs,
        /// One repeat instead of the whole piece
        #[arg(long, conflicts_with_all = ["repeats", "rows", "columns"])]
        one_repeat: bool,
        /// Print DOT for graph drawing instead of JSON
        #[arg(long)]
        dot: bool,
        /// Print the JSON Schema of the output
        #[arg(long, exclusive = true)]
        schema: bool,
    },
    /// Compute where the rings lie: the smallest that close, length per repeat, lean, how accents sit
    ///
    /// Exit code 1 where the weave does not close at the sizes given.
    Settle {
        /// The weave file, or `-` for standard input
        #[arg(required_unless_present = "schema")]
        file: Option<PathBuf>,
        /// Print JSON: all figures, and the pose itself
        #[arg(long)]
        json: bool,
        /// Print the JSON Schema of the output
        #[arg(long, exclusive = true)]
        schema: bool,
    },
    /// Find which rings make a weave: from your shelf, or of the sizes in common use
    ///
    /// Of one kind of ring all sizes that close are found; of two kinds, such as a base and its accent, the most promising
    /// pairs. Exit code 1 where nothing was found to fit, or lines of the shelf could not be read.
    Fit {
        /// The weave file, or `-` for standard input
        #[arg(required_unless_present = "schema")]
        file: Option<PathBuf>,
        /// Your rings: CSV whose first line names the columns material, colour, wire, inner, sold, price, weight, on hand,
        /// in any order
        #[arg(long, value_name = "CSV")]
        shelf: Option<PathBuf>,
        /// Choose rings of this kind alone, the others as the text has them; any number of kinds there may be
        #[arg(long, value_name = "KIND")]
        kind: Option<String>,
        /// The most rows; of two kinds of ring the most pairs that are settled for them
        #[arg(long, value_name = "N", default_value_t = 8, value_parser = clap::value_parser!(u16).range(1..))]
        most: u16,
        /// Draw the map of wire against inner diameter into this file as well, .svg or .png
        #[arg(short, long, value_name = "FILE")]
        output: Option<PathBuf>,
        /// Print JSON
        #[arg(long)]
        json: bool,
        /// Print the table in Markdown
        #[arg(long, conflicts_with = "json")]
        markdown: bool,
        /// Print the JSON Schema of the output
        #[arg(long, exclusive = true)]
        schema: bool,
    },
    /// Say what a size is in mm, inches and gauges: which wire it really is
    Size {
        /// The size: `18 swg`, `1.2 mm`, `1/4 in`
        #[arg(required = true, value_name = "SIZE")]
        size: Vec<String>,
        /// It is a mandrel: estimate the inner diameter of rings coiled on it, of this material, and sawn
        #[arg(long, value_name = "MATERIAL")]
        coil: Option<String>,
        /// What your saw takes, such as `0.3 mm`, instead of what saws commonly take
        #[arg(long, value_name = "SIZE", requires = "coil")]
        kerf: Option<String>,
    },
    /// Draw the chart of one repeat as SVG
    Chart {
        /// The weave file, or `-` for standard input
        file: PathBuf,
        /// The file to write; standard output without it
        #[arg(short, long, value_name = "FILE")]
        output: Option<PathBuf>,
    },
    /// Draw the piece as it settles, as SVG or PNG
    Picture {
        /// The weave file, or `-` for standard input
        file: PathBuf,
        /// The file to write, .svg, or .png at 300 dots to an inch; SVG to standard output if none
        #[arg(short, long, value_name = "FILE")]
        output: Option<PathBuf>,
        /// From where it is seen
        #[arg(long, value_enum, default_value_t = Side::Front)]
        from: Side,
        /// Turn it further about its length, in degrees
        #[arg(long, value_name = "DEGREES", default_value_t = 0.0, allow_negative_numbers = true, value_parser = degrees)]
        turn: f64,
        /// Then tilt its right end away, in degrees
        #[arg(long, value_name = "DEGREES", default_value_t = 0.0, allow_negative_numbers = true, value_parser = degrees)]
        tilt: f64,
        /// How rings are drawn
        #[arg(long, value_enum, default_value_t = Look::Shaded)]
        look: Look,
        /// Rings as large as they are (1:1), or so many times (5:1)
        #[arg(long, value_name = "N:M", conflicts_with = "fit", value_parser = scale)]
        scale: Option<f64>,
        /// As large as it goes into so many mm of width and height (80x60)
        #[arg(long, value_name = "WxH", value_parser = fit)]
        fit: Option<(f64, f64)>,
        /// What is called out with words and a line: the eye, its lean, the aspect ratio
        #[arg(long, value_enum, value_name = "WHAT", value_delimiter = ',', conflicts_with_all = ["step", "steps"])]
        call_out: Vec<CallOut>,
        /// Show one eye again beside the piece, enlarged
        #[arg(long, conflicts_with_all = ["step", "steps"])]
        enlarge_eye: bool,
        /// Only one step of the instructions (`byrnie steps`), by its number: the ring it adds, and how that goes
        #[arg(long, value_name = "K", value_parser = clap::value_parser!(u32).range(1..))]
        step: Option<u32>,
        /// Write the pictures of all steps that add one ring into this folder
        #[arg(long, value_name = "FOLDER", conflicts_with_all = ["step", "output"])]
        steps: Option<PathBuf>,
        #[command(flatten)]
        size: SizeArgs,
    },
    /// Write the piece as it settles as a 3D model, to be turned in the hand on a screen
    ///
    /// One ring is one object, named as in the text. Lengths are true; where the text gives no sizes in mm, the wire of
    /// the first kind is 1 mm.
    Model {
        /// The weave file, or `-` for standard input
        file: PathBuf,
        /// The file to write: .glb, binary glTF 2.0
        #[arg(short, long, value_name = "FILE")]
        output: PathBuf,
        #[command(flatten)]
        size: SizeArgs,
    },
    /// Write the instructions, step by step, as Markdown
    Steps {
        /// The weave file, or `-` for standard input
        file: PathBuf,
        /// The file to write; standard output without it
        #[arg(short, long, value_name = "FILE")]
        output: Option<PathBuf>,
        /// Draw the pictures of the steps into this folder, and link to them
        #[arg(long, value_name = "FOLDER")]
        pictures: Option<PathBuf>,
        #[command(flatten)]
        size: SizeArgs,
    },
    /// List the built-in weaves, print one as a starting point, or a table of what is computed of all of them
    Weaves {
        /// The weave to print
        name: Option<String>,
        /// Print a table in Markdown: floors, aspect ratios that suit, length of a repeat, rings, lean
        #[arg(long, conflicts_with = "name")]
        table: bool,
        /// Print the same as JSON
        #[arg(long, conflicts_with = "name")]
        json: bool,
        /// Write the charts of all of them into this folder, and link to them in the table
        #[arg(long, value_name = "FOLDER", conflicts_with = "name")]
        charts: Option<PathBuf>,
        /// Write small pictures of all of them into this folder, and show them in the table
        #[arg(long, value_name = "FOLDER", conflicts_with = "name")]
        pictures: Option<PathBuf>,
        /// Print the JSON Schema of the output
        #[arg(long, exclusive = true)]
        schema: bool,
    },
}

/// How many repeats, instead of what the file says.
#[derive(Debug, Args)]
pub struct SizeArgs {
    /// Repeats of a chain
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(1..))]
    pub repeats: Option<u32>,
    /// Rows of a sheet
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(1..))]
    pub rows: Option<u32>,
    /// Columns of a sheet
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(1..))]
    pub columns: Option<u32>,
}

impl SizeArgs {
    /// Whether one of them is given.
    pub fn any(&self) -> bool {
        self.repeats.is_some() || self.rows.is_some() || self.columns.is_some()
    }
}

/// From where a piece is seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Side {
    /// As it lies, front up
    Front,
    /// Turned over about its length
    Back,
    /// On its edge
    Edge,
}

/// How rings are drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Look {
    /// Filled and shaded
    Shaded,
    /// Outlines alone, what is hidden left out
    Outline,
    /// Outlines alone, what is hidden dashed
    Dashed,
}

/// What is called out on a picture.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum CallOut {
    /// An eye: the lens where two rings overlap
    Eye,
    /// How the eyes lean
    Lean,
    /// The aspect ratio of every kind of ring
    Ar,
}

fn degrees(words: &str) -> Result<f64, String> {
    let number = words.parse::<f64>().ok().filter(|d| d.abs() <= 360.0);
    number.ok_or_else(|| "expected degrees from -360 to 360".to_owned())
}

fn positive(words: &str) -> Option<f64> {
    words.trim().parse::<f64>().ok().filter(|n| (1e-3..=1e4).contains(n))
}

fn scale(words: &str) -> Result<f64, String> {
    let parts = words.split_once(':').and_then(|(n, m)| Some(positive(n)? / positive(m)?));
    parts.ok_or_else(|| "expected a scale such as 1:1 or 5:1".to_owned())
}

fn fit(words: &str) -> Result<(f64, f64), String> {
    let parts = words.split_once('x').and_then(|(w, h)| Some((positive(w)?, positive(h)?)));
    parts
        .filter(|(w, h)| *w > 7.0 && *h > 7.0)
        .ok_or_else(|| "expected mm of width and height, such as 80x60".to_owned())
}

/// How findings are shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Format {
    /// Drawn, with the words of the file
    Terminal,
    /// One line each, place first
    Plain,
    /// One JSON object
    Json,
    /// A SARIF 2.1.0 log, for programs that gather findings
    Sarif,
}

/// Reads the arguments; prints help or what is wrong with them and ends the program where it must.
pub fn parse() -> Command {
    Cli::parse().command
}
