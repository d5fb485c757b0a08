//! The rings of a piece as the viewer sees them.

use super::colour::{Paint, Paints};
use crate::count::Colours;
use crate::draw::picture::{NotDrawn, Viewpoint};
use crate::pattern::{FamilyId, Pattern, Repeats, Shift};
use crate::settle::{Circle, Placed, Settled};
use crate::weave::Weave;
use glam::DMat3;
use petgraph::graph::NodeIndex;
use std::collections::BTreeMap;
use std::sync::Arc;

/// The most rings of a picture or model. A shirt has about 30 000.
pub const MOST_DRAWN: usize = 100_000;
/// The most letters in the names of all its rings.
const MOST_LETTERS: usize = 64 * 1024 * 1024;

/// A ring of the piece.
#[derive(Clone, Debug)]
pub struct SceneRing {
    /// Its number in the piece.
    pub node: NodeIndex,
    /// Its name, `b[7]`.
    pub name: String,
    /// Its family, and its repeat from 1.
    pub family: FamilyId,
    /// See `family`.
    pub at: Shift,
    /// The number of its paint.
    pub paint: usize,
    /// Its core circle, in the unit of the pose: x to the right, y up, z towards the viewer.
    pub circle: Circle,
    /// The thickness of its wire, in the unit of the pose.
    pub wire: f64,
    /// Which ring of the settled repeat it is, and how many repeats further on.
    pub home: (usize, Shift),
}

/// All rings of a piece, as they are seen.
#[derive(Clone, Debug)]
pub struct Scene {
    /// The rings, in the order of the piece.
    pub rings: Vec<SceneRing>,
    /// How many rings of the piece are missing: `ends` adds them where the repeat has none, so nothing is known of how they
    /// lie.
    pub left_out: usize,
    /// The paints they are drawn in.
    pub paints: Arc<[Paint]>,
    /// Whether every repeat is the one before it moved, and not turned as well.
    pub moved_only: bool,
}

impl Scene {
    /// The rings of a piece of this size as they lie when it is drawn out, seen from a viewpoint.
    ///
    /// # Errors
    /// [`NotDrawn`], where the piece is too large or does not close.
    pub fn of(weave: &Weave, settled: &Settled, size: Repeats, from: Viewpoint) -> Result<Self, NotDrawn> {
        if settled.closes() == Some(false) {
            return Err(NotDrawn::DoesNotClose);
        }
        let pattern = weave.pattern();
        let piece = weave.piece(size).map_err(NotDrawn::TooMany)?;
        let (count, most) = (piece.graph.node_count(), most_rings(pattern));
        if count > most {
            return Err(NotDrawn::TooLarge { rings: count, most });
        }
        let camera = camera(from) * settled.columns_to_the_right();
        let (mut colours, mut paints) = (Colours::new(pattern), Paints::default());
        let mut rings = Vec::new();
        let mut paint_of = BTreeMap::new();
        for node in piece.graph.node_indices() {
            let Some(ring) = piece.graph.node_weight(node) else { continue };
            let kind = pattern.families[ring.family].kind.as_str();
            let material = pattern.kind(kind).and_then(|k| k.material.as_ref()).map(|m| m.value.as_str());
            paint_of.insert(node, paints.number(colours.add(ring), kind, material));
        }
        for Placed { node, family, at, circle, wire, home } in settled.placed(&piece) {
            let circle = Circle { centre: camera * circle.centre, normal: camera * circle.normal, ..circle };
            let paint = paint_of.get(&node).copied().unwrap_or(0);
            rings.push(SceneRing { node, name: piece.ring_name(pattern, node), family, at, paint, circle, wire, home });
        }
        let left_out = count - rings.len();
        Ok(Self { rings, left_out, paints: paints.all.into(), moved_only: settled.view.pose.twist == 0.0 })
    }

    /// Some of the rings.
    #[must_use]
    pub fn only(&self, shown: impl Fn(&SceneRing) -> bool) -> Self {
        let rings = self.rings.iter().filter(|r| shown(r)).cloned().collect();
        Self { rings, left_out: self.left_out, paints: Arc::clone(&self.paints), moved_only: self.moved_only }
    }

    /// The paint of a ring.
    pub fn paint(&self, ring: &SceneRing) -> Option<&Paint> {
        self.paints.get(ring.paint)
    }
}

/// The turning of a piece to its viewer.
fn camera(from: Viewpoint) -> DMat3 {
    let exact = |degrees: f64| {
        // Quarter turns to the last digit.
        let quarters = degrees / 90.0;
        if (quarters - quarters.round()).abs() < 1e-12 {
            #[expect(clippy::cast_possible_truncation)]
            match (quarters.round() as i64).rem_euclid(4) {
                0 => (0.0, 1.0),
                1 => (1.0, 0.0),
                2 => (0.0, -1.0),
                _ => (-1.0, 0.0),
            }
        } else {
            libm::sincos(degrees.to_radians())
        }
    };
    let (s, c) = exact(from.turn_deg);
    let turn = DMat3::from_cols_array(&[1.0, 0.0, 0.0, 0.0, c, s, 0.0, -s, c]);
    let (s, c) = exact(from.tilt_deg);
    let tilt = DMat3::from_cols_array(&[c, 0.0, -s, 0.0, 1.0, 0.0, s, 0.0, c]);
    tilt * turn
}

/// The most rings a picture or model may have: fewer where their names are very long.
fn most_rings(pattern: &Pattern) -> usize {
    let names = pattern.families.iter().map(|f| 2 * f.name.value.len() + f.kind.len()).max().unwrap_or(0);
    let listed = pattern.colours.iter().flat_map(|c| &c.colours);
    let colours = listed.chain(pattern.kinds.iter().filter_map(|k| k.colour.as_ref())).map(String::len).max();
    (MOST_LETTERS / (names + colours.unwrap_or(0)).max(1)).clamp(1, MOST_DRAWN)
}
