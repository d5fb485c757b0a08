//! A shelf: the rings a maker has, as a plain table in CSV that any spreadsheet reads and writes.
//!
//! The first line names the columns, in any order; `wire` and `inner` must be there:
//!
//! | column | also called | contents |
//! |---|---|---|
//! | `wire` | wire diameter, gauge | thickness of the wire: `1.6 mm`, `16 swg`, `0.062 in` |
//! | `inner` | inner diameter, id | diameter of the hole: `7 mm`, `1/4 in` |
//! | `measured wire`, `measured inner` | | the same as you measured it; used instead of what the seller says |
//! | `material` | metal | |
//! | `colour` | color | |
//! | `sold` | how sold, sold by | rings in a pack (`100`, `bag of 100`), or its weight (`50 g`, `1 oz`) |
//! | `price` | | of one pack, as you like to write it |
//! | `weight` | weight of one ring | of one ring, in g |
//! | `on hand` | stock, have | rings (`340`), their weight (`120 g`, `4 oz`), or packs (`3 packs`) |
//!
//! A unit follows the number, or is in the heading for all cells below that have none: `wire (mm)`, `inner in`,
//! `gauge (awg)`. Commas, semicolons or tabs separate the cells; 1,6 is 1.6. Other columns are ignored.

use super::amount::{Amount, NotAnAmount, ring_weight};
use super::columns::{Column, Columns};
use super::fault::{Fault, NoShelf, ShelfFault};
use super::spreadsheet::{Record, records};
use crate::measure::{Material, material, millimetres, read_size, ring_grams};
use crate::notation::{Number, Size};
use crate::text::MAX_BYTES;

/// Thicker wires are slips, mm.
const THICKEST_WIRE: f64 = 50.0;
/// Larger inner diameters are slips, mm.
const WIDEST_INNER: f64 = 1000.0;

/// One line of a shelf: rings of one size, material and colour.
#[derive(Clone, Debug, PartialEq)]
pub struct ShelfRing {
    /// The line of the file, from 1.
    pub line: usize,
    /// Wire and inner diameter as sold.
    pub nominal: [Size; 2],
    /// Wire and inner diameter as measured, where they were.
    pub measured: [Option<Size>; 2],
    /// Wire and inner diameter, mm: as measured, or else as sold.
    mm: [f64; 2],
    /// Material as written.
    pub material: Option<String>,
    /// Colour as written.
    pub colour: Option<String>,
    /// How it is sold, as written.
    pub sold: Option<String>,
    /// Rings in a pack, where the shelf says so: by number, or by weight, rounded down.
    pub pack_rings: Option<u64>,
    /// Price of a pack, as written.
    pub price: Option<String>,
    /// Weight of one ring, g: as written, or worked out from size and material.
    pub ring_grams: Option<f64>,
    /// Rings on hand, where the shelf says so.
    pub on_hand: Option<u64>,
}

impl ShelfRing {
    /// Wire diameter, mm: as measured, or else as sold.
    pub fn wire_mm(&self) -> f64 {
        self.mm[0]
    }

    /// Inner diameter, mm: as measured, or else as sold.
    pub fn inner_mm(&self) -> f64 {
        self.mm[1]
    }

    /// The material, where it is known.
    pub fn known(&self) -> Option<&'static Material> {
        self.material.as_deref().and_then(material)
    }

    /// Price of a pack as a number, in whatever currency it is written.
    pub fn price_number(&self) -> Option<f64> {
        let price = self.price.as_deref()?;
        let digits = price.trim_matches(|c: char| !c.is_ascii_digit());
        Number::read(digits).ok().map(|n| n.value).filter(|v| v.is_finite())
    }

    /// What a maker calls it: "niobium, dusk violet"; its line where it has neither material nor colour.
    pub fn called(&self) -> String {
        let words: Vec<&str> = self.material.iter().chain(&self.colour).map(String::as_str).collect();
        if words.is_empty() { format!("line {}", self.line) } else { words.join(", ") }
    }
}

/// A shelf as it was read: the rings of all good lines, and what is wrong with the others.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Shelf {
    /// The rings, in the order of the file.
    pub rings: Vec<ShelfRing>,
    /// Lines that were left out, and headings that look like slips.
    pub faults: Vec<ShelfFault>,
}

impl Shelf {
    /// Reads a shelf. Bad lines are reported and left out; the rest is read.
    ///
    /// # Errors
    /// [`NoShelf`], where nothing of it can be read.
    pub fn read(bytes: &[u8]) -> Result<Self, NoShelf> {
        if bytes.len() > MAX_BYTES {
            return Err(NoShelf::TooLong);
        }
        let mut faults = Vec::new();
        let (headings, lines) = records(bytes, &mut faults)?;
        let columns = Columns::of(&headings, &mut faults)?;
        let mut shelf = Self { rings: Vec::new(), faults };
        for record in lines {
            match (Line { columns: &columns, record: &record }).ring() {
                Ok(ring) => shelf.rings.push(ring),
                Err(fault) => shelf.faults.push(fault),
            }
        }
        shelf.faults.sort_by_key(|f| (f.line, f.column.as_ref().map(|c| c.0)));
        Ok(shelf)
    }
}

/// One line and the columns of its cells.
struct Line<'s> {
    columns: &'s Columns,
    record: &'s Record,
}

impl Line<'_> {
    /// The line as a ring, or the first thing that is wrong with it.
    fn ring(&self) -> Result<ShelfRing, ShelfFault> {
        self.cells_are_sound()?;
        let (wire, wire_mm) = self.needed_size(Column::Wire)?;
        let (inner, inner_mm) = self.needed_size(Column::Inner)?;
        let measured_wire = self.size(Column::MeasuredWire)?;
        let measured_inner = self.size(Column::MeasuredInner)?;
        let wire_mm = measured_wire.as_ref().map_or(wire_mm, |m| m.1);
        let inner_mm = measured_inner.as_ref().map_or(inner_mm, |m| m.1);
        if wire_mm >= inner_mm {
            return Err(self.fault(Column::Inner, Fault::WireFillsHole { wire_mm, inner_mm }));
        }
        let words = |column: Column| self.cell(column).map(str::to_owned);
        let known = self.cell(Column::Material).and_then(material);
        let ring_grams = match self.cell(Column::Weight) {
            Some(words) => Some(self.amount_or_fault(Column::Weight, ring_weight(words))?),
            None => known.map(|m| ring_grams(m.density, wire_mm, inner_mm)),
        };
        let pack = self.cell(Column::Sold).and_then(|_| self.amount(Column::Sold).ok());
        let on_hand = self.cell(Column::OnHand).map(|_| {
            let rings = self.amount(Column::OnHand).and_then(|have| have.rings(ring_grams, pack.as_ref()));
            self.amount_or_fault(Column::OnHand, rings)
        });
        Ok(ShelfRing {
            line: self.record.line,
            nominal: [wire, inner],
            measured: [measured_wire.map(|m| m.0), measured_inner.map(|m| m.0)],
            mm: [wire_mm, inner_mm],
            material: words(Column::Material),
            colour: words(Column::Colour),
            sold: words(Column::Sold),
            pack_rings: pack.and_then(|pack| pack.rings(ring_grams, None).ok()).filter(|rings| *rings > 0),
            price: words(Column::Price),
            ring_grams,
            on_hand: on_hand.transpose()?,
        })
    }

    fn cells_are_sound(&self) -> Result<(), ShelfFault> {
        let (cells, headings) = (self.record.cells.len(), self.columns.count());
        if cells > headings {
            let what = Fault::TooManyCells { cells, headings };
            return Err(ShelfFault { line: self.record.line, column: None, what });
        }
        let unreadable = |cell: &str| cell.chars().any(|c| c.is_control() || c == '\u{FFFD}');
        match Column::ALL.into_iter().find(|column| self.cell(*column).is_some_and(unreadable)) {
            Some(column) => Err(self.fault(column, Fault::Unreadable)),
            None => Ok(()),
        }
    }

    fn fault(&self, column: Column, what: Fault) -> ShelfFault {
        ShelfFault { line: self.record.line, column: self.columns.place(column), what }
    }

    fn cell(&self, column: Column) -> Option<&str> {
        self.columns.cell(self.record, column)
    }

    /// The size in a column, and the same in mm; `None` where the cell is empty.
    fn size(&self, column: Column) -> Result<Option<(Size, f64)>, ShelfFault> {
        let Some(words) = self.cell(column) else { return Ok(None) };
        let fault = |what: Fault| self.fault(column, what);
        let size = read_size(words, self.columns.unit(column))
            .map_err(|why| fault(Fault::Size { words: words.to_owned(), why: Box::new(why) }))?;
        let is_wire = matches!(column, Column::Wire | Column::MeasuredWire);
        if !is_wire && size.unit.is_gauge() {
            return Err(fault(Fault::GaugeOfHole(words.to_owned())));
        }
        let most = if is_wire { THICKEST_WIRE } else { WIDEST_INNER };
        match millimetres(&size) {
            Some(mm) if mm > most => Err(fault(Fault::TooLarge { words: words.to_owned(), mm, most })),
            mm => Ok(mm.map(|mm| (size, mm))),
        }
    }

    fn needed_size(&self, column: Column) -> Result<(Size, f64), ShelfFault> {
        self.size(column)?.ok_or_else(|| self.fault(column, Fault::Empty))
    }

    fn amount(&self, column: Column) -> Result<Amount, NotAnAmount> {
        Amount::read(self.cell(column).unwrap_or_default(), self.columns.amount(column))
    }

    fn amount_or_fault<T>(&self, column: Column, amount: Result<T, NotAnAmount>) -> Result<T, ShelfFault> {
        amount.map_err(|why| {
            let words = self.cell(column).unwrap_or_default().to_owned();
            self.fault(column, Fault::Amount { words, why })
        })
    }
}
