//! The base of a weave, settled: its poses, the one the text means, and how it lies at the sizes given.

use super::sizes::{Known, Sizes};
use super::view::{View, views};
use crate::notation::Hand;
use crate::pattern::Pattern;
use crate::rings::{Cell, Links};
use crate::settle::solve::{Found, Pose, Problem, Pull, Tight, poses, pull, tighten};

/// The part of the wire at the floor that is used where no sizes are given: at its floor a chain is stiff, and no
/// maker buys such rings.
const ABOVE_FLOOR: f64 = 0.98;
/// A weave this little short of room still closes: it is at its floor.
const AT_FLOOR: f64 = 1e-6;

/// Whether the wire as given fits a pose that holds `scale` times its thickness.
pub(crate) fn fits(scale: f64) -> bool {
    scale >= 1.0 - AT_FLOOR
}

/// The wire with which a pose is drawn out that holds `scale` times the wire given: the wire given, where there are
/// sizes and it fits, and otherwise a little less than the floor allows.
pub(crate) fn drawn_with(scale: f64, known: Known) -> f64 {
    if known != Known::Nothing && fits(scale) { scale.min(1.0) } else { scale * ABOVE_FLOOR }
}

/// A base that is settled.
#[derive(Clone, Debug)]
pub(crate) struct Base {
    /// Rings of one repeat, without accents.
    pub cell: Cell,
    /// The problem the poses belong to.
    pub problem: Problem,
    /// All poses found, the roomiest first.
    pub poses: Vec<Tight>,
    /// For each of them, the views of it.
    pub views: Vec<Vec<View>>,
    /// Which of them the text means, by number.
    pub chosen: usize,
    /// The view of it.
    pub view: View,
    /// The wire with which it is drawn out, as a part of the wire given.
    pub wire: f64,
    /// Drawn out at that wire, as it then lies on the bench.
    pub taut: View,
    /// Pushed together at that wire.
    pub pushed: Option<Pose>,
    /// Starts tried in all.
    pub starts: u64,
}

impl Base {
    /// Settles the base from this many starts for each way of turning rings over.
    ///
    /// # Errors
    /// How many starts were tried in all, where no pose is found.
    pub fn of(pattern: &Pattern, links: &Links, sizes: &Sizes, starts: u64) -> Result<Self, u64> {
        let cell = Cell::of_base(pattern, links);
        let problem = Problem::of(pattern, &cell, |family| sizes.of_family(family));
        let found = poses(&problem, starts);
        let starts = found.starts;
        Self::among(pattern, cell, sizes.known, found).ok_or(starts)
    }

    fn among(pattern: &Pattern, cell: Cell, known: Known, found: Found) -> Option<Self> {
        let Found { problem, mut poses, starts } = found;
        let mut all: Vec<Vec<View>> = poses.iter().map(|t| views(pattern, &cell, &problem, &t.pose)).collect();
        let (chosen, view) = choice(pattern, &all)?;
        // The pose the text means to the last digit, whichever it is.
        let tight = tighten(&problem, poses.get(chosen)?.pose.clone());
        let own = views(pattern, &cell, &problem, &tight.pose);
        let view = like(&view, own.clone())?;
        let wire = drawn_with(tight.scale, known);
        let drawn = pull(&problem, &view.pose, wire, Pull::Taut).unwrap_or_else(|| view.pose.clone());
        let taut = like(&view, views(pattern, &cell, &problem, &drawn)).unwrap_or_else(|| view.clone());
        // Pushing ends in one of several heaps; from the tightened pose and from the drawn out one they differ.
        let heaps = [&taut.pose, &view.pose].into_iter().filter_map(|pose| pull(&problem, pose, wire, Pull::Together));
        let pushed = heaps.min_by(|a, b| a.length().total_cmp(&b.length()));
        *poses.get_mut(chosen)? = tight;
        *all.get_mut(chosen)? = own;
        Some(Self { cell, problem, views: all, chosen, view, wire, taut, pushed, poses, starts })
    }

    /// The pose chosen, tightened.
    pub fn tight(&self) -> Option<&Tight> {
        self.poses.get(self.chosen)
    }
}

/// The roomiest pose with a view that the text allows; failing that, the view in which least of what the text
/// says is untrue. Of several views of one pose the one that leans as stated, and to the left if nothing is.
fn choice(pattern: &Pattern, all: &[Vec<View>]) -> Option<(usize, View)> {
    let stated = pattern.stated_lean().or(Some(Hand::Left));
    for (number, views) in all.iter().enumerate() {
        let fitting = || views.iter().filter(|v| v.fits());
        let view = fitting().find(|v| v.lean() == stated).or_else(|| fitting().next());
        if let Some(view) = view {
            return Some((number, view.clone()));
        }
    }
    let numbered = all.iter().enumerate().flat_map(|(number, views)| views.iter().map(move |v| (number, v)));
    let (number, view) = numbered.min_by_key(|(_, v)| (!v.eyes_face_one_way(), v.broken.len()))?;
    Some((number, view.clone()))
}

/// Of the views of a pose drawn out, or of the whole with its accents, the one that comes from `view`: what holds
/// and how it leans are the same, as far as can be.
pub(crate) fn like(view: &View, views: Vec<View>) -> Option<View> {
    let unlike = |v: &View| {
        let other = v.broken.iter().filter(|n| !view.broken.contains(n)).count();
        (v.eyes_face_one_way() != view.eyes_face_one_way(), other, v.lean() != view.lean())
    };
    views.into_iter().min_by_key(unlike)
}
