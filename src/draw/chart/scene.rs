//! The rings that are drawn, their curves and their marks, in mm.

use super::choice::{Role, choose};
use super::curve::Curve;
use super::layout::{Layout, Look};
use super::loops::{beside, inwards, loop_through};
use super::spot::Spot;
use super::threadings::{Name, Threading, by_family};
use crate::draw::plane::{bounds, middle};
use crate::notation::Side;
use crate::pattern::{FamilyId, Lattice, Lies, Pattern, Shift, Target};
use crate::steps::Direction;
use kurbo::{Point, Rect, Size, Vec2};
use std::cmp::Reverse;
use std::collections::BTreeMap;

/// Room for the drawing, and the largest radius of a ring.
const ROOM: Size = Size::new(108.0, 104.0);
const LARGEST: f64 = 16.0;
const LARGEST_IN_UNIT: f64 = 19.0;

/// One ring of the chart.
pub struct Drawn {
    /// Which.
    pub name: Name,
    /// What it is to the repeat.
    pub role: Role,
    /// Circle or loop.
    pub look: Look,
    /// Where it lies.
    pub curve: Curve,
    /// Its centre, if it is a true circle.
    pub centre: Option<Point>,
    /// The places on its curve where it goes through rings, in the order of its way.
    pub goes: Vec<(f64, Direction)>,
    /// The rings it goes through.
    pub through: Vec<(Name, Direction)>,
}

/// One mark: a ring of the repeat goes through others here.
pub struct Mark {
    /// The number of the ring in the scene.
    pub ring: usize,
    /// The rings it goes through.
    pub through: Vec<Name>,
    /// Which way.
    pub way: Direction,
    /// Where.
    pub at: Point,
}

/// Everything that is drawn of the repeat itself.
pub struct Scene {
    /// The rings.
    pub rings: Vec<Drawn>,
    /// The marks.
    pub marks: Vec<Mark>,
    /// Radius of a circle in mm.
    pub radius: f64,
    /// Threadings for which there was no room.
    pub left_out: usize,
    /// Rings of the repeat for which there was no room.
    pub rings_left_out: usize,
}

/// What the text says of the rings that are to be drawn.
struct Plan<'p> {
    layout: Layout,
    lattice: Lattice,
    threadings: BTreeMap<FamilyId, Vec<&'p Threading>>,
    /// The edge each family lies on, where the text names one.
    sides: BTreeMap<FamilyId, Side>,
}

impl<'p> Plan<'p> {
    /// The threadings of a ring, and the rings each goes through.
    fn threadings(&self, (family, at): Name) -> impl Iterator<Item = (&'p Threading, Vec<Name>)> {
        let shifted = move |(family, offset): &Name| (*family, *offset + at);
        let of_family = self.threadings.get(&family).map_or(&[][..], Vec::as_slice);
        of_family.iter().map(move |threading| (*threading, threading.through.iter().map(shifted).collect()))
    }
}

impl Scene {
    /// The scene of one repeat.
    pub fn of(pattern: &Pattern, threadings: &[Threading]) -> Self {
        let layout = Layout::of(pattern, threadings);
        let chosen = choose(pattern, &layout, threadings);
        let all = chosen.iter().map(|(n, role)| (*n, *role));
        let (circles, mut loops): (Vec<_>, Vec<_>) = all.partition(|(n, _)| layout.look(n.0) == Look::Circle);
        // A loop comes after the loops it goes through, and those of the repeat have the first choice.
        loops.sort_by_key(|(n, role)| (layout.depth(n.0), Reverse(*role)));
        let places: Vec<Point> = circles.iter().map(|(n, _)| layout.at(*n)).collect();
        let radius = radius(pattern.lattice, &places);
        let mut scene = Self { rings: Vec::new(), marks: Vec::new(), radius, left_out: 0, rings_left_out: 0 };
        let plan = Plan { layout, lattice: pattern.lattice, threadings: by_family(threadings), sides: sides(pattern) };
        for (name, role) in circles {
            let centre = plan.layout.centre(name, radius);
            scene.rings.push(Drawn {
                name,
                role,
                look: Look::Circle,
                curve: Curve::circle(centre, radius),
                centre: Some(centre),
                goes: Vec::new(),
                through: Vec::new(),
            });
        }
        for number in 0..scene.rings.len() {
            scene.mark_circle(number, &plan);
        }
        for (name, role) in loops {
            scene.weave_loop(name, role, &plan);
        }
        scene.left_out = threadings.len().saturating_sub(scene.marks.len());
        scene.rings_left_out = pattern.families.ids().filter(|f| !chosen.contains_key(&(*f, Shift::ZERO))).count();
        scene
    }

    /// Whether a ring is drawn.
    pub fn has(&self, name: Name) -> bool {
        self.rings.iter().any(|r| r.name == name)
    }

    fn spot<'s>(&'s self, own: Name, through: &[Name]) -> Option<Spot<'s>> {
        let mut spot = Spot {
            inside: Vec::new(),
            outside: Vec::new(),
            taken: self.marks.iter().map(|m| m.at).collect(),
            radius: self.radius,
        };
        for ring in self.rings.iter().filter(|r| r.name != own) {
            if through.contains(&ring.name) {
                spot.inside.push(&ring.curve);
            } else if ring.look == Look::Circle {
                spot.outside.push(&ring.curve);
            }
        }
        (spot.inside.len() == through.len()).then_some(spot)
    }

    /// The marks on a circle that goes through others.
    fn mark_circle(&mut self, number: usize, plan: &Plan<'_>) {
        let Some((name, role, curve)) = self.rings.get(number).map(|r| (r.name, r.role, r.curve.clone())) else {
            return;
        };
        for (threading, all) in plan.threadings(name) {
            let way = threading.way;
            let through: Vec<Name> = all.iter().copied().filter(|n| self.has(*n)).collect();
            if let Some(ring) = self.rings.get_mut(number) {
                ring.through.extend(through.iter().map(|n| (*n, way)));
            }
            if role != Role::Own || through.len() != all.len() {
                continue;
            }
            let Some(at) = self.spot(name, &through).and_then(|spot| spot.on(&curve)) else { continue };
            if let Some(ring) = self.rings.get_mut(number) {
                ring.goes.push((curve.nearest(at), way));
            }
            self.marks.push(Mark { ring: number, through, way, at });
        }
    }

    /// A loop through its marks; nothing where there is no room for any.
    fn weave_loop(&mut self, name: Name, role: Role, plan: &Plan<'_>) {
        let mut threadings: Vec<(&Threading, Vec<Name>)> = plan.threadings(name).collect();
        let all = threadings.len();
        threadings.retain(|(_, through)| through.iter().all(|n| self.has(*n)));
        if role != Role::Own && threadings.len() < all {
            return;
        }
        let mut marks = self.marks_of_loop((name, role), &threadings, plan);
        if marks.is_empty() {
            return;
        }
        let curve = loop_through(&mut marks, self.radius, plan.sides.get(&name.0).copied(), plan.lattice);
        let goes = marks.iter().map(|m| (curve.nearest(m.at), m.way)).collect();
        let through = marks.iter().flat_map(|m| m.through.iter().map(|n| (*n, m.way))).collect();
        self.rings.push(Drawn { name, role, look: Look::Loop, curve, centre: None, goes, through });
        if role == Role::Own {
            self.marks.append(&mut marks);
        }
    }

    /// The marks of the loop that is woven next, each as near to where it is wanted as the others let it.
    fn marks_of_loop(
        &self,
        (name, role): (Name, Role),
        threadings: &[(&Threading, Vec<Name>)],
        plan: &Plan<'_>,
    ) -> Vec<Mark> {
        let radius = self.radius;
        let to_side = match plan.sides.get(&name.0) {
            Some(Side::Far) => Vec2::new(0.0, -0.4 * radius),
            Some(Side::Near) => Vec2::new(0.0, 0.4 * radius),
            None => Vec2::ZERO,
        };
        let centre =
            |through: &[Name]| middle(&through.iter().map(|n| plan.layout.centre(*n, radius)).collect::<Vec<_>>());
        let centres: Vec<Point> = threadings.iter().map(|(_, through)| centre(through)).collect();
        let centre = middle(&centres);
        let mut marks: Vec<Mark> = Vec::new();
        for ((threading, through), at) in threadings.iter().zip(&centres) {
            let inwards = inwards(centre - *at, through, &plan.layout) * radius;
            let aside = beside(*at, &centres, marks.len()) * (0.45 * radius);
            let Some(mut spot) = self.spot(name, through) else { continue };
            if role != Role::Own {
                spot.taken.clear();
            }
            spot.taken.extend(marks.iter().map(|m| m.at));
            let Some(at) = spot.near(*at + inwards + to_side + aside) else { continue };
            marks.push(Mark { ring: self.rings.len(), through: through.clone(), way: threading.way, at });
        }
        marks
    }

    /// The box round everything.
    pub fn bounds(&self) -> Rect {
        let all = self.rings.iter().map(|r| r.curve.bounds());
        all.reduce(|bounds, ring| bounds.union(ring)).unwrap_or_default()
    }

    /// Moves everything.
    pub fn move_by(&mut self, by: Vec2) {
        for ring in &mut self.rings {
            ring.curve = ring.curve.moved(by);
            ring.centre = ring.centre.map(|c| c + by);
        }
        for mark in &mut self.marks {
            mark.at += by;
        }
    }
}

/// The radius of circles with these centres, counted in radii: as large as they go into the room.
fn radius(lattice: Lattice, places: &[Point]) -> f64 {
    let largest = if lattice == Lattice::Unit { LARGEST_IN_UNIT } else { LARGEST };
    let extent = bounds(places);
    let fitting = |room: f64, extent: f64| room / (extent + 2.2).max(1.0);
    largest.min(fitting(ROOM.width, extent.width())).min(fitting(ROOM.height, extent.height()))
}

/// The edge each family lies on, where the text names one.
fn sides(pattern: &Pattern) -> BTreeMap<FamilyId, Side> {
    let side = |lies: &Lies<Target>| match lies {
        Lies::On(ring, side) => Some((ring.family, *side)),
        _ => None,
    };
    pattern.lying.iter().filter_map(|l| side(&l.lies)).collect()
}
