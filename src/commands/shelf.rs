//! Reading a shelf of rings.

use super::{Stop, files};
use byrnie::shelf::Shelf;
use std::path::Path;

/// So many bad lines of a shelf are named; nobody reads more.
const MOST_NAMED: usize = 200;

/// The rings on a shelf; bad lines are named on standard error, and stop nothing.
///
/// # Errors
/// Exit code 2 where the file cannot be read, or nothing of it makes sense.
pub fn shelf(file: &Path) -> Result<Shelf, Stop> {
    let (name, bytes) = files::bytes(file)?;
    let shelf = Shelf::read(&bytes).map_err(|why| Stop::Shelf { name: name.clone(), why: why.into() })?;
    let mut named: String = shelf.faults.iter().take(MOST_NAMED).map(|f| format!("{name}: {f}\n")).collect();
    if let Some(more) = shelf.faults.len().checked_sub(MOST_NAMED).filter(|n| *n > 0) {
        named += &format!("{name}: and {more} more lines\n");
    }
    if !named.is_empty() {
        files::complain(&named);
    }
    Ok(shelf)
}
