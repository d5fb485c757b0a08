//! One kind of ring is chosen, and all others stay as the text has them.

use super::bounds::Bounds;
use super::choose::{Fit, NotFitted, kinds};
use super::need::Counter;
use super::offer::{Offer, offers};
use super::pairs::{OUT_BY, SOUGHT};
use super::rows::{Misses, Row, picks};
use super::survey::Survey;
use crate::Weave;
use crate::count::Reach;
use crate::measure::{in_mm, millimetres, written as size_words};
use crate::pattern::{FamilyId, stretches};
use crate::pattern::{Lattice, sizes};
use crate::settle::{Floor, RingSize, Settled};
use crate::shelf::Shelf;
use rayon::prelude::*;

/// For each row that is asked for so many sizes are settled: how an accent sits is not to be guessed.
const TRIES: usize = 2;
/// Wire that differs from that of the others by so much, as parts, counts as much as 1 % of room: rings of one piece are taken
/// of wire alike. Common practice, no source.
const OFF_WIRE: f64 = 0.1;

/// Which rings of a shelf, or, without one, of the sizes in common use, make a weave as rings of one kind, the others being
/// as the text has them. For each of the `most` rows that are asked for two sizes are settled, and all that close come out.
///
/// # Errors
/// [`NotFitted`]; also where there is no such kind, or where the text leaves the size of another open.
pub fn fit_kind(weave: &Weave, kind: &str, shelf: Option<&Shelf>, most: usize) -> Result<Fit, NotFitted> {
    let (offers, stretching) = offers(shelf);
    if offers.is_empty() {
        return Err(NotFitted::NoRings);
    }
    let all = kinds(weave);
    if !all.iter().any(|k| k == kind) {
        return Err(NotFitted::NoSuchKind(kind.to_owned(), all));
    }
    if all.len() == 1 {
        return super::choose::fit(weave, shelf, most);
    }
    let others: Vec<(String, Option<Offer>)> =
        all.iter().filter(|k| *k != kind).map(|other| (other.clone(), written(weave, other))).collect();
    let open: Vec<String> = others.iter().filter(|(_, size)| size.is_none()).map(|(name, _)| name.clone()).collect();
    if !open.is_empty() {
        return Err(NotFitted::OthersOpen(open));
    }
    let held: Vec<(String, Offer)> = others.into_iter().filter_map(|(name, size)| Some((name, size?))).collect();
    let settled = weave.settled().map_err(|why| NotFitted::NotSettled(why.clone()))?;
    let floors: Vec<Floor> = settled.floors.iter().filter(|f| f.kind == kind).cloned().collect();
    let mut fit = Fit {
        weave: weave.name().to_owned(),
        may_curl: weave.pattern().lattice == Lattice::Chain && !weave.pattern().spiral,
        from_shelf: shelf.is_some(),
        stretching: stretching.into_iter().cloned().collect(),
        floors,
        base_floor: None,
        rows: Vec::new(),
        misses: Misses::default(),
        wanted: Vec::new(),
        work: [1, 0, 0],
        survey: None,
        beside: None,
        held,
        offers,
        kinds: vec![kind.to_owned()],
    };
    fit.settle_each(weave, settled, &all, most);
    fit.rows.sort_by(Row::before);
    fit.misses.nearest.sort_by(|a, b| b.1.total_cmp(&a.1));
    fit.misses.nearest.truncate(super::choose::MOST_NEAREST);
    Ok(fit)
}

/// Core radius and wire of a ring, to those of another.
fn ratios(beside: RingSize, wire_mm: f64, inner_mm: f64) -> [f64; 2] {
    [0.5 * (inner_mm + wire_mm) / beside.radius, wire_mm / beside.wire]
}

/// The size the text gives a kind, where it does and its rings are rigid.
fn written(weave: &Weave, kind: &str) -> Option<Offer> {
    let size =
        sizes(weave.pattern()).into_iter().find(|s| s.name == kind).filter(|_| !stretches(weave.pattern(), kind))?;
    let (wire_mm, inner_mm) = (size.wire_mm?, size.inner_mm?);
    let own = weave.pattern().kind(kind);
    let words = [(own.and_then(|k| k.wire.as_ref()), wire_mm), (own.and_then(|k| k.inner.as_ref()), inner_mm)];
    let words = words.map(|(written, mm)| {
        // A size that was measured is not the one that is written.
        let written = written.map(|(size, _)| size).filter(|s| millimetres(s).is_some_and(|w| (w - mm).abs() < 1e-9));
        written.map_or_else(|| in_mm(mm), size_words)
    });
    Some(Offer { wire_mm, inner_mm, words, rings: Vec::new() })
}

impl Fit {
    /// About how much room there is with rings of this wire and inner diameter, mm, beside the others; `None` where that was
    /// not surveyed.
    pub(super) fn room_beside(&self, wire_mm: f64, inner_mm: f64) -> Option<f64> {
        let beside = self.beside?;
        let floor = self.survey.as_ref()?.floor(ratios(beside, wire_mm, inner_mm))?;
        Some(2.0 * beside.radius / (beside.wire * (floor + 1.0)) - 1.0)
    }

    /// Surveys how much room there is with all sizes there are to choose from.
    fn look_around(&mut self, settled: &Settled, names: &[&str]) {
        let chosen = |name: &&str| self.kinds.first().is_some_and(|k| k == name);
        let kind: Vec<usize> = names.iter().map(|name| usize::from(chosen(name))).collect();
        let first = kind.iter().position(|k| *k == 0).and_then(|ring| settled.problem.rings.get(ring)).copied();
        let Some(beside) = first else { return };
        let wanted: Vec<[f64; 2]> = self.offers.iter().map(|o| ratios(beside, o.wire_mm, o.inner_mm)).collect();
        let survey = Survey::of(settled, &kind, &wanted);
        self.work[1] = survey.points();
        (self.beside, self.survey) = (Some(beside), Some(survey));
    }

    /// Settles what looks best, each size once.
    fn settle_each(&mut self, weave: &Weave, settled: &Settled, all: &[String], most: usize) {
        let names = settled.kinds(weave.pattern());
        let kind: Vec<usize> = names.iter().map(|name| all.iter().position(|k| k == name).unwrap_or(0)).collect();
        let bounds = Bounds::of(settled, &kind, all.len());
        let mut left: Vec<(&Offer, f64)> = Vec::new();
        let other_wire = self.held.first().map_or(1.0, |(_, o)| o.wire_mm);
        self.look_around(settled, &names);
        let mut misses = Misses::default();
        for offer in &self.offers {
            let of = |name: &String| {
                let held = self.held.iter().find(|(other, _)| other == name).map(|(_, o)| o);
                let size = held.unwrap_or(offer);
                (size.wire_mm, size.inner_mm)
            };
            match self.room_beside(offer.wire_mm, offer.inner_mm) {
                _ if bounds.broken(&all.iter().map(of).collect::<Vec<_>>()).is_some() => misses.proved += 1,
                Some(room) if room >= -OUT_BY => left.push((offer, room)),
                Some(_) => misses.tight += 1,
                None => misses.beyond += 1,
            }
        }
        let off = |(offer, room): &(&Offer, f64)| {
            let wires = offer.wire_mm / other_wire;
            // In steps: what differs by less is alike, and then the larger ring comes first. It has less to rock in.
            libm::round(100.0 * (room - SOUGHT).abs() + (wires.max(1.0 / wires) - 1.0) / OFF_WIRE)
        };
        left.sort_by(|a, b| off(a).total_cmp(&off(b)).then(b.0.radius().total_cmp(&a.0.radius())));
        let counter = Counter::of(weave);
        let tried: Vec<&Offer> = left.iter().take(most.saturating_mul(TRIES)).map(|(o, _)| *o).collect();
        let found: Vec<Option<Row>> = tried.par_iter().map(|offer| self.row(weave, offer, &counter)).collect();
        misses.promising = left.len() - tried.len();
        self.work[0] += tried.len();
        let mut rows = Vec::new();
        for (offer, row) in tried.into_iter().zip(found) {
            match row {
                Some(row) if row.room >= 0.0 => rows.push(row),
                row => {
                    misses.not_found += 1;
                    misses.nearest.push((vec![offer.clone()], row.map_or(-1.0, |r| r.room)));
                }
            }
        }
        self.rows = rows;
        self.misses = misses;
    }

    /// What comes of settling with rings of one size; room is below 0 where the weave does not close. `None` without a pose.
    fn row(&self, weave: &Weave, offer: &Offer, counter: &Counter) -> Option<Row> {
        let kind = self.kinds.first()?;
        let own = weave.with_sizes(&[(kind, (offer.wire_mm, offer.inner_mm))]);
        let settled = own.settled().ok()?;
        let closes = settled.closes() == Some(true);
        let name = |family: FamilyId| weave.pattern().family_name(family);
        let reach = Reach::of(settled);
        let needs = counter.needs(reach.as_ref());
        let room = settled.room()?;
        Some(Row {
            picks: picks(&self.kinds, &[offer], &needs),
            room: if closes { room.max(0.0) } else { room.min(-1e-9) },
            repeat_mm: reach.map_or(Vec::new(), |reach| reach.pitch_mm),
            sits: settled.sits.iter().map(|s| (name(s.family).to_owned(), s.word)).collect(),
            size: needs.size,
        })
    }
}
