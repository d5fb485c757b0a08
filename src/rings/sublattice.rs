//! Whole-number lattices of shifts, kept in triangular form.

/// The greatest common divisor; 0 only of 0 and 0.
pub fn gcd(a: i64, b: i64) -> i64 {
    let (mut a, mut b) = (a.abs(), b.abs());
    while b != 0 {
        (a, b) = (b, a % b);
    }
    a
}

/// All sums of the shifts added so far, as the whole-number combinations of (p, q) and (0, r).
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Sublattice {
    p: i64,
    q: i64,
    r: i64,
}

impl Sublattice {
    /// Takes in one more shift.
    pub fn add(&mut self, shift: [i64; 2]) {
        let (mut top, mut row) = ([self.p, self.q], shift);
        while row[0] != 0 {
            let times = top[0].div_euclid(row[0]);
            (top, row) = (row, [top[0] - times * row[0], top[1] - times * row[1]]);
        }
        if top[0] < 0 {
            top = [-top[0], -top[1]];
        }
        let r = gcd(self.r, row[1]);
        // Keeping q below r keeps the numbers small.
        let q = if r == 0 { top[1] } else { top[1].rem_euclid(r) };
        *self = Self { p: top[0], q, r };
    }

    /// Into how many parts the lattice of all whole shifts falls; none where it is not spanned.
    pub fn index(&self, dimensions: usize) -> Option<i64> {
        let parts = if dimensions == 1 { self.p } else { self.p * self.r };
        (parts != 0).then_some(parts)
    }

    /// The whole numbers that make a shift of (p, q) and (0, r); `None` where the shift is not of the
    /// lattice. With one dimension the second number is 0.
    pub fn coordinates(&self, shift: [i64; 2], dimensions: usize) -> Option<[i64; 2]> {
        if self.p == 0 || shift[0] % self.p != 0 {
            return None;
        }
        let first = shift[0] / self.p;
        if dimensions == 1 {
            return Some([first, 0]);
        }
        let rest = shift[1] - first * self.q;
        (self.r != 0 && rest % self.r == 0).then(|| [first, rest / self.r])
    }
}
