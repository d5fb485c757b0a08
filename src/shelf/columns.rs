//! The headings of a shelf.

use super::fault::{Fault, NoShelf, ShelfFault};
use super::spreadsheet::Record;
use crate::notation::Unit;
use crate::text::nearest;
use std::collections::BTreeMap;

/// What a column of a shelf holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Column {
    Wire,
    Inner,
    MeasuredWire,
    MeasuredInner,
    Material,
    Colour,
    Sold,
    Price,
    Weight,
    OnHand,
}

impl Column {
    /// All of them, in the order in which the faults of a line are looked for.
    pub const ALL: [Self; 10] = [
        Self::Wire,
        Self::Inner,
        Self::MeasuredWire,
        Self::MeasuredInner,
        Self::Material,
        Self::Colour,
        Self::Sold,
        Self::Price,
        Self::Weight,
        Self::OnHand,
    ];

    /// Its headings; the first is the documented one.
    fn headings(self) -> &'static [&'static str] {
        match self {
            Self::Wire => &["wire", "wire diameter", "gauge", "nominal wire"],
            Self::Inner => &["inner", "inner diameter", "id", "nominal inner"],
            Self::MeasuredWire => &["measured wire", "wire measured"],
            Self::MeasuredInner => &["measured inner", "inner measured", "measured id"],
            Self::Material => &["material", "metal"],
            Self::Colour => &["colour", "color"],
            Self::Sold => &["sold", "how sold", "sold by"],
            Self::Price => &["price"],
            Self::Weight => &["weight", "weight of one ring", "ring weight"],
            Self::OnHand => &["on hand", "stock", "have"],
        }
    }

    /// The column that a heading means, and the unit in it: "wire (mm)", "inner in".
    pub fn meant(heading: &str) -> Option<(Self, Option<Unit>)> {
        let words = plain(heading);
        let called = |words: &str| Self::ALL.into_iter().find(|c| c.headings().contains(&words));
        if let Some(column) = called(&words) {
            return Some((column, None));
        }
        // Any currency may follow.
        if words.starts_with("price ") {
            return Some((Self::Price, None));
        }
        let (name, unit) = words.rsplit_once(' ')?;
        let column = called(name)?;
        let amount = matches!(column, Self::Sold | Self::Weight | Self::OnHand) && AMOUNTS.contains(&unit);
        match Unit::named(unit) {
            Some(unit) if unit != Unit::Gauge => Some((column, Some(unit))),
            _ => amount.then_some((column, None)),
        }
    }
}

/// Units of amounts that a heading may give.
const AMOUNTS: [&str; 6] = ["rings", "g", "kg", "oz", "packs", "bags"];

/// In lower case, with single spaces, and nothing but letters, digits and inch marks.
fn plain(heading: &str) -> String {
    let kept = |c: char| if c.is_alphanumeric() || matches!(c, '"' | '\u{2033}') { c } else { ' ' };
    let words: String = heading.to_lowercase().chars().map(kept).collect();
    words.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Which column of a shelf is which.
pub(super) struct Columns {
    headings: Vec<String>,
    places: BTreeMap<Column, (usize, Option<Unit>)>,
}

impl Columns {
    /// The columns of a line of headings. Headings that look like slips are added to `faults`.
    ///
    /// # Errors
    /// [`NoShelf::SameColumn`], or [`NoShelf::ColumnsMissing`] where wire or inner diameter have no column.
    pub fn of(headings: &Record, faults: &mut Vec<ShelfFault>) -> Result<Self, NoShelf> {
        let mut columns = Self { headings: headings.cells.clone(), places: BTreeMap::new() };
        for (number, heading) in headings.cells.iter().enumerate() {
            if let Some((column, unit)) = Column::meant(heading) {
                if let Some((first, _)) = columns.places.insert(column, (number, unit)) {
                    let first_heading = headings.cells.get(first).cloned().unwrap_or_default();
                    return Err(NoShelf::SameColumn((first + 1, first_heading), (number + 1, heading.clone())));
                }
                continue;
            }
            let known = Column::ALL.into_iter().flat_map(|c| c.headings().iter().copied());
            let near = nearest(&plain(heading), known).and_then(Column::meant);
            if let Some(near) = near.and_then(|(column, _)| column.headings().first()) {
                faults.push(ShelfFault {
                    line: headings.line,
                    column: Some((number + 1, heading.clone())),
                    what: Fault::UnknownHeading(near),
                });
            }
        }
        let missing: Vec<&'static str> = [Column::Wire, Column::Inner]
            .into_iter()
            .filter(|c| !columns.places.contains_key(c))
            .filter_map(|c| c.headings().first().copied())
            .collect();
        if missing.is_empty() {
            Ok(columns)
        } else {
            Err(NoShelf::ColumnsMissing { line: headings.line, columns: missing })
        }
    }

    /// How many headings there are.
    pub fn count(&self) -> usize {
        self.headings.len()
    }

    /// Number (from 1) and heading of a column.
    pub fn place(&self, column: Column) -> Option<(usize, String)> {
        let (number, _) = self.places.get(&column)?;
        Some((number + 1, self.headings.get(*number)?.clone()))
    }

    /// The unit in the heading of a column.
    pub fn unit(&self, column: Column) -> Option<Unit> {
        self.places.get(&column)?.1
    }

    /// The unit of amounts in the heading of a column: "on hand (g)".
    pub fn amount(&self, column: Column) -> Option<&'static str> {
        let (_, heading) = self.place(column)?;
        let heading = plain(&heading);
        let (_, unit) = heading.rsplit_once(' ')?;
        AMOUNTS.into_iter().find(|known| *known == unit)
    }

    /// The cell of a line in a column; `None` where it is empty.
    pub fn cell<'r>(&self, record: &'r Record, column: Column) -> Option<&'r str> {
        let (number, _) = self.places.get(&column)?;
        record.cells.get(*number).map(String::as_str).filter(|c| !c.is_empty())
    }
}
