//! Writes drawings: as PNG if the file's name says so, else as SVG.

use super::{Stop, files};
use resvg::tiny_skia::{Pixmap, Transform};
use resvg::usvg::fontdb::Database;
use resvg::usvg::{Options, Tree};
use std::path::Path;
use std::sync::Arc;

/// Dots to an inch on paper.
const DPI: f32 = 300.0;
/// The most pixels of a drawing, each way.
const MOST: u32 = 20_000;

/// Writes a drawing to a file, or else to standard output.
///
/// # Errors
/// Exit code 2, where it cannot be written or would be too large.
pub fn write(output: Option<&Path>, svg: &str) -> Result<(), Stop> {
    match output {
        Some(path) if path.extension().is_some_and(|e| e.eq_ignore_ascii_case("png")) => {
            files::write_bytes(path, &png(svg)?)
        }
        Some(path) => files::write(path, svg),
        None => files::print(svg),
    }
}

/// A drawing as PNG, 300 dots to an inch.
fn png(svg: &str) -> Result<Vec<u8>, Stop> {
    let fail = |why: &dyn std::fmt::Display| Stop::usage(format!("the picture cannot be made as PNG: {why}"));
    let options = Options { dpi: DPI, fontdb: Arc::new(letters()), ..Options::default() };
    let tree = Tree::from_str(svg, &options).map_err(|e| fail(&e))?;
    let size = tree.size().to_int_size();
    let most = (size.width() <= MOST && size.height() <= MOST).then_some(());
    let pixels = most.and_then(|()| Pixmap::new(size.width(), size.height()));
    let too_large =
        || fail(&format!("{} × {} pixels are too many; choose a smaller --fit", size.width(), size.height()));
    let mut pixels = pixels.ok_or_else(too_large)?;
    resvg::render(&tree, Transform::identity(), &mut pixels.as_mut());
    pixels.encode_png().map_err(|e| fail(&e))
}

/// The one font of drawings, upright and bold. It is none of the machine's, so a drawing is the same everywhere.
fn letters() -> Database {
    let mut fonts = Database::new();
    fonts.load_font_data(dejavu::sans::regular().to_vec());
    fonts.load_font_data(dejavu::sans::bold().to_vec());
    fonts.set_sans_serif_family("DejaVu Sans");
    fonts
}
