//! The account of how one column was read.

use std::collections::BTreeMap;

/// How one column was read.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct ColumnRead {
    /// Its heading, as the file writes it.
    pub heading: String,
    /// The column it stands for.
    pub column: &'static str,
    /// The style of its cells, where they depend on one.
    pub format: Option<String>,
    /// Cells that are not blank.
    pub cells: usize,
    /// Cells that depend on the format and no other format can read.
    pub deciding: usize,
    /// Whether its cells can be read in several formats, so that it asks for one.
    pub is_open: bool,
    /// Dates whose year is that of their neighbours.
    pub years: usize,
    /// Blank cells that are as the one above them.
    pub carried: usize,
    /// Words read as other words, sorted.
    pub words: Vec<WordRead>,
}

/// A word that stands for another one.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct WordRead {
    /// As the file writes it.
    pub found: String,
    /// What it was read as.
    pub read_as: String,
    /// Cells that hold it.
    pub cells: usize,
}

/// Counts the words of a column that are read as other words.
#[derive(Default)]
pub(super) struct Tally(BTreeMap<(String, String), usize>);

impl Tally {
    pub fn note(&mut self, found: &str, read_as: &str) {
        *self.0.entry((found.to_owned(), read_as.to_owned())).or_default() += 1;
    }

    pub fn words(self) -> Vec<WordRead> {
        self.0.into_iter().map(|((found, read_as), cells)| WordRead { found, read_as, cells }).collect()
    }
}
