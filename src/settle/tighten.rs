//! Tightening a pose: the thickest wire it can hold.
//!
//! The wire of every ring is scaled by one number τ, with core circles as they are. Each step is a linear
//! program: move every ring a little (three numbers for its centre, two for its tilt), and the repeat, so
//! that τ grows most while every place where two rings come near keeps its distance, to first order. The
//! slope of such a distance is the unit vector between its two points. (Tightening by linearised
//! contacts: Ashton, Cantarella, Piatek, Rawdon, Experimental Mathematics 20 (2011).) The step is bounded,
//! and what is really reached is measured afterwards: a step that does not help is halved.

use super::problem::{Pose, Problem};
use super::{clearances_below, find::has_links};
use clarabel::algebra::CscMatrix;
use clarabel::solver::{DefaultSettings, DefaultSolver, IPSolver, SolverStatus, SupportedConeT::NonnegativeConeT};
use glam::DVec3;

/// The most linear programs for one pose.
const MOST_STEPS: usize = 200;

/// Cosine and sine of every twelfth of a turn.
const AROUND: [(f64, f64); 12] = {
    const H: f64 = 0.866_025_403_784_438_6;
    [
        (1.0, 0.0),
        (H, 0.5),
        (0.5, H),
        (0.0, 1.0),
        (-0.5, H),
        (-H, 0.5),
        (-1.0, 0.0),
        (-H, -0.5),
        (-0.5, -H),
        (0.0, -1.0),
        (0.5, -H),
        (H, -0.5),
    ]
};

/// One place where two rings come near.
#[derive(Clone, Copy, Debug)]
struct Near {
    from: usize,
    to: usize,
    shift: [i32; 2],
    distance: f64,
    /// Half the sum of the two wires, mm.
    wires: f64,
    on_from: DVec3,
    on_to: DVec3,
}

/// A pose and the wire it holds.
#[derive(Clone, Debug)]
pub struct Tight {
    /// The pose.
    pub pose: Pose,
    /// How many times thicker the wire could be, with core circles as they are: the least distance of two
    /// rings over the mean of their wires.
    pub scale: f64,
}

/// Every place where rings are nearer than `limit` times the mean of their wires, and `more` mm.
fn near(problem: &Problem, pose: &Pose, limit: f64, more: f64) -> Vec<Near> {
    let widest = problem.rings.iter().map(|r| r.wire).fold(0.0, f64::max);
    let mut found = Vec::new();
    for (from, to, shift) in pose.pairs(limit * widest + more) {
        let (Some(a), Some(b)) = (pose.rings.get(from), pose.image(to, shift)) else { continue };
        let wire = |n: usize| problem.rings.get(n).map_or(0.0, |r| r.wire);
        let wires = 0.5 * (wire(from) + wire(to));
        let places = clearances_below(a, &b, limit * wires + more);
        for c in &places {
            let (distance, on_from, on_to) = (c.distance, c.on_a, c.on_b);
            found.push(Near { from, to, shift, distance, wires, on_from, on_to });
        }
        // Where a ring runs along another at nearly one distance, small moves shift the nearest place far:
        // points all round are watched as well.
        if !places.is_empty() && more > 0.0 {
            let (u, v) = a.axes();
            for (cos, sin) in AROUND {
                let on_from = a.centre + (u * cos + v * sin) * a.radius;
                let on_to = b.nearest(on_from);
                let distance = on_from.distance(on_to);
                if distance < limit * wires + more {
                    found.push(Near { from, to, shift, distance, wires, on_from, on_to });
                }
            }
        }
    }
    found
}

/// The wire a pose holds as it is.
pub fn scale(problem: &Problem, pose: &Pose) -> f64 {
    // Any wire would do where no two rings come near; a ring's own hole bounds it.
    let most = problem.rings.iter().map(|r| 2.0 * r.radius / r.wire).fold(f64::INFINITY, f64::min);
    near(problem, pose, most, 0.0).iter().map(|n| n.distance / n.wires).fold(most, f64::min)
}

/// The thickest wire that can be reached from a pose without pulling wire through wire.
pub fn tighten(problem: &Problem, pose: Pose) -> Tight {
    let mut best = Tight { scale: scale(problem, &pose), pose };
    let mean = problem.mean_radius();
    let mut trust = 0.1 * mean;
    for _ in 0..MOST_STEPS {
        let Some((step, promised)) = step(problem, &best.pose, best.scale, trust, Aim::Wire) else { break };
        let pose = moved(problem, &best.pose, &step);
        let reached = scale(problem, &pose);
        let gain = reached - best.scale;
        if gain > 0.0 && has_links(problem, &pose) {
            // A step that keeps what it promised may be longer next time.
            if gain > 0.75 * (promised - best.scale) {
                trust = (2.0 * trust).min(0.2 * mean);
            } else if gain < 0.25 * (promised - best.scale) {
                trust *= 0.5;
            }
            best = Tight { pose, scale: reached };
            if gain < 1e-12 {
                break;
            }
        } else {
            trust *= 0.25;
        }
        if trust < 1e-10 * mean {
            break;
        }
    }
    best
}

/// What moves: for each ring five numbers, its centre and two tilts; then for each way its shift, and the
/// twist; last the scale of the wire.
struct Columns {
    rings: usize,
    ways: usize,
    spiral: bool,
}

impl Columns {
    fn of(problem: &Problem) -> Self {
        Self { rings: problem.rings.len(), ways: problem.ways, spiral: problem.spiral }
    }

    /// The length of the first way, then both lengths of the second.
    fn way(&self) -> usize {
        5 * self.rings
    }

    fn twist(&self) -> usize {
        self.way() + [0, 1, 3].get(self.ways).copied().unwrap_or(0)
    }

    fn scale(&self) -> usize {
        self.twist() + usize::from(self.spiral)
    }
}

/// What a step is to bring.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Aim {
    /// As thick a wire as it goes.
    Wire,
    /// A longer repeat (1) or a shorter one (−1), the wire as it is.
    Length(f64),
    /// Room for the wire as it is.
    Room,
}

/// The best step of a bounded length from a pose that holds wire of `scale`, and the wire it promises.
pub(super) fn step(problem: &Problem, pose: &Pose, scale: f64, trust: f64, aim: Aim) -> Option<(Vec<f64>, f64)> {
    let columns = Columns::of(problem);
    let count = columns.scale() + 1;
    let contacts = near(problem, pose, scale, 6.0 * trust);
    let mut program = Program::default();
    // Each row says: what is given up of a distance and taken by the wire is no more than there is.
    for contact in &contacts {
        let mut line = vec![0.0; count];
        gradient(problem, pose, contact, &columns, &mut line);
        if let Some(slot) = line.get_mut(columns.scale()) {
            *slot = contact.wires;
        }
        program.row(line.into_iter().enumerate().filter(|(_, v)| *v != 0.0), contact.distance);
    }
    let mean = problem.mean_radius();
    for col in 0..columns.scale() {
        let is_tilt = col < columns.way() && col % 5 >= 3 || columns.spiral && col == columns.twist();
        let most = if is_tilt { trust / mean } else { trust };
        program.row([(col, 1.0)].into_iter(), most);
        program.row([(col, -1.0)].into_iter(), most);
    }
    let mut cost = vec![0.0; count];
    let thinnest = contacts.iter().map(|c| c.wires).fold(f64::INFINITY, f64::min).max(1e-9);
    let most = match aim {
        Aim::Wire => scale + 10.0 * trust / thinnest,
        Aim::Length(_) | Aim::Room => scale,
    };
    program.row([(columns.scale(), 1.0)].into_iter(), most);
    match aim {
        Aim::Wire | Aim::Room => *cost.get_mut(columns.scale())? = -1.0,
        Aim::Length(sign) => {
            program.row([(columns.scale(), -1.0)].into_iter(), -scale);
            *cost.get_mut(columns.way())? = -sign;
            if problem.ways >= 2 {
                *cost.get_mut(columns.way() + 2)? = -sign;
            }
        }
    }
    let step = program.solve(&cost)?;
    let promised = *step.last()?;
    Some((step, promised))
}

/// A linear program: rows that are not to exceed their bounds.
#[derive(Default)]
struct Program {
    rows: Vec<usize>,
    cols: Vec<usize>,
    values: Vec<f64>,
    bounds: Vec<f64>,
}

impl Program {
    fn row(&mut self, entries: impl Iterator<Item = (usize, f64)>, bound: f64) {
        for (col, value) in entries {
            self.rows.push(self.bounds.len());
            self.cols.push(col);
            self.values.push(value);
        }
        self.bounds.push(bound);
    }

    /// The point of least cost. What the solver calls almost solved is taken too: every step is measured
    /// afterwards.
    fn solve(self, cost: &[f64]) -> Option<Vec<f64>> {
        let count = cost.len();
        let matrix = CscMatrix::new_from_triplets(self.bounds.len(), count, self.rows, self.cols, self.values);
        let nothing = CscMatrix::<f64>::zeros((count, count));
        let settings = DefaultSettings { verbose: false, max_iter: 60, ..DefaultSettings::default() };
        let cones = [NonnegativeConeT(self.bounds.len())];
        let mut solver = DefaultSolver::new(&nothing, cost, &matrix, &self.bounds, &cones, settings).ok()?;
        solver.solve();
        let done = matches!(solver.solution.status, SolverStatus::Solved | SolverStatus::AlmostSolved);
        let point = solver.solution.x.clone();
        (done && point.iter().all(|v| v.is_finite())).then_some(point)
    }
}

/// Minus the slope of a distance against everything that moves.
fn gradient(problem: &Problem, pose: &Pose, contact: &Near, columns: &Columns, line: &mut [f64]) {
    let apart = (contact.on_from - contact.on_to).normalize_or_zero();
    let mut add = |col: usize, value: f64| {
        if let Some(slot) = line.get_mut(col) {
            *slot += value;
        }
    };
    // Moving the first ring along `apart` widens the distance, moving the second narrows it.
    if let Some(ring) = pose.rings.get(contact.from) {
        let col = 5 * contact.from;
        for (i, part) in apart.to_array().into_iter().enumerate() {
            add(col + i, -part);
        }
        let (u, v) = ring.axes();
        let arm = contact.on_from - ring.centre;
        add(col + 3, -u.cross(arm).dot(apart));
        add(col + 4, -v.cross(arm).dot(apart));
    }
    if let Some(ring) = pose.rings.get(contact.to) {
        let col = 5 * contact.to;
        // Motions are said of the ring in the first repeat; its image moves as they are turned on.
        let turned = |v: DVec3| {
            pose.moved(super::Circle { centre: v, ..*ring }, contact.shift).centre
                - pose.moved(super::Circle { centre: DVec3::ZERO, ..*ring }, contact.shift).centre
        };
        for (i, axis) in [DVec3::X, DVec3::Y, DVec3::Z].into_iter().enumerate() {
            add(col + i, turned(axis).dot(apart));
        }
        let (u, v) = ring.axes();
        let image = pose.moved(*ring, contact.shift);
        let arm = contact.on_to - image.centre;
        add(col + 3, turned(u).cross(arm).dot(apart));
        add(col + 4, turned(v).cross(arm).dot(apart));
    }
    let [row, column] = contact.shift.map(f64::from);
    if problem.ways >= 1 {
        add(columns.way(), row * apart.x);
    }
    if problem.ways >= 2 {
        add(columns.way() + 1, column * apart.x);
        add(columns.way() + 2, column * apart.y);
    }
    if columns.spiral {
        add(columns.twist(), row * DVec3::X.cross(contact.on_to).dot(apart));
    }
}

/// A pose after a step.
pub(super) fn moved(problem: &Problem, pose: &Pose, step: &[f64]) -> Pose {
    let columns = Columns::of(problem);
    let by = |col: usize| step.get(col).copied().unwrap_or(0.0);
    let mut pose = pose.clone();
    for (number, ring) in pose.rings.iter_mut().enumerate() {
        let col = 5 * number;
        let (u, v) = ring.axes();
        let tilt = u * by(col + 3) + v * by(col + 4);
        ring.centre += DVec3::new(by(col), by(col + 1), by(col + 2));
        ring.normal = (ring.normal + tilt.cross(ring.normal)).normalize_or_zero();
    }
    if problem.ways >= 1 {
        pose.ways[0].x += by(columns.way());
    }
    if problem.ways >= 2 {
        pose.ways[1].x += by(columns.way() + 1);
        pose.ways[1].y += by(columns.way() + 2);
    }
    if columns.spiral {
        pose.twist += by(columns.twist());
    }
    pose
}
