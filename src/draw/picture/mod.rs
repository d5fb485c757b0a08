//! Pose → a picture of the piece as SVG.
//!
//! Every ring is a round wire. In a parallel projection its outline is the band along the ellipse of its core circle. Where two
//! bands meet, the nearer one is drawn over the other. Which is nearer follows, for every meeting, from the depths of the two
//! core circles there, never ring by ring. So rings are cut into arcs, and the arcs are sorted.
//!
//! 1. [`scene`] puts every ring of the piece where the settled pose has it, and turns it to the viewer.
//! 2. [`ellipse`] is a ring as the viewer sees it; [`meeting`] finds where two of them meet.
//! 3. [`arcs`] cuts rings between meetings, and sorts the arcs from far to near.
//! 4. [`strokes`] draws an arc, [`rings`] all arcs, on a [`page`].
//! 5. [`frame`] shows a step of the work with the [`route`] of the new ring. [`call_outs`] points out an [`eye`], the lean,
//!    aspect ratios. [`labels`] places their words, and [`cover`] says what is hidden.
//!
//! Same weave, same bytes.

mod arcs;
mod call_outs;
mod colour;
mod cover;
mod ellipse;
mod eye;
mod frame;
mod labels;
mod meeting;
mod page;
mod rings;
mod route;
mod scene;
mod strokes;
mod turns;

use crate::pattern::{FamilyId, Repeats};
use crate::rings::TooMany;
use crate::settle::Settled;
use crate::text::{count, short_name};
use crate::weave::Weave;
use std::collections::BTreeMap;

use call_outs::CallOuts;
use page::Page;
use rings::Rings;
use strokes::Tone;

pub use colour::Paint;
pub use frame::Frames;
pub use scene::{MOST_DRAWN, Scene, SceneRing};

/// The side from which the viewer looks at a piece.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Viewpoint {
    /// The turn of the piece about its length (of a sheet: about its rows), degrees: 0 shows its front, 180 its back, 90 its
    /// edge.
    pub turn_deg: f64,
    /// How far its right end is then tilted away from the viewer, degrees.
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
    /// As large as it goes into this width and height, mm.
    Fit(f64, f64),
    /// This many times as large as the rings are.
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
    /// It does not close at its sizes, so its rings have no places.
    #[error("it does not close at these sizes, so its rings lie nowhere; `byrnie settle` says which sizes would do")]
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
    /// Rings have no size in mm, so there is no true scale.
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

/// A picture of a piece of this size, drawn out as it was settled, as a whole SVG document with title and description.
///
/// # Errors
/// [`NotDrawn`].
pub fn picture(weave: &Weave, settled: &Settled, size: Repeats, options: &Options) -> Result<String, NotDrawn> {
    let scene = Scene::of(weave, settled, size, options.from)?;
    let rings = Rings::of(weave, &scene);
    let call_outs = CallOuts::of(weave, settled, &rings, options)?;
    let page = Page::of(settled, &rings.ellipses, options.scale, call_outs.room())?;
    let id = format!("picture-{}", short_name(weave.name()));
    let mut svg = Page::body();
    rings.draw(&mut svg, &page, options.look, |_| Tone::Plain);
    call_outs.draw(&mut svg, &page, options.look, &id);
    let title = format!("{}, {}", weave.name(), seen_from(options.from));
    Ok(page.document(svg, &id, &title, &description(weave, &scene)))
}

/// The viewpoint in words.
fn seen_from(from: Viewpoint) -> String {
    match from {
        Viewpoint::FRONT => "seen from the front".to_owned(),
        Viewpoint::BACK => "seen from the back".to_owned(),
        Viewpoint::EDGE => "seen on its edge".to_owned(),
        Viewpoint { turn_deg, tilt_deg } => format!("turned by {turn_deg} and tilted by {tilt_deg} degrees"),
    }
}

/// A whole piece in words.
fn description(weave: &Weave, scene: &Scene) -> String {
    let mut counts: BTreeMap<FamilyId, usize> = BTreeMap::new();
    for ring in &scene.rings {
        *counts.entry(ring.family).or_insert(0) += 1;
    }
    let parts: Vec<String> =
        counts.iter().map(|(family, count)| format!("{count} {}", weave.pattern().family_name(*family))).collect();
    let mut about = format!(
        "{}, first ring at the left: {}. Where wires cross, the nearer one is drawn over the other.",
        count(scene.rings.len(), "ring"),
        parts.join(", ")
    );
    if scene.left_out > 0 {
        let rings = count(scene.left_out, "ring");
        about += &format!(" Not shown: {rings} that `ends` adds where the repeat has none.");
    }
    about
}
