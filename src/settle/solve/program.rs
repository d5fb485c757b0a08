//! Linear programs, solved by clarabel.

use clarabel::algebra::CscMatrix;
use clarabel::solver::{DefaultSettings, DefaultSolver, IPSolver, SolverStatus, SupportedConeT::NonnegativeConeT};

/// A linear program: rows that are not to exceed their bounds.
#[derive(Default)]
pub(crate) struct Program {
    rows: Vec<usize>,
    cols: Vec<usize>,
    values: Vec<f64>,
    bounds: Vec<f64>,
}

impl Program {
    /// Adds a row: the sum of value × column is at most `bound`.
    pub fn row(&mut self, entries: impl Iterator<Item = (usize, f64)>, bound: f64) {
        for (col, value) in entries {
            self.rows.push(self.bounds.len());
            self.cols.push(col);
            self.values.push(value);
        }
        self.bounds.push(bound);
    }

    /// The point of least cost. What the solver calls almost solved is taken too: every step is measured
    /// afterwards.
    pub fn solve(self, cost: &[f64]) -> Option<Vec<f64>> {
        let count = cost.len();
        let matrix = CscMatrix::new_from_triplets(self.bounds.len(), count, self.rows, self.cols, self.values);
        let nothing = CscMatrix::<f64>::zeros((count, count));
        // Every step is measured afterwards: digits beyond these would be wasted.
        let settings = DefaultSettings {
            verbose: false,
            max_iter: 60,
            tol_gap_abs: 1e-6,
            tol_gap_rel: 1e-6,
            tol_feas: 1e-6,
            iterative_refinement_enable: false,
            presolve_enable: false,
            ..DefaultSettings::default()
        };
        let cones = [NonnegativeConeT(self.bounds.len())];
        let mut solver = DefaultSolver::new(&nothing, cost, &matrix, &self.bounds, &cones, settings).ok()?;
        solver.solve();
        let done = matches!(solver.solution.status, SolverStatus::Solved | SolverStatus::AlmostSolved);
        let point = solver.solution.x.clone();
        (done && point.iter().all(|v| v.is_finite())).then_some(point)
    }
}
