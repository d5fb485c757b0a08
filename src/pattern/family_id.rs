//! Families by number, and lists with an entry for each family.

use std::ops::{Index, IndexMut};

/// A family of rings of one pattern: its place among them, in the order they are declared.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct FamilyId(u32);

impl FamilyId {
    /// The family at this place, from 0.
    pub(crate) fn new(number: usize) -> Self {
        Self(u32::try_from(number).unwrap_or(u32::MAX))
    }

    /// Its place, from 0.
    pub fn number(self) -> usize {
        self.0 as usize
    }
}

/// A list with one entry for each family of a pattern.
///
/// Ids are handed out by the pattern alone, so looking one up in a list of the same pattern always finds something.
#[derive(Clone, Debug, PartialEq)]
pub struct PerFamily<T>(Vec<T>);

impl<T> PerFamily<T> {
    /// How many families there are.
    pub fn len(&self) -> usize {
        self.0.len()
    }

    /// Whether there are none.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// Every entry, in the order of the families.
    pub fn iter(&self) -> std::slice::Iter<'_, T> {
        self.0.iter()
    }

    /// Every family, in order.
    pub fn ids(&self) -> impl DoubleEndedIterator<Item = FamilyId> + use<T> {
        (0..self.len()).map(FamilyId::new)
    }

    /// Every family with its entry.
    pub fn numbered(&self) -> impl DoubleEndedIterator<Item = (FamilyId, &T)> {
        self.iter().enumerate().map(|(number, entry)| (FamilyId::new(number), entry))
    }

    /// The first family whose entry is like this.
    pub fn find(&self, like: impl Fn(&T) -> bool) -> Option<FamilyId> {
        self.iter().position(like).map(FamilyId::new)
    }

    /// A list for the same families.
    pub fn map<U>(&self, entry: impl FnMut(&T) -> U) -> PerFamily<U> {
        self.iter().map(entry).collect()
    }

    /// Adds a family.
    pub(crate) fn push(&mut self, entry: T) {
        self.0.push(entry);
    }
}

impl<T> Default for PerFamily<T> {
    fn default() -> Self {
        Self(Vec::new())
    }
}

impl<T> FromIterator<T> for PerFamily<T> {
    fn from_iter<I: IntoIterator<Item = T>>(entries: I) -> Self {
        Self(entries.into_iter().collect())
    }
}

#[expect(clippy::indexing_slicing, reason = "an id is the place of a family of this pattern")]
impl<T> Index<FamilyId> for PerFamily<T> {
    type Output = T;

    fn index(&self, family: FamilyId) -> &T {
        &self.0[family.number()]
    }
}

#[expect(clippy::indexing_slicing, reason = "an id is the place of a family of this pattern")]
impl<T> IndexMut<FamilyId> for PerFamily<T> {
    fn index_mut(&mut self, family: FamilyId) -> &mut T {
        &mut self.0[family.number()]
    }
}

impl<'a, T> IntoIterator for &'a PerFamily<T> {
    type Item = &'a T;
    type IntoIter = std::slice::Iter<'a, T>;

    fn into_iter(self) -> Self::IntoIter {
        self.iter()
    }
}
