//! The rings that are drawn, their curves and their marks, in mm.

use super::choice::{Role, choose};
use super::curve::{Curve, Point, middle, point};
use super::goings::{Going, Name, by_family};
use super::layout::{Layout, Look};
use super::loops::{beside, inwards, loop_through};
use super::spot::Spot;
use crate::notation::Side;
use crate::pattern::{FamilyId, Lattice, Lies, Pattern, Shift};
use std::collections::BTreeMap;

/// Width and height there is for the drawing, and the largest radius of a ring.
const ROOM: Point = point(108.0, 104.0);
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
    /// Where it goes through rings, in the order of its way: the place, and whether down.
    pub goes: Vec<(f64, bool)>,
    /// The rings it goes through, and whether down.
    pub through: Vec<(Name, bool)>,
}

/// One mark: a ring of the repeat goes through others here.
pub struct Mark {
    /// The ring that goes, by its number in the scene.
    pub ring: usize,
    /// The rings it goes through.
    pub through: Vec<Name>,
    /// Down or up.
    pub down: bool,
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
    /// Goings there was no room to draw.
    pub left_out: usize,
    /// Rings of the repeat there was no room to draw.
    pub rings_left_out: usize,
}

impl Scene {
    /// The scene of one repeat.
    pub fn of(pattern: &Pattern, goings: &[Going]) -> Self {
        let layout = Layout::of(pattern, goings);
        let chosen = choose(pattern, &layout, goings);
        let circles = chosen.keys().filter(|n| layout.look(n.0) == Look::Circle);
        let places: Vec<Point> = circles.map(|n| layout.at(*n)).collect();
        let (low, high) = Curve::bounds_of(&places);
        let room = |room: f64, extent: f64| room / (extent + 2.2).max(1.0);
        let largest = if pattern.lattice == Lattice::Unit { LARGEST_IN_UNIT } else { LARGEST };
        let radius = if places.is_empty() {
            largest
        } else {
            largest.min(room(ROOM.x, high.x - low.x)).min(room(ROOM.y, high.y - low.y))
        };
        let of = by_family(goings);
        let mut scene = Self { rings: Vec::new(), marks: Vec::new(), radius, left_out: 0, rings_left_out: 0 };
        for (name, role) in chosen.iter().filter(|(n, _)| layout.look(n.0) == Look::Circle) {
            let centre = layout.at(*name).times(radius);
            scene.rings.push(Drawn {
                name: *name,
                role: *role,
                look: Look::Circle,
                curve: Curve::circle(centre, radius),
                centre: Some(centre),
                goes: Vec::new(),
                through: Vec::new(),
            });
        }
        for number in 0..scene.rings.len() {
            scene.mark_circle(number, &of);
        }
        let sides = sides(pattern);
        // A loop comes after the loops it goes through, and those of the repeat have the first choice.
        let mut loops: Vec<(&Name, &Role)> = chosen.iter().filter(|(n, _)| layout.look(n.0) == Look::Loop).collect();
        loops.sort_by_key(|(n, role)| (layout.depth(n.0), std::cmp::Reverse(**role)));
        for (name, role) in loops {
            scene.weave_loop(*name, *role, &layout, &of, sides.get(&name.0).copied(), pattern.lattice);
        }
        scene.left_out = goings.len().saturating_sub(scene.marks.len());
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

    /// Marks on a circle that passes others.
    fn mark_circle(&mut self, ring: usize, of: &BTreeMap<FamilyId, Vec<&Going>>) {
        let Some((name, role, curve)) = self.rings.get(ring).map(|r| (r.name, r.role, r.curve.clone())) else { return };
        for going in of.get(&name.0).map_or(&[][..], Vec::as_slice) {
            let through = shifted(going, name.1);
            let through: Vec<Name> = through.into_iter().filter(|n| self.has(*n)).collect();
            if let Some(ring) = self.rings.get_mut(ring) {
                ring.through.extend(through.iter().map(|n| (*n, going.down)));
            }
            if role != Role::Own || through.len() != going.through.len() {
                continue;
            }
            let Some(at) = self.spot(name, &through).and_then(|spot| spot.on(&curve)) else { continue };
            if let Some(ring) = self.rings.get_mut(ring) {
                ring.goes.push((curve.nearest(at), going.down));
            }
            self.marks.push(Mark { ring, through, down: going.down, at });
        }
    }

    /// A loop through its marks.
    fn weave_loop(
        &mut self,
        name: Name,
        role: Role,
        layout: &Layout,
        of: &BTreeMap<FamilyId, Vec<&Going>>,
        side: Option<Side>,
        lattice: Lattice,
    ) {
        let goings: Vec<(&Going, Vec<Name>)> =
            of.get(&name.0).map_or(&[][..], Vec::as_slice).iter().map(|g| (*g, shifted(g, name.1))).collect();
        let drawn: Vec<_> = goings.iter().filter(|(_, through)| through.iter().all(|n| self.has(*n))).collect();
        if drawn.is_empty() || (role != Role::Own && drawn.len() < goings.len()) {
            return;
        }
        let radius = self.radius;
        let to_side = match side {
            Some(Side::Far) => point(0.0, -0.4 * radius),
            Some(Side::Near) => point(0.0, 0.4 * radius),
            None => Point::default(),
        };
        let centres: Vec<Point> = drawn
            .iter()
            .map(|(_, through)| middle(&through.iter().map(|n| layout.at(*n).times(radius)).collect::<Vec<_>>()))
            .collect();
        let centre = middle(&centres);
        let mut marks: Vec<Mark> = Vec::new();
        for ((going, through), at) in drawn.iter().zip(&centres) {
            let inwards = inwards(centre.minus(*at), through, layout).times(radius);
            let aside = beside(*at, &centres, marks.len()).times(0.45 * radius);
            let wanted = at.plus(inwards).plus(to_side).plus(aside);
            let Some(mut spot) = self.spot(name, through) else { continue };
            if role != Role::Own {
                spot.taken.clear();
            }
            spot.taken.extend(marks.iter().map(|m| m.at));
            let Some(at) = spot.near(wanted) else { continue };
            marks.push(Mark { ring: self.rings.len(), through: through.clone(), down: going.down, at });
        }
        if marks.is_empty() {
            return;
        }
        let curve = loop_through(&mut marks, radius, side, lattice);
        let goes = marks.iter().map(|m| (curve.nearest(m.at), m.down)).collect();
        let through = marks.iter().flat_map(|m| m.through.iter().map(|n| (*n, m.down))).collect();
        self.rings.push(Drawn { name, role, look: Look::Loop, curve, centre: None, goes, through });
        if role == Role::Own {
            self.marks.append(&mut marks);
        }
    }

    /// The box round everything: least and greatest corner.
    pub fn bounds(&self) -> (Point, Point) {
        let corners: Vec<Point> = self.rings.iter().flat_map(|r| <[Point; 2]>::from(r.curve.bounds())).collect();
        if corners.is_empty() { <(Point, Point)>::default() } else { Curve::bounds_of(&corners) }
    }

    /// Moves everything.
    pub fn move_by(&mut self, by: Point) {
        for ring in &mut self.rings {
            ring.curve = ring.curve.moved(by);
            ring.centre = ring.centre.map(|c| c.plus(by));
        }
        for mark in &mut self.marks {
            mark.at = mark.at.plus(by);
        }
    }
}

/// The rings a going passes, for the ring `from` repeats away.
fn shifted(going: &Going, from: Shift) -> Vec<Name> {
    going.through.iter().map(|(f, o)| (*f, *o + from)).collect()
}

/// The edge each family lies on, where it is said.
fn sides(pattern: &Pattern) -> BTreeMap<FamilyId, Side> {
    pattern
        .lying
        .iter()
        .filter_map(|l| match &l.lies {
            Lies::On(ring, side) => Some((ring.family, *side)),
            _ => None,
        })
        .collect()
}
