//! A shelf: the rings a maker has, as a plain table in CSV that any spreadsheet reads and writes.
//!
//! The first line names the columns, in any order; `wire` and `inner` must be there:
//!
//! | column | also called | what stands in it |
//! |---|---|---|
//! | `wire` | wire diameter, gauge | thickness of the wire: `1.6 mm`, `16 swg`, `0.062 in` |
//! | `inner` | inner diameter, id | diameter of the hole: `7 mm`, `1/4 in` |
//! | `measured wire`, `measured inner` | | the same as you measured it; counts before what the seller says |
//! | `material` | metal | |
//! | `colour` | color | |
//! | `sold` | how sold, sold by | rings in a pack (`100`, `bag of 100`), or its weight (`50 g`, `1 oz`) |
//! | `price` | | of one pack, as you like to write it |
//! | `weight` | weight of one ring | of one ring, in g |
//! | `on hand` | stock, have | rings (`340`), their weight (`120 g`, `4 oz`), or packs (`3 packs`) |
//!
//! A unit stands behind the number, or in the heading for all cells below that have none: `wire (mm)`, `inner in`,
//! `gauge (awg)`. Commas, semicolons or tabs part the cells; 1,6 is 1.6. Other columns are left alone.

use super::columns::{Column, Columns};
use super::spreadsheet::{Record, records};
use crate::measure::{Material, material};
use crate::measure::{length_mm, millimetres, read_number, read_size, ring_grams};
use crate::notation::{Size, Unit};
use crate::text::MAX_BYTES;

/// Grams of an ounce avoirdupois (international yard and pound agreement, 1959).
const OUNCE_GRAMS: f64 = 28.349_523_125;
/// Sizes beyond these are slips, mm.
const THICKEST_WIRE: f64 = 50.0;
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
    /// Material as written.
    pub material: Option<String>,
    /// Colour as written.
    pub colour: Option<String>,
    /// How it is sold, as written.
    pub sold: Option<String>,
    /// Rings in a pack, where it is said: by number, or by weight, rounded down.
    pub pack_rings: Option<u64>,
    /// Price of a pack, as written.
    pub price: Option<String>,
    /// Weight of one ring, g: as written, or worked out from size and material.
    pub ring_grams: Option<f64>,
    /// Rings on hand, where it is said.
    pub on_hand: Option<u64>,
}

impl ShelfRing {
    /// Wire diameter, mm: as measured, or else as sold.
    pub fn wire_mm(&self) -> f64 {
        self.measured[0].as_ref().and_then(millimetres).or_else(|| millimetres(&self.nominal[0])).unwrap_or(0.0)
    }

    /// Inner diameter, mm: as measured, or else as sold.
    pub fn inner_mm(&self) -> f64 {
        self.measured[1].as_ref().and_then(length_mm).or_else(|| length_mm(&self.nominal[1])).unwrap_or(0.0)
    }

    /// The material, where it is known.
    pub fn known(&self) -> Option<&'static Material> {
        self.material.as_deref().and_then(material)
    }

    /// Price of a pack as a number, in whatever money it is written.
    pub fn price_number(&self) -> Option<f64> {
        let price = self.price.as_deref()?;
        let digits = price.trim_matches(|c: char| !c.is_ascii_digit());
        read_number(digits).ok().map(|n| n.value)
    }

    /// What a maker calls it: "niobium, dusk violet"; its line where it has neither material nor colour.
    pub fn called(&self) -> String {
        let words: Vec<&str> = self.material.iter().chain(&self.colour).map(String::as_str).collect();
        if words.is_empty() { format!("line {}", self.line) } else { words.join(", ") }
    }
}

/// What is wrong with a line of a shelf.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ShelfFault {
    /// The line of the file, from 1.
    pub line: usize,
    /// The column: its number, from 1, and its heading; `None` where the whole line is meant.
    pub column: Option<(usize, String)>,
    /// What was found, and a way out.
    pub message: String,
}

impl std::fmt::Display for ShelfFault {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match &self.column {
            Some((number, name)) => write!(f, "line {}, column {number} ({name}): {}", self.line, self.message),
            None => write!(f, "line {}: {}", self.line, self.message),
        }
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
    /// Reads a shelf. Bad lines are named and left out; the rest is read.
    ///
    /// # Errors
    /// Why nothing of it can be read: too long, empty, without headings for wire and inner diameter, or with a
    /// heading that stands twice.
    pub fn read(bytes: &[u8]) -> Result<Self, String> {
        if bytes.len() > MAX_BYTES {
            return Err("the shelf is longer than 1 MB, some 10,000 rings; split it".to_owned());
        }
        let mut faults = Vec::new();
        let (headings, lines) = records(bytes, &mut faults)?;
        let columns = Columns::of(&headings, &mut faults)?;
        let mut shelf = Self { rings: Vec::new(), faults };
        for record in lines {
            match ring(&columns, &record) {
                Ok(ring) => shelf.rings.push(ring),
                Err(fault) => shelf.faults.push(fault),
            }
        }
        shelf.faults.sort_by_key(|f| (f.line, f.column.as_ref().map(|c| c.0)));
        Ok(shelf)
    }
}

/// One line as a ring, or what is wrong with it first.
fn ring(columns: &Columns, record: &Record) -> Result<ShelfRing, ShelfFault> {
    let fault = |column: Option<Column>, message: String| ShelfFault {
        line: record.line,
        column: column.and_then(|c| columns.place(c)),
        message,
    };
    if let Some(more) = record.cells.len().checked_sub(columns.count()).filter(|n| *n > 0) {
        let message = format!(
            "there are {} cells and {} headings, {more} too many; put quotes around cells with a comma in them, such as \"1,6\"",
            record.cells.len(),
            columns.count()
        );
        return Err(fault(None, message));
    }
    let cell = |column: Column| columns.cell(record, column);
    for column in Column::ALL {
        if cell(column).is_some_and(|c| c.chars().any(|c| c.is_control() || c == '\u{FFFD}')) {
            let message = "holds a character that cannot be read; type it anew, and save the file as UTF-8".to_owned();
            return Err(fault(Some(column), message));
        }
    }
    let size = |column: Column| -> Result<Option<Size>, ShelfFault> {
        let Some(words) = cell(column) else { return Ok(None) };
        let size =
            read_size(words, columns.unit(column)).map_err(|why| fault(Some(column), format!("`{words}` {why}")))?;
        let wire = matches!(column, Column::Wire | Column::MeasuredWire);
        let (most, what) = if wire { (THICKEST_WIRE, "wire") } else { (WIDEST_INNER, "inner diameter") };
        if !wire && matches!(size.unit, Unit::Awg | Unit::Swg) {
            return Err(fault(
                Some(column),
                format!("`{words}` is a gauge, and gauges measure wire; write mm or inches"),
            ));
        }
        match millimetres(&size) {
            Some(mm) if mm > most => {
                Err(fault(Some(column), format!("`{words}` is {mm:.0} mm; no {what} over {most:.0} mm is taken")))
            }
            _ => Ok(Some(size)),
        }
    };
    let needed = |column: Column, size: Option<Size>| {
        size.ok_or_else(|| fault(Some(column), "is empty; a ring has a wire and an inner diameter".to_owned()))
    };
    let nominal = [needed(Column::Wire, size(Column::Wire)?)?, needed(Column::Inner, size(Column::Inner)?)?];
    let words = |column: Column| cell(column).map(str::to_owned);
    let mut ring = ShelfRing {
        line: record.line,
        nominal,
        measured: [size(Column::MeasuredWire)?, size(Column::MeasuredInner)?],
        material: words(Column::Material),
        colour: words(Column::Colour),
        sold: words(Column::Sold),
        pack_rings: None,
        price: words(Column::Price),
        ring_grams: None,
        on_hand: None,
    };
    let (wire, inner) = (ring.wire_mm(), ring.inner_mm());
    if wire >= inner {
        let message =
            format!("inner diameter {inner:.2} mm is not more than its wire, {wire:.2} mm: are the two exchanged?");
        return Err(fault(Some(Column::Inner), message));
    }
    let quoted = |column: Column, words: &str, why: String| fault(Some(column), format!("`{words}` {why}"));
    ring.ring_grams = match cell(Column::Weight) {
        Some(words) => Some(grams(words).map_err(|why| quoted(Column::Weight, words, why))?),
        None => ring.known().map(|m| ring_grams(m.density, wire, inner)),
    };
    let sold = ring.sold.as_deref().and_then(|sold| amount(sold, columns.amount(Column::Sold)).ok());
    ring.pack_rings = sold
        .filter(|sold| !matches!(sold, Amount::Packs(_)))
        .and_then(|sold| rings_on_hand(&sold, ring.ring_grams, None).ok())
        .filter(|rings| *rings > 0);
    if let Some(words) = cell(Column::OnHand) {
        let pack = ring.sold.as_deref().and_then(|sold| amount(sold, columns.amount(Column::Sold)).ok());
        let counted = amount(words, columns.amount(Column::OnHand))
            .and_then(|have| rings_on_hand(&have, ring.ring_grams, pack.as_ref()));
        ring.on_hand = Some(counted.map_err(|why| quoted(Column::OnHand, words, why))?);
    }
    Ok(ring)
}

/// An amount of rings.
enum Amount {
    Rings(f64),
    Grams(f64),
    Packs(f64),
}

/// Number and unit of an amount: `340`, `340 rings`, `120 g`, `4 oz`, `3 packs`, `bag of 100`. A number alone is of
/// the unit in the heading, if there is one.
fn amount(words: &str, heading: Option<&str>) -> Result<Amount, String> {
    const MOST: f64 = 1e9;
    let lower = words.to_lowercase();
    let from = lower.find(|c: char| c.is_ascii_digit() || c == '-' || c == '\u{2212}').ok_or("has no number in it")?;
    let rest = lower.get(from..).unwrap_or_default();
    let in_number = |c: char| c.is_ascii_digit() || matches!(c, '.' | ',' | '-' | '\u{2212}');
    let end = rest.find(|c| !in_number(c)).unwrap_or(rest.len());
    let (number, behind) = rest.split_at(end);
    let value = read_number(number)?.value;
    if value > MOST {
        return Err("is more than anybody has".to_owned());
    }
    let unit = match behind.trim() {
        "" => heading.unwrap_or_default(),
        unit => unit,
    };
    Ok(match unit {
        "" | "ring" | "rings" | "pcs" | "pieces" => Amount::Rings(value),
        "g" | "gram" | "grams" | "gramme" | "grammes" => Amount::Grams(value),
        "kg" => Amount::Grams(1000.0 * value),
        "oz" | "ounce" | "ounces" => Amount::Grams(OUNCE_GRAMS * value),
        "pack" | "packs" | "bag" | "bags" => Amount::Packs(value),
        other => return Err(format!("ends in `{other}`; write a number of rings, or of g, oz or packs")),
    })
}

/// Rings on hand, rounded down.
fn rings_on_hand(have: &Amount, ring_grams: Option<f64>, pack: Option<&Amount>) -> Result<u64, String> {
    let weighed = |grams: f64| {
        let one = ring_grams.filter(|one| *one > 0.0);
        one.map(|one| grams / one).ok_or_else(|| {
            "is a weight, and what one ring weighs is not known; name its material, or its weight".to_owned()
        })
    };
    let rings = match *have {
        Amount::Rings(rings) => rings,
        Amount::Grams(grams) => weighed(grams)?,
        Amount::Packs(packs) => match pack {
            Some(Amount::Rings(rings)) => packs * rings,
            Some(Amount::Grams(grams)) => weighed(packs * grams)?,
            _ => return Err("counts packs, and `sold` does not say how many rings are in one".to_owned()),
        },
    };
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // Not below 0, and clamped.
    // A hair more, since a weight of so many rings may come out a hair less.
    Ok(libm::floor(rings * (1.0 + 1e-9)).clamp(0.0, 1e15) as u64)
}

/// The weight of one ring, g.
fn grams(words: &str) -> Result<f64, String> {
    let grams = match amount(words, None)? {
        Amount::Rings(number) | Amount::Grams(number) => number,
        Amount::Packs(_) => return Err("is no weight; write what one ring weighs, in g".to_owned()),
    };
    if grams > 0.0 { Ok(grams) } else { Err("is no weight: a ring weighs more than nothing".to_owned()) }
}
