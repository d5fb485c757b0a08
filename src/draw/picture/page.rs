//! Where things are on the page, in mm.

use super::ellipse::Ellipse;
use crate::draw::picture::{NotDrawn, Scale};
use crate::settle::{Known, Settled};
use glam::DVec3;

/// White round the picture.
const MARGIN: f64 = 3.0;

/// What must be left of a page for the rings, each way.
const LEAST: f64 = 1.0;

/// Room beside the rings for words and the like, mm.
#[derive(Clone, Copy, Debug, Default)]
pub struct Room {
    pub above: f64,
    pub below: f64,
    /// At the right.
    pub right: f64,
    /// How tall the room for the rings is at least, and how wide the page.
    pub least_tall: f64,
    /// See `least_tall`.
    pub least_wide: f64,
}

/// A page that holds all rings of a scene.
#[derive(Clone, Copy, Debug)]
pub struct Page {
    /// mm for one unit of the pose.
    pub scale: f64,
    /// The left and upper edge of the rings, in the unit of the pose; and of the room for them, on the page.
    left: f64,
    high: f64,
    x: f64,
    y: f64,
    /// Width and height of the room for the rings.
    pub rings: [f64; 2],
    /// Width and height of all of it.
    pub wide: f64,
    pub tall: f64,
}

impl Page {
    /// # Errors
    /// [`NotDrawn::NoSizes`] for a true scale where rings have no size; [`NotDrawn::NoRoom`].
    pub fn of(settled: &Settled, ellipses: &[Ellipse], scale: Scale, room: Room) -> Result<Self, NotDrawn> {
        let all = ellipses.iter().map(Ellipse::reach);
        let [left, low, right, high] = all
            .fold([f64::INFINITY, f64::INFINITY, f64::NEG_INFINITY, f64::NEG_INFINITY], |a, b| {
                [a[0].min(b[0]), a[1].min(b[1]), a[2].max(b[2]), a[3].max(b[3])]
            });
        let (wide, tall) = if ellipses.is_empty() { (1.0, 1.0) } else { (right - left, high - low) };
        let across = 2.0 * MARGIN + room.right;
        let down = 2.0 * MARGIN + room.above + room.below;
        let scale = match scale {
            Scale::Times(times) if settled.sizes.known == Known::Millimetres => times,
            Scale::Times(_) => return Err(NotDrawn::NoSizes),
            Scale::Fit(w, h) if w - across < LEAST || h - down < LEAST.max(room.least_tall) || w < room.least_wide => {
                return Err(NotDrawn::NoRoom);
            }
            Scale::Fit(w, h) => ((w - across) / wide).min((h - down) / tall).max(1e-6),
        };
        let rings = [wide * scale, tall * scale];
        let more = [(room.least_wide - rings[0] - across).max(0.0), (room.least_tall - rings[1]).max(0.0)];
        let (x, y) = (MARGIN + 0.5 * more[0], MARGIN + room.above + 0.5 * more[1]);
        Ok(Self { scale, left, high, x, y, rings, wide: rings[0] + more[0] + across, tall: rings[1] + more[1] + down })
    }

    /// A page that shows the surroundings of a place so many times larger, with that place at `x`, `y`.
    pub fn magnified(&self, centre: DVec3, times: f64, (x, y): (f64, f64)) -> Self {
        Self { scale: self.scale * times, left: centre.x, high: centre.y, x, y, ..*self }
    }

    /// Where a point of the scene is on the page.
    pub fn place(&self, p: DVec3) -> (f64, f64) {
        ((p.x - self.left) * self.scale + self.x, (self.high - p.y) * self.scale + self.y)
    }

    /// The upper and the lower edge of the rings on the page.
    pub fn edges(&self) -> (f64, f64) {
        (self.y, self.y + self.rings[1])
    }
}
