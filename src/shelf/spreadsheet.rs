//! The lines of a shelf and their cells.
//!
//! Each line is read by itself, so that a forgotten closing quote costs one line and not the rest of the file. A cell
//! in quotes may still run over a few lines.

use super::columns::Column;
use super::fault::{Fault, NoShelf, ShelfFault};
use csv::ReaderBuilder;

/// The most lines a cell may run over.
const MOST_LINES: usize = 12;
/// The most cells of a line that are read.
const MOST_CELLS: usize = 200;

/// One line of a shelf.
pub(super) struct Record {
    /// The line it begins in, from 1.
    pub line: usize,
    /// Its cells, trimmed; what is not UTF-8 becomes U+FFFD.
    pub cells: Vec<String>,
}

/// The line of headings and all lines below it; empty lines are skipped. Lines that cannot be split into cells are
/// added to `faults`.
///
/// # Errors
/// [`NoShelf::Empty`].
pub(super) fn records(bytes: &[u8], faults: &mut Vec<ShelfFault>) -> Result<(Record, Vec<Record>), NoShelf> {
    let bytes = bytes.strip_prefix("\u{FEFF}".as_bytes()).unwrap_or(bytes);
    let lines: Vec<&[u8]> = bytes.split(|b| *b == b'\n').map(|l| l.strip_suffix(b"\r").unwrap_or(l)).collect();
    let first = lines.iter().position(|l| !blank(l)).ok_or(NoShelf::Empty)?;
    let heading = lines.get(first).copied().unwrap_or_default();
    let mark = separator(heading);
    let headings = Record { line: first + 1, cells: cells(heading, mark) };
    let mut all = Vec::new();
    let mut number = first + 1;
    while let Some(line) = lines.get(number) {
        let (begins, mut taken) = (number, 1);
        if !blank(line) {
            match lasting(&lines, number, mark, headings.cells.len()) {
                Some(count) => {
                    taken = count;
                    let joined = lines.get(number..number + count).unwrap_or_default().join(&b'\n');
                    let cells = cells(&joined, mark);
                    // A row of empty cells is what spreadsheets leave behind.
                    if cells.iter().any(|c| !c.is_empty()) {
                        all.push(Record { line: begins + 1, cells });
                    }
                }
                None => faults.push(ShelfFault {
                    line: begins + 1,
                    column: opened(line, mark).map(|c| (c + 1, headings.cells.get(c).cloned().unwrap_or_default())),
                    what: Fault::OpenQuote,
                }),
            }
        }
        number += taken;
    }
    Ok((headings, all))
}

fn blank(line: &[u8]) -> bool {
    line.iter().all(u8::is_ascii_whitespace)
}

/// How many lines the record that begins here runs over; `None` where its quote is not closed.
fn lasting(lines: &[&[u8]], from: usize, mark: u8, headings: usize) -> Option<usize> {
    let first = lines.get(from)?;
    opened(first, mark).map_or(Some(1), |_| {
        (2..=MOST_LINES).find(|count| {
            let joined = lines.get(from..from + count).map(|lines| lines.join(&b'\n'));
            joined.is_some_and(|joined| opened(&joined, mark).is_none() && cells(&joined, mark).len() <= headings)
        })
    })
}

/// The cell (from 0) whose quote is opened and not closed. A quote opens only where a cell begins; elsewhere it is an
/// inch mark.
fn opened(line: &[u8], mark: u8) -> Option<usize> {
    let (mut cell, mut quoted, mut start) = (0, false, true);
    let mut bytes = line.iter().copied().peekable();
    while let Some(byte) = bytes.next() {
        match byte {
            b'"' if quoted && bytes.peek() == Some(&b'"') => {
                bytes.next();
            }
            // A closing quote is the end of its cell.
            b'"' if quoted && bytes.peek().is_some_and(|b| *b != mark) => return Some(cell),
            b'"' if quoted => quoted = false,
            b'"' if start => (quoted, start) = (true, false),
            b if b == mark && !quoted => (cell, start) = (cell + 1, true),
            _ => start = false,
        }
    }
    quoted.then_some(cell)
}

/// What separates the cells: comma, semicolon or tab, whichever gives the most known headings.
fn separator(headings: &[u8]) -> u8 {
    let known = |mark: &u8| cells(headings, *mark).iter().filter(|c| Column::meant(c).is_some()).count();
    // Of two that give as many, the first.
    [b',', b';', b'\t'].into_iter().rev().max_by_key(known).unwrap_or(b',')
}

fn cells(line: &[u8], mark: u8) -> Vec<String> {
    let mut reader = ReaderBuilder::new().has_headers(false).flexible(true).delimiter(mark).from_reader(line);
    let mut record = csv::ByteRecord::new();
    // Reading from memory does not fail, and a line that held nothing has no cells.
    let _ = reader.read_byte_record(&mut record);
    record.iter().take(MOST_CELLS).map(|c| String::from_utf8_lossy(c).trim().to_owned()).collect()
}
