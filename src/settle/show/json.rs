//! A settled weave for other programs: everything needed to check the pose again.

use crate::notation::Hand;
use crate::pattern::{FamilyId, Pattern, Shift};
use crate::settle::solve::Pose;
use crate::settle::solve::{Near, near};
use crate::settle::weave::{Known, Lengths, Settled};
use serde_json::{Value, json};

impl Settled {
    /// The settled weave as one JSON object; what is not known is null.
    ///
    /// - `weave`, `lattice` (unit, chain, sheet), `spiral`
    /// - `sizes`: `known` (mm, ratios, none), `assumed`: kinds without a size that are taken to be like the first
    /// - `floor`: `kind`, `proved` and `found` (aspect ratios of the first kind when all wires are as thick as they
    ///   go together), and the same for all `kinds`
    /// - `closes`; `room` (how much thicker all wires could be, as a part of them; below 0 it does not close);
    ///   `collisions` where it does not: `rings`, `distance`, `needed`
    /// - `repeat`, of the base: `taut_mm`, `pushed_mm`, `natural_mm` and the same in inner diameters of the first
    ///   kind, `taut_inner` and so on; a number for a chain, rows and columns for a sheet
    /// - `lean` of the base (left, right), `either_hand` (the text leaves the hand open), `tips_deg` of its eyes
    /// - `tilt` (none where it does not close): `family`, `degrees` of each of its rings in the pose
    /// - `width_mm`, `thickness_mm` (null where it does not close), `straight`; `curled`, where a chain closes, but not straight: `turn_deg` of each
    ///   repeat, `across_mm` (null of one that twists about its own length)
    /// - `accents`: `family`, `sits`: `word` (straight, askew, loose), `spread_deg`, `rock_deg`, `loss_percent`, `ways`
    /// - `lodged_poses`, `starts`; `poses` of the base: `floor`, `closes`, `allowed` (by the text), `chosen`, `lean`,
    ///   `twist_deg`, `folded` (of a chain of pairs the families folded back, none where it is open)
    /// - `pose`, drawn out at the sizes given (null where they do not fit or none are given), and `floor_pose`, at
    ///   the floor: `unit` (mm, or wires of the first ring), `repeats` of the base in it, `rings`: `ring`, `family`,
    ///   `kind`, `centre`, `normal` (to the front), `core_radius`, `wire`; `lattice`: one vector for each way, the
    ///   image k repeats on is turned k × `twist_deg` about the x axis, moved, and turned over where k is odd along
    ///   a way that is `turned`; `links`: `from`, `to`, `shift` (of `to`), `sign` (+1 down: each passes the other
    ///   from front to back); `contacts`: `from`, `to`, `shift`, `distance` of the core circles, `at`
    pub fn json(&self, weave: &str, pattern: &Pattern) -> Value {
        let known = match self.sizes.known {
            Known::Millimetres => "mm",
            Known::Ratios => "ratios",
            Known::Nothing => "none",
        };
        let floors: Vec<Value> = self
            .floors
            .iter()
            .map(|f| json!({ "kind": f.kind, "proved": fixed(f.proved, 6), "found": fixed(f.found, 6) }))
            .collect();
        let first = self.floors.first();
        let mm = self.sizes.known == Known::Millimetres;
        let millimetres = |x: f64| if mm { fixed(x, 4) } else { Value::Null };
        // What does not close lies nowhere.
        let lies = self.closes() != Some(false);
        let (width, thickness) = self.extent();
        let families: Vec<FamilyId> = pattern.families.ids().collect();
        let name = |family: FamilyId| pattern.family_name(family);
        json!({
            "weave": weave,
            "lattice": self.lattice.word(),
            "spiral": self.problem.spiral,
            "sizes": { "known": known, "assumed": self.sizes.assumed },
            "floor": {
                "kind": first.map(|f| &f.kind),
                "proved": first.map(|f| fixed(f.proved, 6)),
                "found": first.map(|f| fixed(f.found, 6)),
                "kinds": floors,
            },
            "closes": self.closes(),
            "room": self.room().map(|r| fixed(r, 6)),
            "collisions": self.collisions.iter().map(|c| self.collision(pattern, c)).collect::<Vec<_>>(),
            "repeat": {
                "taut_mm": Self::along(self.taut.as_ref(), mm, 1.0),
                "pushed_mm": Self::along(self.pushed.as_ref(), mm, 1.0),
                "natural_mm": Self::along(self.natural.as_ref(), mm, 1.0),
                "taut_inner": Self::along(self.taut.as_ref(), true, self.inner()),
                "pushed_inner": Self::along(self.pushed.as_ref(), true, self.inner()),
                "natural_inner": Self::along(self.natural.as_ref(), true, self.inner()),
            },
            "lean": self.lean.map(Hand::word),
            "either_hand": self.either_hand,
            "tips_deg": self.view.tips.iter().filter(|_| lies).map(|t| fixed(*t, 2)).collect::<Vec<_>>(),
            "tilt": families.iter().filter(|_| lies).map(|f| json!({
                "family": name(*f),
                "degrees": self.tilts(*f).into_iter().map(|t| fixed(t, 2)).collect::<Vec<_>>(),
            })).collect::<Vec<_>>(),
            "width_mm": width.filter(|_| lies).map(millimetres),
            "thickness_mm": Some(thickness).filter(|_| lies).map(millimetres),
            "straight": self.straight,
            "curled": self.curled.map(|c| json!({
                "turn_deg": fixed(c.turn_deg, 2),
                "across_mm": c.across.map(millimetres),
            })),
            "accents": self.sits.iter().map(|s| json!({
                "family": name(s.family),
                "sits": {
                    "word": s.word.word(), "spread_deg": fixed(s.spread_deg, 2), "rock_deg": fixed(s.rock_deg, 2),
                    "loss_percent": fixed(s.loss_percent, 2), "ways": s.ways,
                },
            })).collect::<Vec<_>>(),
            "lodged_poses": self.lodged,
            "starts": self.starts,
            "poses": self.poses.iter().enumerate().map(|(number, p)| json!({
                "floor": fixed(p.floor, 6), "closes": p.closes, "allowed": p.allowed, "chosen": number == self.chosen,
                "lean": p.lean.map(Hand::word), "twist_deg": p.twist_deg.map(|t| fixed(t, 2)),
                "folded": p.folded.as_ref().map(|families| families.iter().map(|f| name(*f)).collect::<Vec<_>>()),
            })).collect::<Vec<_>>(),
            "pose": if self.closes() == Some(true) { self.pose_json(pattern, &self.view.pose, self.wire) } else { Value::Null },
            "floor_pose": self.pose_json(pattern, &self.tight.0.pose, self.tight.1),
        })
    }

    fn along(lengths: Option<&Lengths>, known: bool, unit: f64) -> Value {
        match lengths.map(Vec::as_slice).filter(|_| known && unit > 0.0) {
            None | Some([]) => Value::Null,
            Some([length]) => fixed(length / unit, 4),
            Some(lengths) => lengths.iter().map(|l| fixed(l / unit, 4)).collect(),
        }
    }

    fn collision(&self, pattern: &Pattern, near: &Near) -> Value {
        let name = |ring, shift| self.ring_name(pattern, ring, shift);
        let unit = self.unit(1.0);
        json!({
            "rings": [name(near.from, Shift::ZERO), name(near.to, near.shift)],
            "distance": fixed(near.distance / unit, 6), "needed": fixed(near.wires / unit, 6),
        })
    }

    fn pose_json(&self, pattern: &Pattern, pose: &Pose, wire: f64) -> Value {
        let unit = self.unit(wire);
        let point = |p: glam::DVec3| -> Value { p.to_array().iter().map(|x| fixed(x / unit, 9)).collect() };
        let direction = |p: glam::DVec3| -> Value { p.to_array().iter().map(|x| fixed(*x, 12)).collect() };
        let name = |ring: usize| self.ring_name(pattern, ring, Shift::ZERO);
        let ways = self.problem.ways;
        let shift = |s: Shift| s.to_array().into_iter().take(ways).collect::<Vec<i32>>();
        let rings = self.rings.iter().zip(&pose.rings).zip(&self.problem.rings).enumerate();
        let rings: Vec<Value> = rings
            .map(|(number, (((family, _), circle), size))| {
                let family = &pattern.families[*family];
                json!({
                    "ring": name(number),
                    "family": family.name.value,
                    "kind": family.kind,
                    "centre": point(circle.centre),
                    "normal": direction(circle.normal),
                    "core_radius": fixed(circle.radius / unit, 9),
                    "wire": fixed(size.wire * wire / unit, 9),
                })
            })
            .collect();
        let links: Vec<Value> = self
            .problem
            .links
            .iter()
            .map(|l| json!({ "from": name(l.from), "to": name(l.to), "shift": shift(l.shift), "sign": l.sign }))
            .collect();
        // Every place where rings touch, within a ten-thousandth of the wire.
        let touching = near(&self.problem, pose, wire * (1.0 + 1e-4), 0.0);
        let contact = |c: &Near| {
            json!({
                "from": name(c.from), "to": name(c.to), "shift": shift(c.shift),
                "distance": fixed(c.distance / unit, 6), "at": point(0.5 * (c.on_from + c.on_to)),
            })
        };
        let contacts: Vec<Value> = touching.iter().map(contact).collect();
        json!({
            "unit": if self.sizes.known == Known::Millimetres { "mm" } else { "wire" },
            "repeats": shift(self.repeats),
            "rings": rings,
            "lattice": pose.ways.iter().take(ways).map(|w| point(*w)).collect::<Vec<_>>(),
            "twist_deg": fixed(pose.twist.to_degrees(), 9),
            "turned": pose.turned.iter().take(ways).collect::<Vec<_>>(),
            "links": links,
            "contacts": contacts,
        })
    }
}

/// A number to so many decimals, the same on every machine; −0 is 0.
fn fixed(x: f64, decimals: i32) -> Value {
    let unit = libm::pow(10.0, f64::from(decimals));
    let rounded = libm::round(x * unit) / unit;
    if rounded.is_finite() { json!(if rounded == 0.0 { 0.0 } else { rounded }) } else { Value::Null }
}
