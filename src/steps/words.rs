//! Rings and numbers in words, as written instructions have them.

use crate::pattern::{FamilyId, Lattice, Pattern, Shift};
use crate::text::list;

/// A ring's name as it is read aloud: `b2`; in a sheet row and column, `b2.3`; in a unit `ring b`.
pub fn ring_name(pattern: &Pattern, family: FamilyId, at: Shift) -> String {
    let name = pattern.family_name(family);
    match pattern.lattice {
        Lattice::Unit => format!("ring {name}"),
        Lattice::Chain => format!("{name}{}", at.row),
        Lattice::Sheet => format!("{name}{}.{}", at.row, at.column),
    }
}

/// Rings one after another; in a unit the word "rings" comes once.
pub fn rings(pattern: &Pattern, all: &[(FamilyId, Shift)]) -> String {
    let names: Vec<String> = all.iter().map(|(family, at)| ring_name(pattern, *family, *at)).collect();
    if pattern.lattice == Lattice::Unit && names.len() > 1 {
        let bare: Vec<String> = names.iter().map(|n| n.trim_start_matches("ring ").to_owned()).collect();
        return format!("rings {}", list(&bare, "and"));
    }
    list(&names, "and")
}

/// Numbers that are written in words.
const WORDS: [&str; 13] =
    ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];

/// Small numbers in words, others in digits.
pub fn number(number: usize) -> String {
    WORDS.get(number).map_or_else(|| number.to_string(), |w| (*w).to_owned())
}

/// A number in digits, or in words from one to twelve.
pub(crate) fn number_of(words: &str) -> Option<usize> {
    let words = words.trim().to_lowercase();
    words.parse().ok().or_else(|| WORDS.iter().skip(1).position(|w| *w == words).map(|n| n + 1))
}
