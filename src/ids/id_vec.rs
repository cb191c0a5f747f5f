//! Vectors indexed by ids.

use super::id::Id;
use std::fmt;
use std::marker::PhantomData;
use std::ops::{Deref, Index, IndexMut};

/// A vector with one `V` per `T`, indexed by the id of `T`.
pub struct IdVec<T, V> {
    values: Vec<V>,
    of: PhantomData<fn() -> T>,
}

impl<T, V> IdVec<T, V> {
    /// Appends the value of the next id.
    pub fn push(&mut self, value: V) {
        self.values.push(value);
    }

    /// Returns the value of an id; `None` past the end.
    #[must_use]
    pub fn get(&self, id: Id<T>) -> Option<&V> {
        self.values.get(id.index())
    }

    /// Lists all ids.
    #[must_use]
    pub fn ids(&self) -> impl ExactSizeIterator<Item = Id<T>> + DoubleEndedIterator + Clone + use<T, V> {
        Id::first(self.values.len())
    }

    /// Lists each id with its value.
    #[must_use]
    pub(crate) fn pairs(&self) -> impl ExactSizeIterator<Item = (Id<T>, &V)> {
        self.ids().zip(&self.values)
    }
}

impl<T, V: Clone> IdVec<T, V> {
    /// Makes a vector of `count` equal values.
    #[must_use]
    pub fn filled(value: V, count: usize) -> Self {
        vec![value; count].into()
    }
}

impl<T, V> From<Vec<V>> for IdVec<T, V> {
    fn from(values: Vec<V>) -> Self {
        Self { values, of: PhantomData }
    }
}

impl<T, V> FromIterator<V> for IdVec<T, V> {
    fn from_iter<I: IntoIterator<Item = V>>(values: I) -> Self {
        values.into_iter().collect::<Vec<V>>().into()
    }
}

impl<T, V> Index<Id<T>> for IdVec<T, V> {
    type Output = V;

    fn index(&self, id: Id<T>) -> &V {
        &self.values[id.index()]
    }
}

impl<T, V> IndexMut<Id<T>> for IdVec<T, V> {
    fn index_mut(&mut self, id: Id<T>) -> &mut V {
        &mut self.values[id.index()]
    }
}

impl<T, V> Deref for IdVec<T, V> {
    type Target = [V];

    fn deref(&self) -> &[V] {
        &self.values
    }
}

impl<'a, T, V> IntoIterator for &'a IdVec<T, V> {
    type Item = &'a V;
    type IntoIter = std::slice::Iter<'a, V>;

    fn into_iter(self) -> Self::IntoIter {
        self.values.iter()
    }
}

impl<T, V> IntoIterator for IdVec<T, V> {
    type Item = V;
    type IntoIter = std::vec::IntoIter<V>;

    fn into_iter(self) -> Self::IntoIter {
        self.values.into_iter()
    }
}

impl<T, V> Default for IdVec<T, V> {
    fn default() -> Self {
        Vec::new().into()
    }
}

impl<T, V: Clone> Clone for IdVec<T, V> {
    fn clone(&self) -> Self {
        self.values.clone().into()
    }
}

impl<T, V: PartialEq> PartialEq for IdVec<T, V> {
    fn eq(&self, other: &Self) -> bool {
        self.values == other.values
    }
}

impl<T, V: Eq> Eq for IdVec<T, V> {}

impl<T, V: fmt::Debug> fmt::Debug for IdVec<T, V> {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.values.fmt(formatter)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ids::Design;

    #[test]
    fn a_vector_is_indexed_by_its_own_ids() {
        let mut pieces = IdVec::<Design, i64>::filled(0, 2);
        pieces[Id::new(1)] += 12;
        assert_eq!(pieces.pairs().map(|(id, pieces)| (id.number(), *pieces)).collect::<Vec<_>>(), [(0, 0), (1, 12)]);
        assert_eq!(pieces.get(Id::new(2)), None);
    }
}
