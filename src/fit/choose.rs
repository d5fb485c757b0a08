//! The question and its answer.

use super::bounds::Bounds;
use super::need::Counter;
use super::offer::{Offer, offers};
use super::pairs::{candidates, settled_pairs};
use super::rows::{Misses, Row, picks};
use super::survey::Survey;
use super::wanted::{Wanted, wanted};
use crate::Weave;
use crate::count::Reach;
use crate::fit::RATIO_STEP;
use crate::pattern::Lattice;
use crate::settle::{Floor, NotSettled, RingSize, Settled};
use crate::shelf::{Shelf, ShelfRing};
use rayon::prelude::*;
use std::collections::{BTreeMap, BTreeSet};

/// Of those that do not close, so many of the nearest are named.
pub(super) const MOST_NEAREST: usize = 3;
/// A weave at its floor closes.
const AT_FLOOR: f64 = 1e-6;

/// Which rings make a weave.
#[derive(Clone, Debug)]
pub struct Fit {
    /// The weave.
    pub weave: String,
    /// Whether it is a chain that could curl where it does not close straight; whether it does is not looked at.
    pub may_curl: bool,
    /// The kinds, the first family's first.
    pub kinds: Vec<String>,
    /// Whether sizes are those of a shelf.
    pub from_shelf: bool,
    /// All sizes there are to choose from.
    pub offers: Vec<Offer>,
    /// Lines of the shelf left out: their rings stretch.
    pub stretching: Vec<ShelfRing>,
    /// The floors the weave was settled to: of one kind those that all rows go by.
    pub floors: Vec<Floor>,
    /// The aspect ratio from which on the base alone closes, where it is of one kind and there are accents.
    pub base_floor: Option<f64>,
    /// Sizes with which it closes, in the order a maker would try them.
    pub rows: Vec<Row>,
    /// What is not among them, and why.
    pub misses: Misses,
    /// Sizes of the first kind that go with none of the second, and what they want.
    pub wanted: Vec<Wanted>,
    /// How many shapes were settled, points surveyed and lengths pulled.
    pub work: [usize; 3],
    /// The other kinds and the sizes the text gives them, where one kind alone is chosen.
    pub held: Vec<(String, Offer)>,
    /// What was surveyed, of two kinds.
    pub(super) survey: Option<Survey>,
    /// Of one kind beside others, the ring of these that the survey goes by, mm.
    pub(super) beside: Option<RingSize>,
}

/// Why there is no answer.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NotFitted {
    /// The weave does not settle.
    #[error(transparent)]
    NotSettled(NotSettled),
    /// It has more than two kinds of ring, and all were to be chosen.
    #[error("it has {} kinds of ring ({}); sizes are chosen for two at once at the most, so say which one is to be chosen beside the others as the text has them: `--kind {}`", .0.len(), .0.join(", "), .0.last().map_or("main", String::as_str))]
    TooManyKinds(Vec<String>),
    /// It has no kind of this name; those it has.
    #[error("no ring is of the kind `{0}`; the kinds are {list}", list = .1.join(", "))]
    NoSuchKind(String, Vec<String>),
    /// One kind was to be chosen, and the text does not say the sizes of these others, or they stretch.
    #[error("the other rings stay as the text has them, and it gives no size in mm to rigid rings of the kind {}; add it under `rings`", .0.join(", "))]
    OthersOpen(Vec<String>),
    /// There are no rings to choose from.
    #[error("there are no rings on the shelf that could be read and do not stretch")]
    NoRings,
}

/// Which rings of a shelf, or, without one, of the sizes in common use, make a weave. At most `most` pairs of two kinds
/// come out, each settled; of one kind all that close.
///
/// # Errors
/// [`NotFitted`].
pub fn fit(weave: &Weave, shelf: Option<&Shelf>, most: usize) -> Result<Fit, NotFitted> {
    let (offers, stretching) = offers(shelf);
    if offers.is_empty() {
        return Err(NotFitted::NoRings);
    }
    let kinds = kinds(weave);
    if kinds.len() > 2 {
        return Err(NotFitted::TooManyKinds(kinds));
    }
    let settled = weave.settled().map_err(|why| NotFitted::NotSettled(why.clone()))?;
    let mut fit = Fit {
        weave: weave.name().to_owned(),
        may_curl: weave.pattern().lattice == Lattice::Chain && !weave.pattern().spiral,
        from_shelf: shelf.is_some(),
        stretching: stretching.into_iter().cloned().collect(),
        floors: settled.floors.clone(),
        base_floor: base_floor(weave, &kinds),
        rows: Vec::new(),
        misses: Misses::default(),
        wanted: Vec::new(),
        work: [1, 0, 0],
        held: Vec::new(),
        survey: None,
        beside: None,
        offers,
        kinds,
    };
    let accents = weave.pattern().families.iter().any(|f| f.accent.is_some());
    if fit.kinds.len() == 1 && !accents {
        fit.by_ratio(weave, settled);
    } else {
        fit.by_shape(weave, settled, most);
    }
    fit.rows.sort_by(Row::before);
    fit.misses.nearest.sort_by(|a, b| b.1.total_cmp(&a.1));
    fit.misses.nearest.truncate(MOST_NEAREST);
    Ok(fit)
}

/// The kinds of a weave, the first family's first.
pub(super) fn kinds(weave: &Weave) -> Vec<String> {
    let mut kinds: Vec<String> = Vec::new();
    for family in &weave.pattern().families {
        if !kinds.contains(&family.kind) {
            kinds.push(family.kind.clone());
        }
    }
    kinds
}

/// From which aspect ratio on the base closes without its accents, where it is of the first kind alone.
fn base_floor(weave: &Weave, kinds: &[String]) -> Option<f64> {
    let families = &weave.pattern().families;
    let base_alike = families.iter().filter(|f| f.accent.is_none()).all(|f| Some(&f.kind) == kinds.first());
    let accents = families.iter().any(|f| f.accent.is_some());
    let settled = (base_alike && accents).then(|| Settled::of_base(weave.graph()).ok())??;
    settled.floors.first().map(|f| f.found)
}

impl Fit {
    /// One kind without accents: everything follows from the aspect ratio.
    fn by_ratio(&mut self, weave: &Weave, settled: &Settled) {
        let Some(floor) = settled.floors.first() else { return };
        let room = |offer: &Offer| (offer.ratio() + 1.0) / (floor.found + 1.0) - 1.0;
        let mut closing: Vec<&Offer> = Vec::new();
        for offer in &self.offers {
            match room(offer) {
                _ if offer.ratio() < floor.proved * (1.0 - 1e-9) => self.misses.proved += 1,
                room if room < -AT_FLOOR => {
                    self.misses.not_found += 1;
                    self.misses.nearest.push((vec![offer.clone()], room));
                }
                _ => closing.push(offer),
            }
        }
        // Each length once, side by side, in the order of the aspect ratios.
        let step = |offer: &Offer| whole(libm::floor(offer.ratio() / RATIO_STEP + 1e-6));
        let steps: BTreeMap<i64, f64> = closing
            .iter()
            .map(|o| (step(o), (libm::floor(o.ratio() / RATIO_STEP + 1e-6) * RATIO_STEP).max(floor.found)))
            .collect();
        let steps: Vec<(i64, f64)> = steps.into_iter().collect();
        let lengths: BTreeMap<i64, Option<Reach>> = steps
            .par_iter()
            .map(|(step, ratio)| (*step, Reach::at_ratio(settled, *ratio)))
            .collect::<Vec<_>>()
            .into_iter()
            .collect();
        self.work[2] = if settled.problem.ways == 0 { 0 } else { lengths.len() };
        let counter = Counter::of(weave);
        for offer in closing {
            let of_one = lengths.get(&step(offer)).and_then(Option::as_ref);
            let reach = of_one.map(|reach| reach.scaled(offer.inner_mm));
            let needs = counter.needs(reach.as_ref());
            let repeat_mm = reach.map_or(Vec::new(), |reach| reach.pitch_mm);
            self.rows.push(Row {
                picks: picks(&self.kinds, &[offer], &needs),
                room: room(offer).max(0.0),
                repeat_mm,
                sits: Vec::new(),
                size: needs.size,
            });
        }
    }

    /// Two kinds, or one that is accent and base at once: the most promising are settled.
    fn by_shape(&mut self, weave: &Weave, settled: &Settled, most: usize) {
        let names = settled.kinds(weave.pattern());
        let kind: Vec<usize> =
            names.iter().map(|name| self.kinds.iter().position(|k| k == name).unwrap_or(0)).collect();
        let bounds = Bounds::of(settled, &kind, self.kinds.len());
        let found = candidates(self, settled, &kind, &bounds);
        self.work[1] = self.survey.as_ref().map_or(0, Survey::points);
        let pairs = settled_pairs(weave, self, &found.ordered, most);
        self.work[0] += pairs.shapes;
        self.rows = pairs.rows;
        self.misses.not_found += pairs.not_found.len();
        self.misses.nearest.extend(pairs.not_found);
        self.misses.promising = found.ordered.len() - pairs.tried.len();
        // Of the sizes in common use there is always one more.
        if self.kinds.len() == 2 && self.from_shelf {
            let left = found.ordered.iter().enumerate().filter(|(number, _)| !pairs.tried.contains(number));
            let open: BTreeSet<usize> =
                left.filter_map(|(_, c)| c.picks.first().copied()).chain(found.beyond).collect();
            self.wanted = wanted(weave, self, &open);
        }
    }
}

#[allow(clippy::cast_possible_truncation)] // Aspect ratios are small.
fn whole(x: f64) -> i64 {
    x.clamp(-1e15, 1e15) as i64
}
