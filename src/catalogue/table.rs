//! The built-in weaves as a table for people, in Markdown.

use super::figures::{Entry, Figures};
use crate::pattern::Lattice;
use crate::text::{Grid, Layout};

/// What the columns mean, for below the table.
const LEGEND: &str = "Floor: the proved minimum, below which no aspect ratio can close, and the smallest aspect ratio \
found to close. Suits: from 3 % of room (all wires could be 3 % thicker) to the aspect ratio at which the piece, drawn out, \
can be pushed together by a quarter of its length. There is no upper end if the weave does not repeat, or if it can be pushed \
together farther than that with only 6 % of room. Repeat: the length of a repeat drawn out, in inner diameters. Rings: to a \
centimetre of a chain or a square centimetre of a sheet, in 1 mm wire. If the text gives no sizes, all rings are taken as the \
same size. All figures are for the first kind of ring.";

/// Folders a table links to.
#[derive(Clone, Copy, Debug, Default)]
pub struct Folders<'f> {
    /// Where the charts are; names link to them.
    pub charts: Option<&'f str>,
    /// Where the small pictures are; they stand in the first column.
    pub pictures: Option<&'f str>,
}

/// The table in Markdown, and what its columns mean.
pub fn weaves_table(entries: &[Entry], folders: Folders<'_>) -> String {
    let mut grid = Grid::new(Layout::CompactMarkdown).words(folders.pictures.map(|_| "seen from the front")).words([
        "weave",
        "floor: proved – found",
        "suits AR",
        "repeat, ID",
        "rings",
        "lean",
        "use and remarks",
    ]);
    for entry in entries {
        let name = match folders.charts {
            Some(folder) => format!("[{}]({folder}/{}.svg)", entry.name, entry.short),
            None => entry.name.clone(),
        };
        let picture = folders.pictures.map(|folder| match entry.thumbnail {
            Some(_) => format!("![{}]({folder}/{}.svg)", entry.name, entry.short),
            None => String::new(),
        });
        let figures = entry.figures.as_ref().map(|figures| figures_of(entry, figures)).unwrap_or_default();
        grid.row(picture.into_iter().chain([name]).chain(figures).chain([remarks(entry)]));
    }
    format!("{}{LEGEND}\n", grid.text())
}

fn figures_of(entry: &Entry, figures: &Figures) -> [String; 5] {
    let suits = match figures.suits.to {
        Some(to) => format!("{:.2} to {to:.1}", figures.suits.from),
        None => format!("{:.2} and up", figures.suits.from),
    };
    let proved = if figures.proved > 0.0 { format!("{:.3} – ", figures.proved) } else { String::new() };
    let area = if entry.lattice == Lattice::Sheet { "/cm²" } else { "/cm" };
    [
        format!("{proved}{:.3}", figures.found),
        suits,
        figures.repeat_inner.iter().map(|l| format!("{l:.2}")).collect::<Vec<_>>().join(" × "),
        figures.rings_per_cm.map_or(String::new(), |n| format!("{n:.1}{area}")),
        figures.lean.map_or("", crate::notation::Hand::word).to_owned(),
    ]
}

/// What it is for, how its accents sit, and what does not agree.
fn remarks(entry: &Entry) -> String {
    let mut sentences = vec![entry.used.clone()];
    match &entry.figures {
        Err(why) => sentences.push(format!("**Does not settle**: {why}.")),
        Ok(figures) => {
            for (family, word) in &figures.sits {
                sentences.push(format!("Accent {family} sits {}.", word.word()));
            }
            if let (Some(false), Some([low, high])) = (entry.agrees(), entry.practice) {
                sentences.push(format!(
                    "**Outside common practice**, which is about AR {low} to {high}: tried in {} starts.",
                    figures.starts
                ));
            }
        }
    }
    sentences.join(" ")
}
