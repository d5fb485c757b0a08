//! A settled weave for other programs: everything needed to check the pose again.

use crate::notation::Hand;
use crate::pattern::{FamilyId, Lattice, Pattern, Shift};
use crate::settle::solve::{self, Near, near};
use crate::settle::weave::{self, Known, Lengths, Settled, Word};
use crate::text::Rounded;
use schemars::JsonSchema;
use serde::Serialize;

/// Where the rings of a weave lie, as `byrnie settle --json` prints it. What is not known is null.
#[derive(Serialize, JsonSchema)]
#[schemars(title = "Settled weave")]
pub struct SettledJson<'s> {
    weave: &'s str,
    lattice: Lattice,
    /// Whether repeats may turn about the length of the chain.
    spiral: bool,
    sizes: Sizes<'s>,
    /// The smallest aspect ratio of the first kind at which the weave closes, when all wires are as thick as they go
    /// together.
    #[schemars(required)]
    floor: Option<Floors<'s>>,
    /// Whether it closes at the sizes given.
    closes: Option<bool>,
    /// How much thicker all wires could be, as a part of them; below 0 the weave does not close.
    room: Option<Rounded<6>>,
    /// Where rings would run into one another at the sizes given, the worst first.
    collisions: Vec<Collision>,
    /// Length of one repeat of the base: drawn out, pushed together, and what counts use; in mm and in inner diameters of
    /// the first kind.
    repeat: Repeat,
    /// Lean of the base, lying, front up.
    lean: Option<Hand>,
    /// Whether the text leaves the hand open.
    either_hand: bool,
    /// How each eye tips from upright, degrees; below 0 to the left.
    tips_deg: Vec<Rounded<2>>,
    /// How far the rings of each family are tilted in the pose; empty where it does not close.
    tilt: Vec<Tilt<'s>>,
    /// Across the length, wire and all; null for a sheet, and where it does not close.
    #[schemars(range(min = 0))]
    width_mm: Option<Rounded<4>>,
    /// From front to back, wire and all; null where it does not close.
    #[schemars(range(min = 0))]
    thickness_mm: Option<Rounded<4>>,
    /// Whether a straight chain closes at the sizes given.
    straight: Option<bool>,
    /// How a chain closes that has no room when it is straight.
    curled: Option<Curled>,
    accents: Vec<Accent<'s>>,
    /// Different poses of the whole at the sizes given.
    lodged_poses: usize,
    /// Starts tried for the base in all.
    #[schemars(range(min = 1))]
    starts: u64,
    /// Every pose of the base that was found, the roomiest first.
    #[schemars(length(min = 1))]
    poses: Vec<BasePose<'s>>,
    /// Drawn out at the sizes given; null where they do not fit or none are given.
    pose: Option<Pose<'s>>,
    /// At the floor.
    floor_pose: Pose<'s>,
}

#[derive(Serialize, JsonSchema)]
struct Sizes<'s> {
    /// What the text says of sizes.
    known: Known,
    /// Kinds without a size, taken to be like the first.
    assumed: &'s [String],
}

#[derive(Serialize, JsonSchema)]
struct Floor<'s> {
    kind: &'s str,
    /// Below this aspect ratio it cannot close: proved. 0 where nothing is.
    #[schemars(range(min = 0))]
    proved: Rounded<6>,
    /// At this aspect ratio a pose was found.
    #[schemars(range(min = 0))]
    found: Rounded<6>,
}

#[derive(Serialize, JsonSchema)]
struct Floors<'s> {
    #[serde(flatten)]
    first: Floor<'s>,
    /// The same of all kinds, the first family's first.
    #[schemars(length(min = 1))]
    kinds: Vec<Floor<'s>>,
}

#[derive(Serialize, JsonSchema)]
struct Collision {
    rings: [String; 2],
    /// From core circle to core circle, in the unit of the pose.
    #[schemars(range(min = 0))]
    distance: Rounded<6>,
    /// Half of both wires together, in the unit of the pose.
    #[schemars(range(min = 0))]
    needed: Rounded<6>,
}

#[derive(Serialize, JsonSchema)]
struct Repeat {
    taut_mm: Option<Along>,
    pushed_mm: Option<Along>,
    natural_mm: Option<Along>,
    taut_inner: Option<Along>,
    pushed_inner: Option<Along>,
    natural_inner: Option<Along>,
}

/// A number for a chain; rows and columns for a sheet.
#[derive(Serialize, JsonSchema)]
#[serde(untagged)]
enum Along {
    Chain(#[schemars(range(min = 0))] Rounded<4>),
    Sheet(#[schemars(length(equal = 2), inner(range(min = 0)))] Vec<Rounded<4>>),
}

#[derive(Serialize, JsonSchema)]
struct Tilt<'s> {
    family: &'s str,
    /// Of each of its rings, from lying flat.
    #[schemars(inner(range(min = 0, max = 90)))]
    degrees: Vec<Rounded<2>>,
}

#[derive(Serialize, JsonSchema)]
struct Curled {
    /// Turn of each repeat, degrees.
    turn_deg: Rounded<2>,
    /// Diameter of the circle it curls into; null of one that twists about its own length.
    #[schemars(range(min = 0))]
    across_mm: Option<Rounded<4>>,
}

#[derive(Serialize, JsonSchema)]
struct Accent<'s> {
    family: &'s str,
    sits: Sits,
}

#[derive(Serialize, JsonSchema)]
struct Sits {
    word: Word,
    /// Greatest angle between two ways of lodging, degrees.
    #[schemars(range(min = 0))]
    spread_deg: Rounded<2>,
    /// How far it rocks, the piece drawn out, from end to end, degrees.
    #[schemars(range(min = 0))]
    rock_deg: Rounded<2>,
    /// How much shorter the piece is for it at most.
    #[schemars(range(min = 0))]
    loss_percent: Rounded<2>,
    /// Different ways in which it lodges.
    #[schemars(range(min = 1))]
    ways: usize,
}

#[derive(Serialize, JsonSchema)]
struct BasePose<'s> {
    /// The aspect ratio of the first kind at which it closes.
    #[schemars(range(min = 0))]
    floor: Rounded<6>,
    /// Whether it closes at the sizes given.
    closes: Option<bool>,
    /// Whether the text allows it.
    allowed: bool,
    /// Whether it is the one the text means.
    chosen: bool,
    lean: Option<Hand>,
    /// Turn of each repeat about the length, degrees, of a spiral.
    twist_deg: Option<Rounded<2>>,
    /// Of a chain of pairs (or single rings, or threes) the families that lie folded back; empty where it lies open, null
    /// of other weaves.
    folded: Option<Vec<&'s str>>,
}

/// Of all lengths of a pose.
#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
enum Unit {
    /// Millimetres.
    Mm,
    /// Wires of the first ring.
    Wire,
}

type Point<const DECIMALS: i32> = [Rounded<DECIMALS>; 3];

/// One repeat. The image k repeats on is turned k times `twist_deg` about the x axis, moved by k times `lattice`, and
/// turned over where k is odd along a way that is `turned`.
#[derive(Serialize, JsonSchema)]
struct Pose<'s> {
    unit: Unit,
    /// Repeats of the base in it.
    #[schemars(length(max = 2))]
    repeats: Vec<i32>,
    #[schemars(length(min = 1))]
    rings: Vec<Ring<'s>>,
    /// One vector for each way in which it repeats.
    #[schemars(length(max = 2))]
    lattice: Vec<Point<9>>,
    twist_deg: Rounded<9>,
    #[schemars(length(max = 2))]
    turned: Vec<bool>,
    links: Vec<Link>,
    /// Every place where rings touch, within a ten-thousandth of the wire.
    contacts: Vec<Contact>,
}

#[derive(Serialize, JsonSchema)]
struct Ring<'s> {
    ring: String,
    family: &'s str,
    kind: &'s str,
    centre: Point<9>,
    /// Of length 1, to the front.
    normal: Point<12>,
    /// Half of inner diameter and wire together.
    #[schemars(extend("exclusiveMinimum" = 0))]
    core_radius: Rounded<9>,
    #[schemars(extend("exclusiveMinimum" = 0))]
    wire: Rounded<9>,
}

#[derive(Serialize, JsonSchema)]
struct Link {
    from: String,
    to: String,
    /// Of the second ring, in repeats of the pose.
    #[schemars(length(max = 2))]
    shift: Vec<i32>,
    /// 1: each passes the other from front to back; -1: from back to front.
    #[schemars(extend("enum" = [1, -1]))]
    sign: i8,
}

#[derive(Serialize, JsonSchema)]
struct Contact {
    from: String,
    to: String,
    /// Of the second ring, in repeats of the pose.
    #[schemars(length(max = 2))]
    shift: Vec<i32>,
    /// From core circle to core circle.
    #[schemars(range(min = 0))]
    distance: Rounded<6>,
    at: Point<9>,
}

impl Settled {
    /// The settled weave for other programs; `weave` is its name.
    pub fn json<'s>(&'s self, weave: &'s str, pattern: &'s Pattern) -> SettledJson<'s> {
        // What does not close lies nowhere.
        let lies = self.closes() != Some(false);
        let millimetres = |x: f64| self.in_mm().then_some(Rounded(x));
        let (width, thickness) = self.extent();
        let pose = |pose, wire| self.pose_json(pattern, pose, wire);
        SettledJson {
            weave,
            lattice: self.lattice,
            spiral: self.problem.spiral,
            sizes: Sizes { known: self.sizes.known, assumed: &self.sizes.assumed },
            floor: self
                .floors
                .first()
                .map(|first| Floors { first: Floor::of(first), kinds: self.floors.iter().map(Floor::of).collect() }),
            closes: self.closes(),
            room: self.room().map(Rounded),
            collisions: self.collisions.iter().map(|c| self.collision(pattern, c)).collect(),
            repeat: self.repeat(),
            lean: self.lean,
            either_hand: self.either_hand,
            tips_deg: self.view.tips.iter().filter(|_| lies).map(|t| Rounded(*t)).collect(),
            tilt: if lies { self.tilt(pattern) } else { Vec::new() },
            width_mm: width.filter(|_| lies).and_then(millimetres),
            thickness_mm: millimetres(thickness).filter(|_| lies),
            straight: self.straight,
            curled: self
                .curled
                .map(|c| Curled { turn_deg: Rounded(c.turn_deg), across_mm: c.across.and_then(millimetres) }),
            accents: self.accents(pattern),
            lodged_poses: self.lodged,
            starts: self.starts,
            poses: self.poses.iter().enumerate().map(|(n, p)| BasePose::of(pattern, p, n == self.chosen)).collect(),
            pose: (self.closes() == Some(true)).then(|| pose(&self.view.pose, self.wire)),
            floor_pose: pose(&self.at_floor.view.pose, self.at_floor.scale),
        }
    }

    fn in_mm(&self) -> bool {
        self.sizes.known == Known::Millimetres
    }

    fn repeat(&self) -> Repeat {
        let mm = |lengths: &Option<Lengths>| Along::of(lengths.as_ref().filter(|_| self.in_mm()), 1.0);
        let inner = |lengths: &Option<Lengths>| Along::of(lengths.as_ref(), self.inner());
        Repeat {
            taut_mm: mm(&self.taut),
            pushed_mm: mm(&self.pushed),
            natural_mm: mm(&self.natural),
            taut_inner: inner(&self.taut),
            pushed_inner: inner(&self.pushed),
            natural_inner: inner(&self.natural),
        }
    }

    fn tilt<'s>(&self, pattern: &'s Pattern) -> Vec<Tilt<'s>> {
        let families = pattern.families.ids();
        families
            .map(|family| Tilt {
                family: pattern.family_name(family),
                degrees: self.tilts(family).into_iter().map(Rounded).collect(),
            })
            .collect()
    }

    fn accents<'s>(&self, pattern: &'s Pattern) -> Vec<Accent<'s>> {
        let accent = |sits: &weave::Sits| Accent {
            family: pattern.family_name(sits.family),
            sits: Sits {
                word: sits.word,
                spread_deg: Rounded(sits.spread_deg),
                rock_deg: Rounded(sits.rock_deg),
                loss_percent: Rounded(sits.loss_percent),
                ways: sits.ways,
            },
        };
        self.sits.iter().map(accent).collect()
    }

    fn collision(&self, pattern: &Pattern, near: &Near) -> Collision {
        let unit = self.unit(1.0);
        Collision {
            rings: [self.ring_name(pattern, near.from, Shift::ZERO), self.ring_name(pattern, near.to, near.shift)],
            distance: Rounded(near.distance / unit),
            needed: Rounded(near.wires / unit),
        }
    }

    fn pose_json<'s>(&self, pattern: &'s Pattern, pose: &solve::Pose, wire: f64) -> Pose<'s> {
        let unit = self.unit(wire);
        let name = |ring: usize| self.ring_name(pattern, ring, Shift::ZERO);
        let ways = self.problem.ways;
        let shift = |s: Shift| s.to_array().into_iter().take(ways).collect();
        let rings = pose.rings.iter().zip(&self.problem.rings).enumerate().filter_map(|(number, (circle, size))| {
            let family = &pattern.families[self.rings.get(number)?.family];
            Some(Ring {
                ring: name(number),
                family: &family.name.value,
                kind: &family.kind,
                centre: point(circle.centre / unit),
                normal: point(circle.normal),
                core_radius: Rounded(circle.radius / unit),
                wire: Rounded(size.wire * wire / unit),
            })
        });
        let links = self.problem.links.iter();
        let touching = near(&self.problem, pose, wire * (1.0 + 1e-4), 0.0);
        Pose {
            unit: if self.in_mm() { Unit::Mm } else { Unit::Wire },
            repeats: shift(self.repeats),
            rings: rings.collect(),
            lattice: pose.ways.iter().take(ways).map(|w| point(*w / unit)).collect(),
            twist_deg: Rounded(pose.twist.to_degrees()),
            turned: pose.turned.iter().take(ways).copied().collect(),
            links: links
                .map(|l| Link { from: name(l.from), to: name(l.to), shift: shift(l.shift), sign: l.sign })
                .collect(),
            contacts: touching
                .iter()
                .map(|c| Contact {
                    from: name(c.from),
                    to: name(c.to),
                    shift: shift(c.shift),
                    distance: Rounded(c.distance / unit),
                    at: point(0.5 * (c.on_from + c.on_to) / unit),
                })
                .collect(),
        }
    }
}

impl<'s> Floor<'s> {
    fn of(floor: &'s weave::Floor) -> Self {
        Self { kind: &floor.kind, proved: Rounded(floor.proved), found: Rounded(floor.found) }
    }
}

impl<'s> BasePose<'s> {
    fn of(pattern: &'s Pattern, pose: &weave::Other, chosen: bool) -> Self {
        let names = |families: &Vec<FamilyId>| families.iter().map(|f| pattern.family_name(*f)).collect();
        Self {
            floor: Rounded(pose.floor),
            closes: pose.closes,
            allowed: pose.allowed,
            chosen,
            lean: pose.lean,
            twist_deg: pose.twist_deg.map(Rounded),
            folded: pose.folded.as_ref().map(names),
        }
    }
}

impl Along {
    /// Lengths in this unit.
    fn of(lengths: Option<&Lengths>, unit: f64) -> Option<Self> {
        match lengths?.as_slice() {
            _ if unit <= 0.0 => None,
            [] => None,
            [length] => Some(Self::Chain(Rounded(length / unit))),
            lengths => Some(Self::Sheet(lengths.iter().map(|l| Rounded(l / unit)).collect())),
        }
    }
}

fn point<const DECIMALS: i32>(at: glam::DVec3) -> Point<DECIMALS> {
    at.to_array().map(Rounded)
}
