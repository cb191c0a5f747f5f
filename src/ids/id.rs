//! Typed ids: the index of one kind of thing.

use std::cmp::Ordering;
use std::fmt;
use std::hash::{Hash, Hasher};
use std::marker::PhantomData;

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

/// The index of a `T`. Where its [`Names`](super::Names) are sorted, ids compare as the names do.
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
