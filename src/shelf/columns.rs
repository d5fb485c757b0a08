//! The headings of a shelf.

use super::spreadsheet::Record;
use super::stock::ShelfFault;
use crate::measure::{Measure, measure};
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
    /// All of them, in the order in which faults of a line are looked for.
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

    /// Its headings, the first the one that is documented.
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

    /// The column a heading means, and the unit in it: "wire (mm)", "inner in".
    pub fn meant(heading: &str) -> Option<(Self, Option<Unit>)> {
        let words = plain(heading);
        let called = |words: &str| Self::ALL.into_iter().find(|c| c.headings().contains(&words));
        if let Some(column) = called(&words) {
            return Some((column, None));
        }
        // Money has many names.
        if words.starts_with("price ") {
            return Some((Self::Price, None));
        }
        let (name, unit) = words.rsplit_once(' ')?;
        let column = called(name)?;
        let amount = matches!(column, Self::Sold | Self::Weight | Self::OnHand) && AMOUNTS.contains(&unit);
        match measure(unit) {
            Some(Measure::In(unit)) => Some((column, Some(unit))),
            _ => amount.then_some((column, None)),
        }
    }
}

/// Units of amounts that may stand in a heading.
const AMOUNTS: [&str; 6] = ["rings", "g", "kg", "oz", "packs", "bags"];

/// Small letters, single spaces, nothing but letters and inch marks.
fn plain(heading: &str) -> String {
    let kept = |c: char| if c.is_alphanumeric() || matches!(c, '"' | '\u{2033}') { c } else { ' ' };
    let words: String = heading.to_lowercase().chars().map(kept).collect();
    words.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Where the columns of a shelf stand.
pub(super) struct Columns {
    headings: Vec<String>,
    places: BTreeMap<Column, (usize, Option<Unit>)>,
}

impl Columns {
    /// The columns of a line of headings. Headings that look like slips are added to `faults`.
    ///
    /// # Errors
    /// Where wire or inner diameter have no column, or two columns are the same.
    pub fn of(headings: &Record, faults: &mut Vec<ShelfFault>) -> Result<Self, String> {
        let mut columns = Self { headings: headings.cells.clone(), places: BTreeMap::new() };
        for (number, heading) in headings.cells.iter().enumerate() {
            if let Some((column, unit)) = Column::meant(heading) {
                if let Some((first, _)) = columns.places.insert(column, (number, unit)) {
                    let first_name = headings.cells.get(first).map_or("?", String::as_str);
                    return Err(format!(
                        "columns {} (`{first_name}`) and {} (`{heading}`) are the same; keep one of them",
                        first + 1,
                        number + 1
                    ));
                }
                continue;
            }
            let known = Column::ALL.into_iter().flat_map(|c| c.headings().iter().copied());
            let near = nearest(&plain(heading), known).and_then(Column::meant);
            if let Some(near) = near.and_then(|(column, _)| column.headings().first()) {
                faults.push(ShelfFault {
                    line: headings.line,
                    column: Some((number + 1, heading.clone())),
                    message: format!("this column is left alone; did you mean `{near}`?"),
                });
            }
        }
        let lacking: Vec<&str> = [Column::Wire, Column::Inner]
            .into_iter()
            .filter(|c| !columns.places.contains_key(c))
            .filter_map(|c| c.headings().first().copied())
            .collect();
        if lacking.is_empty() {
            return Ok(columns);
        }
        Err(format!(
            "line {} has no column `{}`; the first line names the columns, such as: material, colour, wire, inner, on hand",
            headings.line,
            lacking.join("` and no column `")
        ))
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

    /// What stands in a column of a line; `None` where it is empty.
    pub fn cell<'r>(&self, record: &'r Record, column: Column) -> Option<&'r str> {
        let (number, _) = self.places.get(&column)?;
        record.cells.get(*number).map(String::as_str).filter(|c| !c.is_empty())
    }
}
