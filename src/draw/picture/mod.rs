//! Pose → a picture of the piece as SVG.
//!
//! Every ring is a round wire: in a parallel projection its outline is the band along the ellipse of its core circle.
//! Where two bands meet, the nearer one is drawn over the other; which that is is decided for every meeting from the
//! depths of the two core circles there, never ring by ring. So a ring is cut into arcs, over and under, and the arcs are
//! sorted.
//!
//! 1. [`scene`] puts every ring of the piece where the settled pose has it, and turns it to the viewer.
//! 2. [`ellipse`] is a ring as it is seen; [`meeting`] finds where two of them meet.
//! 3. [`arcs`] cuts rings between meetings, and sorts the arcs from far to near.
//! 4. [`strokes`] draws an arc, [`svg`] the document.
//! 5. [`frame`] shows a step of the work: some rings calm, one strong, and how it goes ([`going`]; [`cover`] says what of it is
//!    hidden, [`callout`] sets the words). [`called`] calls out an [`eye`], the lean, aspect ratios.
//!
//! Same weave, same bytes.

mod arcs;
mod called;
mod callout;
mod colour;
mod cover;
mod ellipse;
mod eye;
mod frame;
mod going;
mod meeting;
mod page;
mod scene;
mod strokes;
mod svg;

use crate::pattern::Repeats;
use crate::rings::TooMany;
use crate::settle::Settled;
use crate::weave::Weave;

use called::Called;
use page::Page;
use strokes::Tone;
use svg::Rings;

pub use colour::Paint;
pub use frame::Frames;
pub use scene::{MOST_DRAWN, Scene, SceneRing};

/// From where a piece is looked at.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Viewpoint {
    /// The piece is turned about its length (of a sheet: about its rows) by so many degrees: 0 shows its front, 180 its
    /// back, 90 its edge.
    pub turn_deg: f64,
    /// Then its right end is tilted away from the viewer by so many degrees.
    pub tilt_deg: f64,
}

impl Viewpoint {
    /// Lying flat, front up.
    pub const FRONT: Self = Self { turn_deg: 0.0, tilt_deg: 0.0 };
    /// Turned over about its length.
    pub const BACK: Self = Self { turn_deg: 180.0, tilt_deg: 0.0 };
    /// On its edge.
    pub const EDGE: Self = Self { turn_deg: 90.0, tilt_deg: 0.0 };
}

/// How rings are drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Look {
    /// Filled with their colours and shaded.
    Shaded,
    /// Outlines alone; what is hidden is left out.
    Outline,
    /// Outlines alone; what is hidden is dashed.
    Dashed,
}

/// How large a picture is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Scale {
    /// As large as it goes into so many mm of width and height.
    Fit(f64, f64),
    /// Rings as large as they are, so many times.
    Times(f64),
}

/// What is called out on a picture, with words and lines that lead to it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[expect(clippy::struct_excessive_bools, reason = "each is asked for by itself")]
pub struct CallOut {
    /// An eye.
    pub eye: bool,
    /// How the eyes lean; seen from the front only.
    pub lean: bool,
    /// The aspect ratio of every kind of ring.
    pub aspect_ratio: bool,
    /// An eye once more, enlarged, beside the piece.
    pub enlarged: bool,
}

/// What is to be drawn, and how.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Options {
    /// From where.
    pub from: Viewpoint,
    /// How.
    pub look: Look,
    /// How large.
    pub scale: Scale,
    /// What is called out.
    pub call_out: CallOut,
}

impl Default for Options {
    fn default() -> Self {
        Self {
            from: Viewpoint::FRONT,
            look: Look::Shaded,
            scale: Scale::Fit(160.0, 240.0),
            call_out: CallOut::default(),
        }
    }
}

/// Why there is no picture, or no model.
#[derive(Clone, Debug, thiserror::Error)]
pub enum NotDrawn {
    /// The piece would have too many rings.
    #[error("it has {} rings, more than can be made", .0.rings)]
    TooMany(TooMany),
    /// It does not close at its sizes, so it lies nowhere.
    #[error("it does not close at these sizes, so its rings lie nowhere; `byrnie settle` says which would do")]
    DoesNotClose,
    /// The piece has more rings than a viewer can hold.
    #[error(
        "it has {rings} rings, and a picture or model holds up to {most}: ask for fewer with --repeats, or with --rows and --columns"
    )]
    TooLarge {
        /// How many.
        rings: usize,
        /// The most it may have.
        most: usize,
    },
    /// The piece has no rings.
    #[error("no ring is left of it: make more repeats, or drop fewer in `ends`")]
    NoRings,
    /// Rings have no size in mm, so nothing can be drawn so many times as large.
    #[error("a true scale needs the wire and inner diameter of every kind of ring in `rings`")]
    NoSizes,
    /// Two closed rings are linked, so nobody can weave it.
    #[error("two closed rings are linked, so there is no order of work; see `byrnie lint`")]
    NoOrder,
    /// There is no eye to call out, or it is not seen from there.
    #[error("no eye to call out: the text names none, or it is not seen from this side")]
    NoEye,
    /// It leans neither way, or is not seen from the front.
    #[error("no lean to call out: the weave leans neither way, or it is not seen from the front")]
    NoLean,
    /// The page is too small for the words alone.
    #[error("the words and what is enlarged leave no room for the rings; choose a larger --fit")]
    NoRoom,
}

/// A picture of a piece of so many repeats, drawn out as it was settled, as a whole SVG document with title and
/// description.
///
/// # Errors
/// [`NotDrawn`].
pub fn picture(weave: &Weave, settled: &Settled, size: Repeats, options: &Options) -> Result<String, NotDrawn> {
    let scene = Scene::of(weave, settled, size, options.from)?;
    let rings = Rings::of(weave, &scene);
    let called = Called::of(weave, settled, &rings, options)?;
    let page = Page::of(settled, &rings.ellipses, options.scale, called.room())?;
    let (title, about) = svg::words(weave, &scene, options.from);
    let id = crate::text::short_name(weave.name());
    let mut body = rings.drawn(&page, options.look, |_| Tone::Plain);
    body.extend(called.elements(&page, &id, options.look));
    Ok(svg::document(&page, &id, (&title, &about), &body))
}
