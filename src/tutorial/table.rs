//! A row of a table as words: the heading of a column says what is in its cells.

use super::passage::Passage;
use std::ops::Range;

/// The heading of a column.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Column {
    /// Whether it says how many rings.
    count: bool,
    /// Words before a cell.
    before: String,
    /// Words behind one that is a number alone.
    behind: &'static str,
}

/// The row as a passage. Columns of counts come first, so that a row reads
/// like "12 rings; rings a; wire 1.6 mm".
pub fn row(heads: &[String], cells: &[(String, Range<usize>)]) -> Option<Passage> {
    let mut row = Passage::row();
    let mut columns: Vec<(Column, &(String, Range<usize>))> = cells
        .iter()
        .enumerate()
        .filter(|(_, cell)| !cell.0.trim().is_empty())
        .map(|(n, cell)| (column(heads.get(n).map_or("", String::as_str), is_number(&cell.0)), cell))
        .collect();
    columns.sort_by_key(|(column, _)| !column.count);
    for (number, (column, (words, place))) in columns.iter().enumerate() {
        if number > 0 {
            row.push("; ", None);
        }
        if !says_it(words, &column.before) {
            row.push(&column.before, None);
        }
        row.push(words, Some(place.clone()));
        if is_number(words) {
            row.push(column.behind, None);
        }
    }
    (!row.words.trim().is_empty()).then_some(row)
}

/// Whether a cell says itself what it is.
fn says_it(cell: &str, before: &str) -> bool {
    let first = before.split_whitespace().next().unwrap_or("");
    !first.is_empty() && cell.split_whitespace().any(|word| word.eq_ignore_ascii_case(first))
}

fn is_number(cell: &str) -> bool {
    cell.trim().chars().all(|c| c.is_ascii_digit() || matches!(c, '.' | ',' | '/' | ' '))
}

fn column(head: &str, number: bool) -> Column {
    let lower = head.to_lowercase();
    let words: Vec<&str> = lower.split(|c: char| !c.is_alphanumeric()).filter(|w| !w.is_empty()).collect();
    let has = |any: &[&str]| any.iter().any(|word| words.contains(word));
    let unit = if has(&["awg"]) {
        " AWG"
    } else if has(&["swg"]) {
        " SWG"
    } else if has(&["gauge", "ga"]) {
        " gauge"
    } else if has(&["mm", "millimetres", "millimeters"]) {
        " mm"
    } else if has(&["in", "inch", "inches"]) {
        " inches"
    } else if has(&["cm"]) {
        " cm"
    } else {
        ""
    };
    let sized = !unit.is_empty();
    let (count, before, behind) = if has(&["inner", "inside", "internal", "id"]) {
        (false, "inner diameter ".to_owned(), unit)
    } else if has(&["ar", "aspect", "ratio"]) {
        (false, "AR ".to_owned(), "")
    } else if has(&["length", "long"]) {
        (false, "length ".to_owned(), unit)
    } else if has(&["wire", "thickness"]) || has(&["awg", "swg", "gauge"]) {
        (false, "wire ".to_owned(), unit)
    } else if has(&["many", "count", "number", "quantity", "amount"]) || has(&["rings", "pieces"]) && !sized && number {
        (true, String::new(), " rings")
    } else if has(&["ring", "rings", "letter"]) {
        (false, "rings ".to_owned(), "")
    } else {
        (false, format!("{head}: "), unit)
    };
    Column { count, before, behind }
}
