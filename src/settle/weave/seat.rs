//! How accents sit, by the names of their families.

use super::accent::Word;
use super::settled::Settled;
use crate::pattern::Pattern;
use schemars::JsonSchema;
use serde::Serialize;

/// How the accents of one family sit.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Seat {
    /// The name of the family.
    pub family: String,
    /// How its rings sit.
    pub word: Word,
}

impl Seat {
    /// How the accents sit that sit worst; `None` without accents.
    pub fn worst(seats: &[Self]) -> Option<Word> {
        [Word::Loose, Word::Askew, Word::Straight].into_iter().find(|word| seats.iter().any(|s| s.word == *word))
    }
}

impl Settled {
    /// How each family of accents sits, in the order in which they are put on.
    pub fn seats(&self, pattern: &Pattern) -> Vec<Seat> {
        let name = |family| pattern.family_name(family).to_owned();
        self.sits.iter().map(|sits| Seat { family: name(sits.family), word: sits.word }).collect()
    }
}
