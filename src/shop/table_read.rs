//! The account of what was read: each table, its files and how their columns were understood.

use super::sources::Source;
use crate::reading::cells::SheetCounts;
use crate::reading::encoding::Encoding;
use crate::reading::separator::Separator;
use crate::reading::table::{ColumnRead, WordRead};
use crate::reading::{Cells, Place, Table};

/// A table as it was found.
#[derive(Debug, Clone)]
pub struct TableRead {
    /// Its name.
    pub table: &'static str,
    /// Its files; none where the shop has no such table.
    pub files: Vec<FileRead>,
    /// Rows that count, of all its files.
    pub rows: usize,
    /// Rows that stand in several files and were counted once.
    pub repeated: usize,
    /// Of these, the rows that say more in one file than in another.
    pub fuller: usize,
    /// Names and charges spelt or meant otherwise than written, by column.
    pub words: Vec<(&'static str, Vec<WordRead>)>,
}

impl FileRead {
    /// A file by its cells and the table they were read as.
    pub(super) fn of(source: &Source<'_>, cells: &Cells, table: &Table) -> Self {
        Self {
            file: source.name.to_owned(),
            is_sheet: source.workbook().is_some(),
            rows: table.rows(),
            ignored: table.ignored.clone(),
            understood: table.understood.clone(),
            encoding: cells.encoding,
            separator: cells.separator,
            titles: cells.titles,
            left_out: cells.left_out.clone(),
            examples: cells.examples,
            sheet: cells.sheet,
        }
    }

    /// Whether a column of it asks for its format.
    pub(super) fn is_open(&self) -> bool {
        self.understood.iter().any(|read| read.is_open)
    }
}

impl TableRead {
    /// Keeps the names of a table that were read as others since its files were read.
    pub(super) fn note(&mut self, table: &Table) {
        let columns = table.understood.iter().filter(|read| !read.words.is_empty());
        self.words = columns.map(|read| (read.column, read.words.clone())).collect();
    }
}

/// One file of a table as it was found.
#[derive(Debug, Clone)]
pub struct FileRead {
    /// Its name.
    pub file: String,
    /// Whether it is a sheet of a workbook.
    pub is_sheet: bool,
    /// Rows read.
    pub rows: usize,
    /// Headings that stand for no column.
    pub ignored: Vec<String>,
    /// How its columns were read.
    pub understood: Vec<ColumnRead>,
    /// How its letters were written; `None` in a workbook.
    pub encoding: Option<Encoding>,
    /// What stands between its columns; `None` in a workbook.
    pub separator: Option<Separator>,
    /// Rows above the headings that were passed over.
    pub titles: usize,
    /// TOTAL rows, which were left out.
    pub left_out: Vec<Place>,
    /// Example rows, which were left out.
    pub examples: usize,
    /// What only a sheet has.
    pub sheet: SheetCounts,
}
