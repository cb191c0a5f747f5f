//! Which columns of a source are known: those of its table, under our headings or the shop's own.

use super::folding;
use super::headings::called;
use super::specification::TableSpecification;
use std::collections::{BTreeMap, BTreeSet};

/// The headings are looked for in so many rows, blank ones not counted.
pub const HEADINGS_WITHIN: usize = 20;

/// The table that a source holds and the shop's own headings of it.
#[derive(Debug, Clone, Copy)]
pub struct Known<'a> {
    /// The table.
    pub specification: &'a TableSpecification,
    /// The shop's own headings, each with the column it stands for.
    pub columns: &'a BTreeMap<String, String>,
}

impl Known<'_> {
    /// The column that a heading stands for, by its place in the specification.
    #[must_use]
    pub fn column(&self, heading: &str) -> Option<usize> {
        let folded = folding::word(heading);
        let ours = self.columns.iter().find(|(theirs, _)| folding::word(theirs) == folded).map_or(heading, |(_, ours)| ours);
        self.specification.column(ours)
    }

    /// The columns that the cells of a row name, if only by an everyday word, by their places in the specification.
    #[must_use]
    pub fn named<T: AsRef<str>>(&self, row: &[T]) -> BTreeSet<usize> {
        let by_word = |cell: &str| called(self.specification, cell).first().and_then(|column| self.specification.column(column));
        row.iter().filter_map(|cell| self.column(cell.as_ref()).or_else(|| by_word(cell.as_ref()))).collect()
    }

    /// How many columns the cells of a row name, each counted once.
    #[must_use]
    pub(crate) fn recognised<T: AsRef<str>>(&self, row: &[T]) -> usize {
        self.named(row).len()
    }

    /// Which of the first rows holds the headings: the first that names two columns or more, else the first that is not blank.
    #[must_use]
    pub fn headings<T: AsRef<str>>(&self, rows: &[Vec<T>]) -> usize {
        let filled = || rows.iter().enumerate().filter(|(_, row)| row.iter().any(|cell| !cell.as_ref().trim().is_empty()));
        let named = filled().take(HEADINGS_WITHIN).find(|(_, row)| self.recognised(row) >= 2);
        named.or_else(|| filled().next()).map_or(0, |(at, _)| at)
    }
}
