//! Typed ids, the names they stand for, and vectors indexed by them: an order's id cannot be used for a design.

use std::cmp::Ordering;
use std::collections::HashMap;
use std::fmt;
use std::hash::{Hash, Hasher};
use std::marker::PhantomData;
use std::ops::{Deref, Index, IndexMut};

/// A design of the shop.
pub enum Design {}
/// A price tier.
pub enum Tier {}
/// An order.
pub enum Order {}
/// An item of stock: bought, counted or used.
pub enum Item {}
/// A stage of work.
pub enum Stage {}
/// A helper.
pub enum Helper {}
/// A sales channel.
pub enum Channel {}
/// A theme of a set.
pub enum Theme {}
/// A receipt, which several purchases may share.
pub enum Receipt {}
/// A file, or a sheet of a workbook, that rows are read from.
pub enum Source {}
/// A distinct text in a column, before it is known what it names.
pub enum Text {}

/// The index of a `T`. Where its [`Names`] are sorted, ids compare as the names do.
pub struct Id<T> {
    number: u32,
    of: PhantomData<fn() -> T>,
}

impl<T> Id<T> {
    /// Makes the id with this number.
    #[must_use]
    pub const fn new(number: u32) -> Self {
        Self { number, of: PhantomData }
    }

    /// Returns its number, as a frame's column stores it.
    #[must_use]
    pub const fn number(self) -> u32 {
        self.number
    }

    /// Returns its index in a vector by id.
    #[must_use]
    pub const fn index(self) -> usize {
        self.number as usize
    }

    /// Lists the first `count` ids.
    #[must_use]
    pub fn first(count: usize) -> impl ExactSizeIterator<Item = Self> + DoubleEndedIterator + Clone {
        let count = u32::try_from(count).unwrap_or(u32::MAX);
        (0..count as usize).map(|number| Self::new(u32::try_from(number).unwrap_or(u32::MAX)))
    }
}

impl<T> Clone for Id<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T> Copy for Id<T> {}

impl<T> PartialEq for Id<T> {
    fn eq(&self, other: &Self) -> bool {
        self.number == other.number
    }
}

impl<T> Eq for Id<T> {}

impl<T> PartialOrd for Id<T> {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl<T> Ord for Id<T> {
    fn cmp(&self, other: &Self) -> Ordering {
        self.number.cmp(&other.number)
    }
}

impl<T> Hash for Id<T> {
    fn hash<H: Hasher>(&self, state: &mut H) {
        self.number.hash(state);
    }
}

impl<T> fmt::Debug for Id<T> {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(formatter, "#{}", self.number)
    }
}

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
    pub fn pairs(&self) -> impl ExactSizeIterator<Item = (Id<T>, &V)> {
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

/// The names of all `T`: each kept once and found by its id, in the order first met or sorted.
pub struct Names<T> {
    list: Vec<Box<str>>,
    ids: HashMap<Box<str>, Id<T>>,
}

impl<T> Names<T> {
    /// Returns the id of `name`, adding the name if it is new.
    pub fn intern(&mut self, name: &str) -> Id<T> {
        if let Some(id) = self.ids.get(name) {
            return *id;
        }
        let id = Id::new(u32::try_from(self.list.len()).unwrap_or(u32::MAX));
        self.list.push(name.into());
        self.ids.insert(name.into(), id);
        id
    }

    /// Collects the distinct names in sorted order, so that ids compare as the names do.
    pub fn sorted<'a>(names: impl IntoIterator<Item = &'a str>) -> Self {
        let mut sorted = Self::default();
        let mut names: Vec<&str> = names.into_iter().collect();
        names.sort_unstable();
        for name in names {
            sorted.intern(name);
        }
        sorted
    }

    /// Turns the names into those of another kind, once it is known what the texts name.
    #[must_use]
    pub fn of<U>(self) -> Names<U> {
        let ids = self.ids.into_iter().map(|(name, id)| (name, Id::new(id.number))).collect();
        Names { list: self.list, ids }
    }

    /// Returns the id of a name; `None` if it is not among them.
    #[must_use]
    pub fn find(&self, name: &str) -> Option<Id<T>> {
        self.ids.get(name).copied()
    }

    /// Returns the name of an id of this list.
    #[must_use]
    pub fn text(&self, id: Id<T>) -> &str {
        self.list.get(id.index()).map_or("", |name| name)
    }

    /// Lists the names in the order of their ids.
    pub fn iter(&self) -> impl ExactSizeIterator<Item = &str> {
        self.list.iter().map(AsRef::as_ref)
    }

    /// Lists all ids.
    #[must_use]
    pub fn ids(&self) -> impl ExactSizeIterator<Item = Id<T>> + DoubleEndedIterator + Clone + use<T> {
        Id::first(self.list.len())
    }

    /// Lists each id with its name.
    #[must_use]
    pub fn pairs(&self) -> impl ExactSizeIterator<Item = (Id<T>, &str)> {
        self.ids().zip(self.iter())
    }

    /// Returns the number of names.
    #[must_use]
    pub fn len(&self) -> usize {
        self.list.len()
    }

    /// Whether the list is empty.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.list.is_empty()
    }
}

impl<T> Default for Names<T> {
    fn default() -> Self {
        Self { list: Vec::new(), ids: HashMap::new() }
    }
}

impl<T> Clone for Names<T> {
    fn clone(&self) -> Self {
        Self { list: self.list.clone(), ids: self.ids.clone() }
    }
}

impl<T> PartialEq for Names<T> {
    fn eq(&self, other: &Self) -> bool {
        self.list == other.list
    }
}

impl<T> Eq for Names<T> {}

impl<T> fmt::Debug for Names<T> {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.list.fmt(formatter)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_name_is_kept_once_and_sorted_ids_compare_as_names() {
        let mut names = Names::<Design>::default();
        let ids: Vec<_> = ["moth", "bell", "moth"].map(|text| names.intern(text)).into();
        assert_eq!((ids[0], names.len(), names.text(ids[1])), (ids[2], 2, "bell"));
        let sorted = Names::<Design>::sorted(["moth", "bell", "moth"]);
        assert!(sorted.find("bell") < sorted.find("moth"));
        assert_eq!(sorted.find("fox"), None);
    }

    #[test]
    fn a_vector_is_indexed_by_its_own_ids() {
        let mut pieces = IdVec::<Design, i64>::filled(0, 2);
        pieces[Id::new(1)] += 12;
        assert_eq!(pieces.pairs().map(|(id, pieces)| (id.number(), *pieces)).collect::<Vec<_>>(), [(0, 0), (1, 12)]);
        assert_eq!(pieces.get(Id::new(2)), None);
    }
}
