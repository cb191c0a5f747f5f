//! Interned text: each different text of a column is kept once and stands in rows as a number.

use std::collections::HashMap;

/// A text's number in its [`Names`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Name(
    /// Place in the list.
    pub u32,
);

/// The different texts of a column, in the order they were met, or sorted.
#[derive(Debug, Clone, Default)]
pub struct Names {
    list: Vec<Box<str>>,
    numbers: HashMap<Box<str>, Name>,
}

impl Names {
    /// The number of `text`, new if it was not met before.
    pub fn intern(&mut self, text: &str) -> Name {
        if let Some(name) = self.numbers.get(text) {
            return *name;
        }
        let name = Name(u32::try_from(self.list.len()).unwrap_or(u32::MAX));
        self.list.push(text.into());
        self.numbers.insert(text.into(), name);
        name
    }

    /// A list of different texts, sorted, so that numbers compare as their texts do.
    pub fn sorted<'a>(texts: impl IntoIterator<Item = &'a str>) -> Self {
        let mut names = Self::default();
        let mut texts: Vec<&str> = texts.into_iter().collect();
        texts.sort_unstable();
        for text in texts {
            names.intern(text);
        }
        names
    }

    /// The number of a known text.
    #[must_use]
    pub fn find(&self, text: &str) -> Option<Name> {
        self.numbers.get(text).copied()
    }

    /// The text of a number of this list.
    #[must_use]
    pub fn text(&self, name: Name) -> &str {
        self.list.get(name.0 as usize).map_or("", |text| text)
    }

    /// All texts, in the order of their numbers.
    pub fn iter(&self) -> impl ExactSizeIterator<Item = &str> {
        self.list.iter().map(AsRef::as_ref)
    }

    /// How many there are.
    #[must_use]
    pub fn len(&self) -> usize {
        self.list.len()
    }

    /// Whether there are none.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.list.is_empty()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_text_is_kept_once_and_sorted_numbers_compare_as_texts() {
        let mut names = Names::default();
        let numbers: Vec<_> = ["moth", "bell", "moth"].map(|text| names.intern(text)).into();
        assert_eq!((numbers[0], names.len(), names.text(numbers[1])), (numbers[2], 2, "bell"));
        let sorted = Names::sorted(["moth", "bell", "moth"]);
        assert!(sorted.find("bell") < sorted.find("moth"));
        assert_eq!(sorted.find("fox"), None);
    }
}
