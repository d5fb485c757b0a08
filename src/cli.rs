//! The command line.

use clap::builder::{PathBufValueParser, TypedValueParser};
use clap::{Args, Parser, Subcommand, ValueEnum};
use std::path::{Path, PathBuf};

/// A notation, compiler and linter for ring weaves.
///
/// Exit codes: 0 nothing found, 1 something found, 2 wrong usage or a file that cannot be read or written.
#[derive(Debug, Parser)]
#[command(name = "byrnie", version, max_term_width = 100)]
pub struct Cli {
    #[command(subcommand)]
    pub command: Command,
}

/// Every command is one variant with its own arguments; each is a file in `commands`.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Check a weave, count its rings, and draw its chart and its picture
    Build(BuildArgs),
    /// Check weave files and tutorials for mistakes
    Lint(LintArgs),
    /// Explain a rule, or list all rules
    Explain(ExplainArgs),
    /// Tidy weave files: rewrite them in the one tidy form
    Tidy(TidyArgs),
    /// Count the rings of a piece, a kit or a class
    Count(CountArgs),
    /// Print the ring graph as JSON or DOT
    Graph(GraphArgs),
    /// Find where the rings lie, and the smallest rings that close
    ///
    /// Prints the length of a repeat, the lean, and how accents sit as well. Exit code 1 if the weave does not close at its
    /// sizes.
    Settle(SettleArgs),
    /// Find which rings make a weave, from your shelf or from sizes in common use
    ///
    /// For one kind of ring it finds every size that closes; for two kinds, such as a base and its accent, the most
    /// promising pairs. Exit code 1 if nothing fits, or if a line of the shelf cannot be read.
    Fit(FitArgs),
    /// Convert a size to mm, inches and wire gauges
    Size(SizeOfArgs),
    /// Draw the chart of one repeat as SVG or PNG
    Chart(ChartArgs),
    /// Draw the settled piece as SVG or PNG
    Picture(PictureArgs),
    /// Write the settled piece as a 3D model
    ///
    /// Each ring is one object, named as in the text. Lengths are true to scale; if the text gives no sizes in mm, the wire
    /// of the first kind is 1 mm.
    Model(ModelArgs),
    /// Write the instructions, step by step, as Markdown
    Steps(StepsArgs),
    /// List the built-in weaves, print one, or compare them all
    Weaves(WeavesArgs),
    /// Print the JSON Schema of a command's JSON, or list the schemas
    Schema(SchemaArgs),
}

#[derive(Debug, Args)]
pub struct BuildArgs {
    /// The weave file, or `-` for standard input
    pub file: PathBuf,
    /// Write the drawings to this folder, and make it if needed
    #[arg(long, value_name = "FOLDER", default_value = "out")]
    pub into: PathBuf,
}

#[derive(Debug, Args)]
pub struct LintArgs {
    /// The weave files and tutorials (.md, with a weave and numbered steps); `-` for a weave from standard input
    #[arg(required = true, value_name = "FILE")]
    pub files: Vec<PathBuf>,
    /// Show findings in this format
    #[arg(long, value_enum, default_value_t = Format::Terminal)]
    pub format: Format,
    /// List the sentences of a tutorial's steps that could not be read
    #[arg(long)]
    pub unread: bool,
    /// Mend what can be mended safely, in the files themselves; `-` goes to standard output
    #[arg(long)]
    pub fix: bool,
    /// Check that this shelf has enough rings for all that is made; the CSV is the one `byrnie fit` takes
    #[arg(long, value_name = "CSV")]
    pub shelf: Option<PathBuf>,
}

#[derive(Debug, Args)]
pub struct ExplainArgs {
    /// The rule's name, as a finding shows it
    pub rule: Option<String>,
}

#[derive(Debug, Args)]
pub struct TidyArgs {
    /// The weave files, rewritten in place; `-` reads standard input and writes standard output
    #[arg(required = true, value_name = "FILE")]
    pub files: Vec<PathBuf>,
    /// List the files that are not tidy, and change nothing
    #[arg(long)]
    pub check: bool,
}

#[derive(Debug, Args)]
pub struct CountArgs {
    /// The weave file, or `-` for standard input
    pub file: PathBuf,
    #[command(flatten)]
    pub size: SizeArgs,
    /// Show what to take from this shelf, what to buy and what it costs; exit code 1 if rings are short
    #[arg(long, value_name = "CSV")]
    pub shelf: Option<PathBuf>,
    /// Print JSON
    #[arg(long)]
    pub json: bool,
    /// Print the tables in Markdown
    #[arg(long, conflicts_with = "json")]
    pub markdown: bool,
}

#[derive(Debug, Args)]
pub struct GraphArgs {
    /// The weave file, or `-` for standard input
    pub file: PathBuf,
    #[command(flatten)]
    pub size: SizeArgs,
    /// Print one repeat instead of the whole piece
    #[arg(long, conflicts_with_all = ["repeats", "rows", "columns"])]
    pub one_repeat: bool,
    /// Print DOT for graph drawing instead of JSON
    #[arg(long)]
    pub dot: bool,
}

#[derive(Debug, Args)]
pub struct SettleArgs {
    /// The weave file, or `-` for standard input
    pub file: PathBuf,
    /// Print JSON: all figures, and the pose itself
    #[arg(long)]
    pub json: bool,
}

#[derive(Debug, Args)]
pub struct FitArgs {
    /// The weave file, or `-` for standard input
    pub file: PathBuf,
    /// Choose from your rings: CSV whose first line names the columns material, colour, wire, inner, sold, price, weight,
    /// on hand, in any order
    #[arg(long, value_name = "CSV")]
    pub shelf: Option<PathBuf>,
    /// Choose rings of this kind only, and keep all other kinds as the text has them
    #[arg(long, value_name = "KIND")]
    pub kind: Option<String>,
    /// Print at most this many rows; for two kinds of ring, settle at most this many pairs
    #[arg(long, value_name = "N", default_value_t = 8, value_parser = clap::value_parser!(u16).range(1..))]
    pub most: u16,
    /// Draw the map of wire against inner diameter into this file as well, .svg or .png; `-` for standard output, and the
    /// answer then goes to standard error
    #[arg(short, long, value_name = "FILE", value_parser = drawing())]
    pub output: Option<Drawing>,
    /// Print JSON
    #[arg(long)]
    pub json: bool,
    /// Print the table in Markdown
    #[arg(long, conflicts_with = "json")]
    pub markdown: bool,
}

#[derive(Debug, Args)]
pub struct SizeOfArgs {
    /// The size: `18 swg`, `1.2 mm`, `1/4 in`
    #[arg(required = true, value_name = "SIZE")]
    pub size: Vec<String>,
    /// Take the size as a mandrel, and estimate the inner diameter of rings of this material coiled on it and sawn
    #[arg(long, value_name = "MATERIAL")]
    pub coil: Option<String>,
    /// Use this width of cut, such as `0.3 mm`, instead of a common one
    #[arg(long, value_name = "SIZE", requires = "coil")]
    pub kerf: Option<String>,
}

#[derive(Debug, Args)]
pub struct ChartArgs {
    /// The weave file, or `-` for standard input
    pub file: PathBuf,
    /// The file to write, .svg, or .png at 300 dots to an inch; `-` writes SVG to standard output
    #[arg(short, long, value_name = "FILE", default_value = "-", value_parser = drawing())]
    pub output: Drawing,
}

#[derive(Debug, Args)]
pub struct PictureArgs {
    /// The weave file, or `-` for standard input
    pub file: PathBuf,
    /// The file to write, .svg, or .png at 300 dots to an inch; `-` writes SVG to standard output
    #[arg(short, long, value_name = "FILE", default_value = "-", value_parser = drawing())]
    pub output: Drawing,
    /// Look at the piece from this side
    #[arg(long, value_enum, default_value_t = Side::Front)]
    pub from: Side,
    /// Turn it further about its length, in degrees
    #[arg(long, value_name = "DEGREES", default_value_t = 0.0, allow_negative_numbers = true, value_parser = degrees)]
    pub turn: f64,
    /// Then tilt its right end away, in degrees
    #[arg(long, value_name = "DEGREES", default_value_t = 0.0, allow_negative_numbers = true, value_parser = degrees)]
    pub tilt: f64,
    /// Draw rings in this way
    #[arg(long, value_enum, default_value_t = Look::Shaded)]
    pub look: Look,
    /// Draw at this scale: 1:1 is life size, 5:1 five times as large
    #[arg(long, value_name = "N:M", conflicts_with = "fit", value_parser = scale)]
    pub scale: Option<f64>,
    /// Draw as large as fits into this width and height, in mm (80x60)
    #[arg(long, value_name = "WxH", value_parser = fit)]
    pub fit: Option<(f64, f64)>,
    /// Call these out with words and a line
    #[arg(long, value_enum, value_name = "WHAT", value_delimiter = ',', conflicts_with_all = ["step", "steps"])]
    pub call_out: Vec<CallOut>,
    /// Show one eye again beside the piece, enlarged
    #[arg(long, conflicts_with_all = ["step", "steps"])]
    pub enlarge_eye: bool,
    /// Show only this step of the instructions (`byrnie steps`): the ring it adds, and the path of that ring
    #[arg(long, value_name = "K", value_parser = clap::value_parser!(u32).range(1..))]
    pub step: Option<u32>,
    /// Write the pictures of all steps that add one ring into this folder
    #[arg(long, value_name = "FOLDER", conflicts_with_all = ["step", "output"])]
    pub steps: Option<PathBuf>,
    #[command(flatten)]
    pub size: SizeArgs,
}

#[derive(Debug, Args)]
pub struct ModelArgs {
    /// The weave file, or `-` for standard input
    pub file: PathBuf,
    /// The file to write: .glb, binary glTF 2.0; `-` for standard output
    #[arg(short, long, value_name = "FILE", value_parser = PathBufValueParser::new().try_map(Output::glb))]
    pub output: Output,
    #[command(flatten)]
    pub size: SizeArgs,
}

#[derive(Debug, Args)]
pub struct StepsArgs {
    /// The weave file, or `-` for standard input
    pub file: PathBuf,
    /// The file to write; `-` for standard output
    #[arg(short, long, value_name = "FILE", default_value = "-", value_parser = PathBufValueParser::new().map(Output::of))]
    pub output: Output,
    /// Draw the pictures of the steps into this folder, and link to them
    #[arg(long, value_name = "FOLDER")]
    pub pictures: Option<PathBuf>,
    #[command(flatten)]
    pub size: SizeArgs,
}

#[derive(Debug, Args)]
pub struct WeavesArgs {
    /// The weave to print
    pub name: Option<String>,
    /// Print a table in Markdown: floors, aspect ratios that suit, length of a repeat, rings, lean
    #[arg(long, conflicts_with = "name")]
    pub table: bool,
    /// Print the same as JSON
    #[arg(long, conflicts_with = "name")]
    pub json: bool,
    /// Write the charts of all of them into this folder, and link to them in the table
    #[arg(long, value_name = "FOLDER", conflicts_with = "name")]
    pub charts: Option<PathBuf>,
    /// Write small pictures of all of them into this folder, and show them in the table
    #[arg(long, value_name = "FOLDER", conflicts_with = "name")]
    pub pictures: Option<PathBuf>,
}

#[derive(Debug, Args)]
pub struct SchemaArgs {
    /// The command whose JSON is described; without it, all schemas are listed
    #[arg(value_enum)]
    pub name: Option<SchemaOf>,
}

/// The commands that print JSON of their own.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum SchemaOf {
    /// `byrnie count --json`
    Count,
    /// `byrnie fit --json`
    Fit,
    /// `byrnie graph`
    Graph,
    /// `byrnie lint --format json`
    Lint,
    /// `byrnie settle --json`
    Settle,
    /// `byrnie weaves --json`
    Weaves,
}

/// Where something is written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Output {
    /// To standard output.
    Standard,
    /// To a file.
    File(PathBuf),
}

impl Output {
    fn of(path: PathBuf) -> Self {
        if path == Path::new("-") { Self::Standard } else { Self::File(path) }
    }

    fn glb(path: PathBuf) -> Result<Self, String> {
        match Self::of(path) {
            Self::File(path) if !ends_in(&path, "glb") => Err(format!(
                "a model is one binary glTF file; let its name end in .glb, as in `-o {}`",
                path.with_extension("glb").display()
            )),
            output => Ok(output),
        }
    }
}

/// Where a drawing is written; the ending of the name is its format.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Drawing {
    /// As SVG.
    Svg(Output),
    /// As PNG.
    Png(PathBuf),
}

impl Drawing {
    fn of(path: PathBuf) -> Result<Self, String> {
        match Output::of(path) {
            Output::File(path) if ends_in(&path, "png") => Ok(Self::Png(path)),
            Output::File(path) if !ends_in(&path, "svg") => {
                Err("drawings are written as .svg or .png; let the name end in one of these".to_owned())
            }
            output => Ok(Self::Svg(output)),
        }
    }
}

fn drawing() -> impl TypedValueParser<Value = Drawing> {
    PathBufValueParser::new().try_map(Drawing::of)
}

fn ends_in(path: &Path, ending: &str) -> bool {
    path.extension().is_some_and(|e| e.eq_ignore_ascii_case(ending))
}

/// How many repeats, instead of what the file says.
#[derive(Debug, Default, Args)]
pub struct SizeArgs {
    /// Make a chain this many repeats long
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(1..))]
    pub repeats: Option<u32>,
    /// Make a sheet with this many rows
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(1..))]
    pub rows: Option<u32>,
    /// Make a sheet with this many columns
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
