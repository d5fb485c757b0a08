//! A settled piece read from its JSON, with nothing of what made it: images of rings, and where two come near.

use byrnie::settle::Circle;
use glam::DVec3;
use serde_json::Value;

/// Points of a circle to sample it with; between two of them a place is looked for more closely.
const STEPS: u32 = 180;

/// A ring as the file has it.
pub struct Ring {
    pub name: String,
    pub kind: String,
    pub circle: Circle,
    pub wire: f64,
}

/// The rings of one repeat and how they go on.
pub struct Piece {
    pub rings: Vec<Ring>,
    pub lattice: Vec<DVec3>,
    pub twist: f64,
    pub turned: Vec<bool>,
}

/// A link or a contact of one ring with the image of another.
pub struct Tie<'v> {
    pub from: usize,
    pub to: usize,
    pub shift: Vec<i32>,
    pub value: &'v Value,
}

/// A place where two core circles are nearer than at all places around it.
pub struct Place {
    pub distance: f64,
    /// In the middle between the two.
    pub at: DVec3,
    /// Whether it is hardly nearer than places a wire away: rings that lie along one another.
    pub flat: bool,
}

pub fn vector(value: &Value) -> DVec3 {
    let at = |i: usize| value[i].as_f64().unwrap();
    DVec3::new(at(0), at(1), at(2))
}

pub fn list(value: &Value) -> &Vec<Value> {
    value.as_array().unwrap()
}

impl Piece {
    pub fn read(pose: &Value) -> Self {
        let ring = |r: &Value| Ring {
            name: r["ring"].as_str().unwrap().to_owned(),
            kind: r["kind"].as_str().unwrap().to_owned(),
            circle: Circle {
                centre: vector(&r["centre"]),
                normal: vector(&r["normal"]),
                radius: r["core_radius"].as_f64().unwrap(),
            },
            wire: r["wire"].as_f64().unwrap(),
        };
        Self {
            rings: list(&pose["rings"]).iter().map(ring).collect(),
            lattice: list(&pose["lattice"]).iter().map(vector).collect(),
            twist: pose["twist_deg"].as_f64().unwrap().to_radians(),
            turned: list(&pose["turned"]).iter().map(|t| t.as_bool().unwrap()).collect(),
        }
    }

    pub fn ties<'v>(&self, values: &'v Value) -> Vec<Tie<'v>> {
        let number = |name: &Value| self.rings.iter().position(|r| r.name == name.as_str().unwrap()).unwrap();
        let shift = |s: &Value| list(s).iter().map(|s| i32::try_from(s.as_i64().unwrap()).unwrap()).collect::<Vec<_>>();
        let tie = |value: &'v Value| Tie {
            from: number(&value["from"]),
            to: number(&value["to"]),
            shift: shift(&value["shift"]),
            value,
        };
        list(values).iter().map(tie).collect()
    }

    /// A direction turned on by so many repeats, about the x axis.
    fn turn(&self, v: DVec3, shift: &[i32]) -> DVec3 {
        let (sin, cos) = (self.twist * f64::from(shift.first().copied().unwrap_or(0))).sin_cos();
        DVec3::new(v.x, cos * v.y - sin * v.z, sin * v.y + cos * v.z)
    }

    /// A point moved on by so many repeats.
    pub fn on(&self, p: DVec3, shift: &[i32]) -> DVec3 {
        self.turn(p, shift) + self.lattice.iter().zip(shift).map(|(way, s)| *way * f64::from(*s)).sum::<DVec3>()
    }

    /// The image of a ring so many repeats on.
    pub fn image(&self, ring: usize, shift: &[i32]) -> Circle {
        let Circle { centre, normal, radius } = self.rings[ring].circle;
        let odd = self.turned.iter().zip(shift).filter(|(t, s)| **t && s.rem_euclid(2) == 1).count() % 2 == 1;
        let normal = self.turn(normal, shift) * if odd { -1.0 } else { 1.0 };
        Circle { centre: self.on(centre, shift), normal, radius }
    }

    /// All pairs of rings whose wires may meet, each once.
    pub fn pairs(&self) -> Vec<(usize, usize, Vec<i32>)> {
        const FAR: i32 = 8;
        let shifts: Vec<Vec<i32>> = match self.lattice.len() {
            0 => vec![vec![]],
            1 => (-FAR..=FAR).map(|k| vec![k]).collect(),
            _ => (-FAR..=FAR).flat_map(|k| (-FAR..=FAR).map(move |l| vec![k, l])).collect(),
        };
        let count = self.rings.len();
        let all = (0..count).flat_map(|i| (i..count).map(move |j| (i, j)));
        let all = all.flat_map(|(i, j)| shifts.iter().map(move |s| (i, j, s.clone())));
        // Of a ring and its own images each pair is seen from both ends.
        let once = all.filter(|(i, j, s)| i != j || s.iter().copied().find(|s| *s != 0).is_some_and(|s| s > 0));
        let near = |(i, j, s): &(usize, usize, Vec<i32>)| {
            let (a, b) = (self.rings[*i].circle, self.image(*j, s));
            let wires = 0.5 * (self.rings[*i].wire + self.rings[*j].wire);
            a.centre.distance(b.centre) < a.radius + b.radius + 1.1 * wires
        };
        once.filter(near).collect()
    }
}

impl Tie<'_> {
    /// Whether it is of this pair, and by how many repeats it is listed from elsewhere.
    pub fn is_of(&self, from: usize, to: usize, shift: &[i32]) -> Option<Vec<i32>> {
        let back: Vec<i32> = shift.iter().map(|s| -s).collect();
        if (self.from, self.to, self.shift.as_slice()) == (from, to, shift) {
            return Some(vec![0; shift.len()]);
        }
        ((self.from, self.to, &self.shift) == (to, from, &back)).then(|| shift.to_vec())
    }
}

/// The point of a circle nearest to a point.
pub fn nearest(circle: &Circle, p: DVec3) -> DVec3 {
    let height = (p - circle.centre).dot(circle.normal);
    let across = p - circle.centre - circle.normal * height;
    circle.centre + circle.radius * across.normalize_or(circle.normal.any_orthonormal_vector())
}

/// Every place where two circles are nearest: going round one of them, where its distance to the other is least.
pub fn places(a: &Circle, b: &Circle) -> Vec<Place> {
    let (along, across) = a.normal.any_orthonormal_pair();
    let step = std::f64::consts::TAU / f64::from(STEPS);
    let point = |t: f64| a.centre + a.radius * (along * t.cos() + across * t.sin());
    let to_other = |t: f64| point(t).distance(nearest(b, point(t)));
    let sampled: Vec<f64> = (0..STEPS).map(|k| to_other(step * f64::from(k))).collect();
    let around = |k: u32, by: u32| sampled[((k + by) % STEPS) as usize];
    let least = |k: &u32| around(*k, 0) <= around(*k, STEPS - 1) && around(*k, 0) < around(*k, 1);
    let refined = |k: u32| {
        let (mut low, mut high) = (step * (f64::from(k) - 1.0), step * (f64::from(k) + 1.0));
        while high - low > 1e-9 {
            let (one, two) = (low + (high - low) / 3.0, high - (high - low) / 3.0);
            if to_other(one) < to_other(two) { high = two } else { low = one }
        }
        let (t, aside) = (0.5 * (low + high), 0.2);
        let flat = (to_other(t + aside) - to_other(t)).min(to_other(t - aside) - to_other(t)) < 1e-3 * to_other(t);
        Place { distance: to_other(t), at: 0.5 * (point(t) + nearest(b, point(t))), flat }
    };
    (0..STEPS).filter(least).map(refined).collect()
}
