//! The names that ids stand for.

use super::id::Id;
use std::collections::HashMap;
use std::fmt;

/// The names of all `T`: each kept once and found by its id, in the order first met or sorted.
pub struct Names<T> {
    list: Vec<Box<str>>,
    ids: HashMap<Box<str>, Id<T>>,
}

impl<T> Names<T> {
    /// Returns the id of `name`, adding the name if it is new.
    pub(crate) fn intern(&mut self, name: &str) -> Id<T> {
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
        let ids = self.ids.into_iter().map(|(name, id)| (name, Id::new(id.number()))).collect();
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
    pub(crate) fn pairs(&self) -> impl ExactSizeIterator<Item = (Id<T>, &str)> {
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
    use crate::ids::Design;

    #[test]
    fn each_name_is_kept_once_and_sorted_ids_compare_as_names() {
        let mut names = Names::<Design>::default();
        let ids: Vec<_> = ["moth", "bell", "moth"].map(|text| names.intern(text)).into();
        assert_eq!((ids[0], names.len(), names.text(ids[1])), (ids[2], 2, "bell"));
        let sorted = Names::<Design>::sorted(["moth", "bell", "moth"]);
        assert!(sorted.find("bell") < sorted.find("moth"));
        assert_eq!(sorted.find("fox"), None);
    }
}
