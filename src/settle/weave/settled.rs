//! A weave settled: all that is computed of where its rings lie.

use super::accent::{Accented, Accents, Sits, Untrue};
use super::base::{Base, drawn_with, fits, like};
use super::curled::{Curled, closes_curled};
use super::floor::proved_ratio_of;
use super::sizes::{Known, Sizes};
use super::view::{View, views};
use crate::notation::Hand;
use crate::pattern::{FamilyId, Lattice, Pattern, Shift};
use crate::rings::{Cell, Graph};
use crate::settle::solve::{Bundled, Near, Pose, Problem, Pull, RingSize, Tight, near, pull};

/// Starts tried for each way of turning rings over.
const STARTS: u64 = 6;
/// The most rings in one repeat, of the base and of the whole, that are settled.
const MOST_IN_BASE: usize = 16;
const MOST_IN_WHOLE: usize = 48;

/// Why a weave is not settled.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NotSettled {
    /// Its ring graph is not to be relied on, or it has no rings.
    #[error("there are no linked rings to settle, or the ring graph cannot be made")]
    Unsound,
    /// One repeat has more rings than are settled.
    #[error("one repeat has {rings} rings; up to {most} are settled")]
    TooLarge {
        /// Rings in one repeat.
        rings: usize,
        /// The most that are settled.
        most: usize,
    },
    /// No pose was found.
    #[error("{}", if *accents { format!("the base settles, but no place for the accents was found in {starts} tries") } else { format!("no pose of these rings was found in {starts} starts") })]
    NoPose {
        /// Starts tried.
        starts: u64,
        /// Whether the base has a pose and only the accents found no place.
        accents: bool,
    },
}

/// The floor of a kind of ring: its aspect ratio when all wires are as thick as they go together.
#[derive(Clone, Debug, PartialEq)]
pub struct Floor {
    /// The kind.
    pub kind: String,
    /// No ring of this kind can have a smaller aspect ratio: proved by the wires that must go through its hole.
    /// 0 where nothing is.
    pub proved: f64,
    /// The aspect ratio of the pose found.
    pub found: f64,
}

/// Length of one repeat of the base along each way it repeats, mm (in wires where no size is given in mm).
pub type Lengths = Vec<f64>;

/// Another pose that was found.
#[derive(Clone, Debug)]
pub struct Other {
    /// The aspect ratio of the first kind at which it closes.
    pub floor: f64,
    /// Whether it closes at the sizes given.
    pub closes: Option<bool>,
    /// Whether the text allows it.
    pub allowed: bool,
    /// Its lean.
    pub lean: Option<Hand>,
    /// How far each repeat turns about the length, degrees; spirals only.
    pub twist_deg: Option<f64>,
    /// Length of the base's repeat at the floor, in inner diameters of the first kind there.
    pub length_inner: Option<f64>,
    /// Of a chain of pairs (or single rings, or threes) the families that lie folded back; `None` of other weaves.
    pub folded: Option<Vec<FamilyId>>,
}

/// A ring of the settled repeat.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SettledRing {
    /// Its family.
    pub family: FamilyId,
    /// Its repeat, from 1.
    pub at: Shift,
}

/// The pose with the thickest wire the weave holds.
#[derive(Clone, Debug)]
pub struct AtFloor {
    /// The pose as it lies on the bench.
    pub view: View,
    /// How thick its wire is, as a part of the wire given.
    pub scale: f64,
}

/// A weave settled.
#[derive(Clone, Debug)]
pub struct Settled {
    /// The sizes it is settled at.
    pub sizes: Sizes,
    /// Unit, chain or sheet.
    pub lattice: Lattice,
    /// The rings and links the pose belongs to.
    pub problem: Problem,
    /// Every ring of the pose, by number.
    pub rings: Vec<SettledRing>,
    /// Repeats of the base in the repeat of the pose.
    pub repeats: Shift,
    /// Floors of all kinds, the first family's first.
    pub floors: Vec<Floor>,
    /// How many times thicker all wires could be at the sizes given; `None` where none are.
    pub scale: Option<f64>,
    /// Where rings would run into one another at the sizes given, the worst first.
    pub collisions: Vec<Near>,
    /// The pose at the floor.
    pub at_floor: AtFloor,
    /// The pose drawn out at the sizes given, or, where they do not fit or none are given, with wire 2 % thinner
    /// than the floor allows; as it lies on the bench.
    pub view: View,
    /// How thick the wire of the pose is, as a part of the wire given.
    pub wire: f64,
    /// Drawn out.
    pub taut: Option<Lengths>,
    /// Pushed together.
    pub pushed: Option<Lengths>,
    /// What counts use: drawn out, on the mean of all ways the accents lodge.
    pub natural: Option<Lengths>,
    /// The lean of the base.
    pub lean: Option<Hand>,
    /// Whether its mirror image, leaning the other way, satisfies the text as well.
    pub either_hand: bool,
    /// Whether a straight chain closes at the sizes given; of a spiral, whether it does.
    pub straight: Option<bool>,
    /// How a chain that has no room when straight closes after all.
    pub curled: Option<Curled>,
    /// How each accent sits.
    pub sits: Vec<Sits>,
    /// Every pose of the base that was found, the roomiest first.
    pub poses: Vec<Other>,
    /// Which of them the text means.
    pub chosen: usize,
    /// Starts tried for the base in all.
    pub starts: u64,
    /// Different poses the whole has at the sizes given.
    pub lodged: usize,
    /// Lying statements that no pose satisfies together with the others, by number.
    pub broken: Vec<usize>,
}

/// The rings that a weave is read from: those of its base alone, or with its accents.
struct Solved<'s> {
    problem: &'s Problem,
    cell: &'s Cell,
    /// The pose with the thickest wire.
    tight: &'s Tight,
    /// The pose drawn out, as it lies on the bench.
    view: View,
}

impl Settled {
    /// Settles a weave: its base first, then its accents on it.
    ///
    /// # Errors
    /// [`NotSettled`], when the graph is broken or too large, or no pose is found.
    pub fn of(graph: &Graph) -> Result<Self, NotSettled> {
        let (pattern, links) = (graph.pattern(), graph.links());
        let cell = sound(graph)?;
        let written = Sizes::of(pattern);
        let (sizes, unit) = written.in_mean_radii();
        let base =
            Base::of(pattern, links, &sizes, STARTS).map_err(|starts| NotSettled::NoPose { starts, accents: false })?;
        let accents: Vec<FamilyId> =
            pattern.families.numbered().filter(|(_, f)| f.accent.is_some()).map(|(family, _)| family).collect();
        if accents.is_empty() {
            let settled = Self::bare(pattern, sizes, &base).ok_or(NotSettled::Unsound)?;
            return Ok(settled.scaled(unit, written));
        }
        let whole = Problem::of(pattern, cell, |family| sizes.of_family(family));
        let of_accents = accent_lying(pattern);
        let untrue = |problem: &Problem, pose: &Pose| {
            let broken = |v: &View| v.broken.iter().filter(|n| of_accents.contains(n)).count();
            like(&base.view, views(pattern, cell, problem, pose)).map_or(usize::MAX, |v| broken(&v))
        };
        let untrue = (!of_accents.is_empty()).then_some(&untrue as &Untrue<'_>);
        let accents = Accents { base: &base, cell, families: &accents, known: sizes.known, untrue };
        let accented = accents.put_on(&whole);
        let tries = NotSettled::NoPose { starts: super::accent::tries(whole.ways), accents: true };
        Ok(Self::whole(pattern, sizes, &base, cell, accented).ok_or(tries)?.scaled(unit, written))
    }

    /// Settles the base of a weave alone, all its rings taken as alike, whatever sizes are given.
    ///
    /// # Errors
    /// [`NotSettled`], when the graph is broken or too large, or no pose is found.
    pub fn of_base(graph: &Graph) -> Result<Self, NotSettled> {
        sound(graph)?;
        let mut pattern = Pattern { kinds: Vec::new(), ..graph.pattern().clone() };
        pattern.lying.retain(|l| l.accent.is_none());
        pattern.passes.retain(|p| p.accent.is_none());
        let written = Sizes::of(&pattern);
        let (sizes, unit) = written.in_mean_radii();
        let none = |starts| NotSettled::NoPose { starts, accents: false };
        let base = Base::of(&pattern, graph.links(), &sizes, STARTS).map_err(none)?;
        Ok(Self::bare(&pattern, sizes, &base).ok_or(NotSettled::Unsound)?.scaled(unit, written))
    }

    /// The same in the sizes written, `unit` times as large as those it was settled in.
    fn scaled(mut self, unit: f64, written: Sizes) -> Self {
        for (size, ring) in self.problem.rings.iter_mut().zip(&self.rings) {
            *size = written.of_family(ring.family);
        }
        for view in [&mut self.at_floor.view, &mut self.view] {
            view.pose = view.pose.scaled(unit);
        }
        for near in &mut self.collisions {
            *near = near.scaled(unit);
        }
        for lengths in [&mut self.taut, &mut self.pushed, &mut self.natural].into_iter().flatten() {
            for length in lengths {
                *length *= unit;
            }
        }
        if let Some(across) = self.curled.as_mut().and_then(|c| c.across.as_mut()) {
            *across *= unit;
        }
        Self { sizes: written, ..self }
    }

    fn bare(pattern: &Pattern, sizes: Sizes, base: &Base) -> Option<Self> {
        let tight = base.tight()?;
        let mut settled = Self::with(
            pattern,
            sizes,
            base,
            Solved { problem: &base.problem, cell: &base.cell, tight, view: base.taut.clone() },
        )?;
        if settled.closes() != Some(false) {
            settled.taut = Some(settled.lengths(&base.taut.pose));
            settled.pushed = base.pushed.as_ref().map(|pose| settled.lengths(pose));
            settled.natural = settled.taut.clone();
        }
        settled.lodged = settled.poses.iter().filter(|p| p.allowed && p.closes != Some(false)).count();
        Some(settled)
    }

    fn whole(pattern: &Pattern, sizes: Sizes, base: &Base, cell: &Cell, accented: Accented) -> Option<Self> {
        let Accented { problem, tight, lodged, sits } = accented;
        let tight = tight?;
        let wire = drawn_with(tight.scale, sizes.known);
        let pose = match lodged.first() {
            Some(pose) => pose.clone(),
            None => pull(&problem, &tight.pose, wire, Pull::Taut)?,
        };
        let view = like(&base.view, views(pattern, cell, &problem, &pose))?;
        let mut settled = Self::with(pattern, sizes, base, Solved { problem: &problem, cell, tight: &tight, view })?;
        settled.wire = wire;
        settled.sits = sits;
        let of_accents = accent_lying(pattern);
        let untrue = settled.at_floor.view.broken.iter().filter(|n| of_accents.contains(n));
        settled.broken.extend(untrue);
        settled.lodged = lodged.len();
        if settled.closes() != Some(false) {
            let lengths: Vec<Lengths> = if lodged.is_empty() {
                vec![settled.lengths(&settled.view.pose)]
            } else {
                lodged.iter().map(|p| settled.lengths(p)).collect()
            };
            let count = u32::try_from(lengths.len()).map_or(1.0, f64::from);
            let ways = settled.problem.ways;
            let mean = |way: usize| lengths.iter().filter_map(|l| l.get(way)).sum::<f64>() / count;
            settled.natural = Some((0..ways).map(mean).collect());
            settled.taut = lengths.into_iter().next();
            let pushed = pull(&settled.problem, &settled.view.pose, wire, Pull::Together);
            settled.pushed = pushed.map(|pose| settled.lengths(&pose));
        }
        Some(settled)
    }

    /// What is the same with and without accents.
    fn with(pattern: &Pattern, sizes: Sizes, base: &Base, solved: Solved<'_>) -> Option<Self> {
        let Solved { problem, cell, tight, view } = solved;
        let scale = (sizes.known != Known::Nothing).then_some(tight.scale);
        let closes = scale.map(fits);
        let collisions = if closes == Some(false) { collisions(problem, &tight.pose) } else { Vec::new() };
        let chain = problem.ways == 1;
        let curl = chain && !problem.spiral && closes == Some(false);
        let curled = if curl { closes_curled(problem, tight) } else { None };
        let rings = (0..problem.rings.len()).filter_map(|number| problem.stands(cell, number));
        let rings = rings.map(|(family, at)| SettledRing { family, at: at + Shift::ONE });
        let mut settled = Self {
            rings: rings.collect(),
            repeats: cell.period.times(problem.times),
            at_floor: AtFloor { view: like(&view, views(pattern, cell, problem, &tight.pose))?, scale: tight.scale },
            lattice: pattern.lattice,
            floors: floors(pattern, problem, cell, tight),
            scale,
            collisions,
            wire: base.wire,
            taut: None,
            pushed: None,
            natural: None,
            lean: base.taut.lean().or(base.view.lean()),
            either_hand: false,
            straight: closes.filter(|_| chain),
            curled,
            sits: Vec::new(),
            poses: Vec::new(),
            chosen: 0,
            starts: base.starts,
            lodged: 0,
            broken: base.view.broken.clone(),
            problem: problem.clone(),
            view,
            sizes,
        };
        (settled.poses, settled.chosen) = others(pattern, &settled.sizes, base);
        let own = base.views.get(base.chosen);
        let other = |v: &View| v.fits() && v.lean().is_some() && v.lean() == settled.lean.map(Hand::other);
        settled.either_hand = own.is_some_and(|views| views.iter().any(other)) && pattern.lean.is_empty();
        Some(settled)
    }

    /// Whether it closes at the sizes given; `None` where none are.
    pub fn closes(&self) -> Option<bool> {
        self.scale.map(fits)
    }

    /// How much thicker all wires could be, as a part of what they are: below 0 the weave does not close.
    pub fn room(&self) -> Option<f64> {
        self.scale.map(|s| s - 1.0)
    }
}

/// The graph of one repeat, where it can be settled.
fn sound(graph: &Graph) -> Result<&Cell, NotSettled> {
    let (pattern, links) = (graph.pattern(), graph.links());
    let cell = graph.cell().map_err(|_| NotSettled::Unsound)?;
    if !pattern.whole || !links.conflicts.is_empty() || !links.selves.is_empty() {
        return Err(NotSettled::Unsound);
    }
    let in_base = pattern.families.iter().filter(|f| f.accent.is_none()).count();
    for (rings, most) in [(in_base, MOST_IN_BASE), (cell.graph.node_count(), MOST_IN_WHOLE)] {
        if rings > most {
            return Err(NotSettled::TooLarge { rings, most });
        }
    }
    if in_base == 0 || cell.graph.edge_count() == 0 {
        return Err(NotSettled::Unsound);
    }
    Ok(cell)
}

/// The places where rings run into one another, the worst first.
fn collisions(problem: &Problem, pose: &Pose) -> Vec<Near> {
    let mut found: Vec<Near> = near(problem, pose, 1.0, 0.0);
    found.sort_by(|a, b| (a.distance / a.wires).total_cmp(&(b.distance / b.wires)));
    found
}

/// The lying statements that stand under an accent, by number.
fn accent_lying(pattern: &Pattern) -> Vec<usize> {
    let lying = pattern.lying.iter().enumerate();
    lying.filter(|(_, l)| l.accent.is_some()).map(|(number, _)| number).collect()
}

/// The floors of all kinds, the kinds in the order of the families.
fn floors(pattern: &Pattern, problem: &Problem, cell: &Cell, tight: &Tight) -> Vec<Floor> {
    let mut floors: Vec<Floor> = Vec::new();
    for (number, size) in problem.rings.iter().enumerate() {
        let family = problem.stands(cell, number).map(|(family, _)| &pattern.families[family]);
        let Some(family) = family else { continue };
        let (proved, found) = (proved_ratio_of(problem, number), 2.0 * size.radius / (size.wire * tight.scale) - 1.0);
        match floors.iter_mut().find(|f| f.kind == family.kind) {
            Some(floor) => floor.proved = floor.proved.max(proved),
            None => floors.push(Floor { kind: family.kind.clone(), proved, found }),
        }
    }
    floors
}

/// Every pose of the base, and which of them the text means. A pose that only has other rings turned over than
/// one the text allows, and is the same to a maker, is left out.
fn others(pattern: &Pattern, sizes: &Sizes, base: &Base) -> (Vec<Other>, usize) {
    let size = base.cell.graph.node_weights().next().map_or(RingSize::UNKNOWN, |r| sizes.of_family(r.family));
    let bundled = Bundled::of(&base.problem).filter(|_| !base.problem.spiral);
    let other = |number: usize, tight: &Tight, views: &[View]| {
        let stated = |v: &&View| v.fits() && (pattern.lean.is_empty() || v.lean() == pattern.stated_lean());
        let fitting = views.iter().find(stated).or_else(|| views.iter().find(|v| v.fits()));
        let inner = 2.0 * size.radius - size.wire * tight.scale;
        let repeats = f64::from(base.problem.times.row);
        Other {
            floor: 2.0 * size.radius / (size.wire * tight.scale) - 1.0,
            closes: (sizes.known != Known::Nothing).then(|| fits(tight.scale)),
            allowed: fitting.is_some(),
            lean: if number == base.chosen { base.view.lean() } else { fitting.or(views.first()).and_then(View::lean) },
            twist_deg: base.problem.spiral.then(|| {
                // Of two mirror images the one the text allows.
                fitting.or(views.first()).map_or(tight.pose.twist, |v| v.pose.twist).to_degrees()
            }),
            length_inner: (base.problem.ways > 0 && inner > 0.0).then(|| tight.pose.ways[0].x / repeats / inner),
            folded: bundled.as_ref().map(|chain| {
                let stands = |ring: usize| base.problem.stands(&base.cell, ring).map(|(family, _)| family);
                let mut families: Vec<FamilyId> =
                    chain.folded(&base.problem, &tight.pose).into_iter().filter_map(stands).collect();
                families.sort_unstable();
                families.dedup();
                families
            }),
        }
    };
    let all: Vec<(usize, Other)> =
        base.poses.iter().zip(&base.views).enumerate().map(|(n, (tight, views))| (n, other(n, tight, views))).collect();
    let same = |one: &Other, two: &Other| (one.floor - two.floor).abs() < 1e-3 * one.floor;
    let kept: Vec<(usize, Other)> = all
        .iter()
        .filter(|(n, o)| *n == base.chosen || o.allowed || !all.iter().any(|(_, k)| k.allowed && same(o, k)))
        .cloned()
        .collect();
    let chosen = kept.iter().position(|(n, _)| *n == base.chosen).unwrap_or(0);
    (kept.into_iter().map(|(_, o)| o).collect(), chosen)
}
