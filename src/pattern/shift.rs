//! Shifts along the repeat, and places in it.

use std::ops::{Add, Neg, Sub};

/// A shift along the repeat, or the place of a repeat in a piece: rows and columns of a sheet. Of a chain `row` is the
/// repeat and `column` does not change; of a unit neither does.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Shift {
    /// Along the rows of a sheet, or along a chain.
    pub row: i32,
    /// Along the columns of a sheet.
    pub column: i32,
}

impl Shift {
    /// No shift at all, and the first place where places count from 0.
    pub const ZERO: Self = Self::new(0, 0);
    /// The first place where places count from 1; as a period, every repeat.
    pub const ONE: Self = Self::new(1, 1);

    /// A shift by so many rows and columns.
    pub const fn new(row: i32, column: i32) -> Self {
        Self { row, column }
    }

    /// Row and column.
    pub const fn to_array(self) -> [i32; 2] {
        [self.row, self.column]
    }

    /// Along one way of the piece: 0 for the rows, 1 for the columns.
    pub const fn along(self, way: usize) -> i32 {
        if way == 0 { self.row } else { self.column }
    }

    /// The same along each way, to be changed.
    pub(crate) fn along_mut(&mut self, way: usize) -> &mut i32 {
        if way == 0 { &mut self.row } else { &mut self.column }
    }

    /// Multiplied way by way.
    #[must_use]
    pub(crate) fn times(self, by: Self) -> Self {
        Self::new(self.row * by.row, self.column * by.column)
    }

    /// The place it comes to within one period, and how many periods away that was.
    pub(crate) fn fold(self, period: Self) -> (Self, Self) {
        (
            Self::new(self.row.rem_euclid(period.row), self.column.rem_euclid(period.column)),
            Self::new(self.row.div_euclid(period.row), self.column.div_euclid(period.column)),
        )
    }

    /// All places from this one to the last, row by row.
    pub(crate) fn up_to(self, last: Self) -> impl Iterator<Item = Self> {
        (self.row..=last.row).flat_map(move |row| (self.column..=last.column).map(move |column| Self::new(row, column)))
    }

    /// All places of one period, from 0, row by row.
    pub(crate) fn places(self) -> impl Iterator<Item = Self> {
        Self::ZERO.up_to(self - Self::ONE)
    }
}

impl Add for Shift {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self::new(self.row + other.row, self.column + other.column)
    }
}

impl Sub for Shift {
    type Output = Self;

    fn sub(self, other: Self) -> Self {
        Self::new(self.row - other.row, self.column - other.column)
    }
}

impl Neg for Shift {
    type Output = Self;

    fn neg(self) -> Self {
        Self::new(-self.row, -self.column)
    }
}
