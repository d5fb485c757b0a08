//! Why a command stops before its end, in words and as an exit code.

use byrnie::Weave;
use byrnie::rings::{MOST_RINGS, TooMany};
use byrnie::text::SourceError;
use std::error::Error;
use std::io;
use std::path::PathBuf;

/// What a command ended with: an exit code, or why it stopped.
pub type Outcome = Result<u8, Stop>;

/// Why a command stopped before its end.
#[derive(Debug, thiserror::Error)]
pub enum Stop {
    #[error("cannot write: {0}")]
    Print(io::Error),
    #[error("the output cannot be put into JSON: {0}")]
    Json(#[from] serde_json::Error),
    #[error("{name}: {}", read_words(why))]
    Read { name: String, why: io::Error },
    #[error("{name}: {why}")]
    Source { name: String, why: SourceError },
    #[error("{name}: there is no weave in it; start from one of `byrnie weaves`")]
    NoWeave { name: String },
    #[error("{name}: {why}")]
    Shelf { name: String, why: Box<dyn Error> },
    #[error("{}: the folder cannot be made: {why}", path.display())]
    Folder { path: PathBuf, why: io::Error },
    #[error("{}: cannot be written: {why}", path.display())]
    Write { path: PathBuf, why: io::Error },
    #[error("{}: cannot be written: it is no plain file", path.display())]
    NoPlainFile { path: PathBuf },
    #[error("{}: not mended: the file is write-protected", path.display())]
    WriteProtected { path: PathBuf },
    #[error(
        "with --fix the text from standard input is mended to standard output, where the report would go as well; name a file, or leave out --format"
    )]
    ReportInTheWay,
    #[error("{shown}the ring graph cannot be made before this is mended")]
    GraphBroken { shown: String },
    #[error("{shown}not tidied: mend this first")]
    NotTidied { shown: String },
    #[error(
        "{name}: left as it is: its tidy text would not say the same. This is a fault of byrnie; please report it with the file"
    )]
    TidyChangesMeaning { name: String },
    #[error("this piece does not repeat, so there is nothing to choose a size of")]
    NoRepeats,
    #[error("this is a chain: say how long with --repeats")]
    ChainNotSheet,
    #[error("this is a sheet: say how large with --rows and --columns")]
    SheetNotChain,
    #[error("the piece would have {} rings; up to {MOST_RINGS} are worked out", .0.rings)]
    TooManyRings(TooMany),
    #[error("{weave}: {why}")]
    Weave { weave: String, why: Box<dyn Error> },
    #[error("step {step} of {weave} adds no single ring; these steps do: {}", listed(steps))]
    NoSuchStep { weave: String, step: u32, steps: Vec<usize> },
    #[error(
        "{steps} pictures are too many; {most} is the most. Choose a shorter piece with --repeats, --rows and --columns"
    )]
    TooManySteps { steps: usize, most: usize },
    #[error("the picture cannot be made as PNG: {0}")]
    Png(Box<dyn Error>),
    #[error("the picture cannot be made as PNG: {width} × {height} pixels are too many; choose a smaller --fit")]
    PngTooLarge { width: u32, height: u32 },
    #[error("`{words}` {why}")]
    Size { words: String, why: Box<dyn Error> },
    #[error("{0}")]
    Coil(Box<dyn Error>),
    #[error("there is no rule `{name}`; {}", nearest_words(near.as_deref(), "`byrnie explain` lists them all"))]
    NoSuchRule { name: String, near: Option<String> },
    #[error("there is no built-in weave `{name}`; {}", nearest_words(near.as_deref(), "`byrnie weaves` lists them"))]
    NoBuiltInWeave { name: String, near: Option<String> },
    #[error("{name}: {beside} is not in the same folder; put the weave beside the text")]
    WeaveElsewhere { name: String, beside: String },
    #[error(
        "{name}: it does not say which weave it is about; put the weave in a fence marked `weave`, name a `.weave` file beside it, or take the name of a built-in weave as its heading"
    )]
    NoWeaveNamed { name: String },
}

impl Stop {
    /// 1 where something is wrong with the weave; 2 for wrong usage, or a file that cannot be read or written.
    pub fn code(&self) -> u8 {
        match self {
            Self::GraphBroken { .. } | Self::NotTidied { .. } | Self::Weave { .. } => 1,
            _ => 2,
        }
    }

    /// Why something cannot be made of a weave.
    pub fn of<E: Error + 'static>(weave: &Weave) -> impl FnOnce(E) -> Self {
        |why| Self::Weave { weave: weave.name().to_owned(), why: Box::new(why) }
    }
}

/// Why a file could not be opened or read, in plain words.
fn read_words(error: &io::Error) -> String {
    match error.kind() {
        io::ErrorKind::NotFound => "there is no such file".to_owned(),
        io::ErrorKind::IsADirectory => "this is a folder; name a weave file in it".to_owned(),
        io::ErrorKind::PermissionDenied => "you may not read this file".to_owned(),
        _ => format!("cannot be read: {error}"),
    }
}

fn nearest_words(near: Option<&str>, list: &str) -> String {
    near.map_or_else(|| list.to_owned(), |near| format!("did you mean `{near}`?"))
}

/// "3, 4, 6"
fn listed(numbers: &[usize]) -> String {
    numbers.iter().map(usize::to_string).collect::<Vec<_>>().join(", ")
}
