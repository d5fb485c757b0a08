//! Where things are on the page, in mm.

use super::ellipse::Ellipse;
use crate::draw::picture::{NotDrawn, Scale};
use crate::draw::plane::seen;
use crate::draw::svg::{Head, Svg};
use crate::settle::{Known, Settled};
use glam::DVec3;
use kurbo::{Point, Rect, Size, Vec2};

/// White round the picture.
pub const MARGIN: f64 = 3.0;
/// The rings need at least this much of the page, each way.
const LEAST: f64 = 1.0;

/// Room beside the rings for words and the like, mm.
#[derive(Clone, Copy, Debug, Default)]
pub struct Room {
    /// Above the rings.
    pub above: f64,
    /// Below the rings.
    pub below: f64,
    /// At their right.
    pub right: f64,
    /// The least height of the room for the rings.
    pub least_tall: f64,
    /// The least width of the page.
    pub least_wide: f64,
}

/// The part of the page that rings take, from top to bottom, mm.
#[derive(Clone, Copy, Debug)]
pub struct Band {
    /// Its upper edge.
    pub top: f64,
    /// Its lower edge.
    pub bottom: f64,
}

/// A page that holds all rings of a scene.
#[derive(Clone, Copy, Debug)]
pub struct Page {
    /// mm for one unit of the pose.
    pub scale: f64,
    /// A place in the unit of the pose, y upwards, and where it is on the page.
    origin: Point,
    at: Point,
    /// Height of the rings.
    rings_tall: f64,
    /// Width and height of the page.
    pub size: Size,
}

impl Page {
    /// # Errors
    /// [`NotDrawn::NoSizes`] for a true scale where rings have no size; [`NotDrawn::NoRoom`].
    pub fn of(settled: &Settled, ellipses: &[Ellipse], scale: Scale, room: Room) -> Result<Self, NotDrawn> {
        let rings = around(ellipses).unwrap_or(Rect::new(0.0, 0.0, 1.0, 1.0));
        let across = 2.0 * MARGIN + room.right;
        let down = 2.0 * MARGIN + room.above + room.below;
        let scale = match scale {
            Scale::Times(times) if settled.sizes.known == Known::Millimetres => times,
            Scale::Times(_) => return Err(NotDrawn::NoSizes),
            Scale::Fit(w, h) if w - across < LEAST || h - down < LEAST.max(room.least_tall) || w < room.least_wide => {
                return Err(NotDrawn::NoRoom);
            }
            Scale::Fit(w, h) => ((w - across) / rings.width()).min((h - down) / rings.height()).max(1e-6),
        };
        let taken = rings.size() * scale;
        let spare =
            Size::new((room.least_wide - taken.width - across).max(0.0), (room.least_tall - taken.height).max(0.0));
        Ok(Self {
            scale,
            origin: Point::new(rings.x0, rings.y1),
            at: Point::new(MARGIN + 0.5 * spare.width, MARGIN + room.above + 0.5 * spare.height),
            rings_tall: taken.height,
            size: taken + spare + Size::new(across, down),
        })
    }

    /// A page that shows the surroundings of a place enlarged, with that place at another point of the page.
    pub fn magnified(&self, centre: DVec3, times: f64, at: Point) -> Self {
        Self { scale: self.scale * times, origin: seen(centre).to_point(), at, ..*self }
    }

    /// Where a point of the scene is on the page.
    pub fn place(&self, point: DVec3) -> Point {
        let from = seen(point).to_point() - self.origin;
        self.at + Vec2::new(from.x, -from.y) * self.scale
    }

    /// The part of the page that all rings take.
    pub fn band(&self) -> Band {
        Band { top: self.at.y, bottom: self.at.y + self.rings_tall }
    }

    /// The part of the page that some of the rings take.
    pub fn band_of(&self, ellipses: &[Ellipse]) -> Band {
        let rings = around(ellipses).unwrap_or_default();
        let y = |y: f64| self.place(DVec3::new(0.0, y, 0.0)).y;
        Band { top: y(rings.y1), bottom: y(rings.y0) }
    }

    /// The body of a picture, still empty.
    pub fn body() -> Svg {
        let mut svg = Svg::new();
        svg.element("g").set("fill", "none").set("stroke-linecap", "butt").set("stroke-linejoin", "round").open();
        svg
    }

    /// The whole document, of a body with everything on it.
    pub fn document(&self, mut body: Svg, id: &str, title: &str, description: &str) -> String {
        body.close();
        body.document(&Head { id, title, description, wide: self.size.width, tall: self.size.height })
    }
}

/// The box round the bands of some rings; none where there are no rings.
fn around(ellipses: &[Ellipse]) -> Option<Rect> {
    ellipses.iter().map(Ellipse::bounds).reduce(|all, ring| all.union(ring))
}
