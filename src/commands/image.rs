//! Drawings as files: SVG as it is, or PNG.

use super::{Stop, files};
use crate::cli::Drawing;
use resvg::tiny_skia::{Pixmap, Transform};
use resvg::usvg::fontdb::Database;
use resvg::usvg::{Options, Tree};
use std::sync::Arc;

/// Dots to an inch on paper.
const DPI: f32 = 300.0;
/// The most pixels of a picture along each way.
const MOST: u32 = 20_000;

/// Puts a drawing where it is wanted, in the format that is wanted.
///
/// # Errors
/// Exit code 2, where it cannot be written, or would be too large as PNG.
pub fn put(drawing: &Drawing, svg: &str) -> Result<(), Stop> {
    match drawing {
        Drawing::Svg(output) => files::put(output, svg.as_bytes()),
        Drawing::Png(path) => files::write(path, png(svg)?),
    }
}

/// A picture as PNG, 300 dots to an inch.
fn png(svg: &str) -> Result<Vec<u8>, Stop> {
    let options = Options { dpi: DPI, fontdb: Arc::new(letters()), ..Options::default() };
    let tree = Tree::from_str(svg, &options).map_err(|e| Stop::Png(e.into()))?;
    let size = tree.size().to_int_size();
    let (width, height) = (size.width(), size.height());
    let fits = width <= MOST && height <= MOST;
    let pixels = fits.then(|| Pixmap::new(width, height)).flatten();
    let mut pixels = pixels.ok_or(Stop::PngTooLarge { width, height })?;
    resvg::render(&tree, Transform::identity(), &mut pixels.as_mut());
    pixels.encode_png().map_err(|e| Stop::Png(e.into()))
}

/// The one font pictures are set in, upright and bold: none of the machine's, so that a picture is the same everywhere.
fn letters() -> Database {
    let mut fonts = Database::new();
    fonts.load_font_data(dejavu::sans::regular().to_vec());
    fonts.load_font_data(dejavu::sans::bold().to_vec());
    fonts.set_sans_serif_family("DejaVu Sans");
    fonts
}
