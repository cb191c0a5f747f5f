//! Workbooks: the sheets of an `.xlsx` or `.ods` file as cells.
//!
//! A typed cell becomes text that explains itself, whatever its format on screen, so that no question of formats arises from it: a day is
//! `2026-09-03`, a time `18:30`, a time span `1 h 35 min`, a percentage `10 %`, a boolean `true`, a number its shortest decimal text at
//! the 15 significant digits that a spreadsheet shows. A formula gives the value kept with it.
//!
//! An `.xlsx` sheet is read by calamine; an `.ods` sheet from its XML, because calamine does not tell percentages, merged and hidden cells.
//!
//! # Bounds
//! A workbook may unpack to 1 GB, and to 200 times its own size where that is more than 100 MB; a sheet may have 1,048,576 rows, 16,384
//! columns and 50 million cells that are not blank. Anything larger is refused before it is read.

mod feed;
mod look;
mod number_format;
mod ods;
mod package;
mod value;
mod xlsx;

pub use self::look::Look;

use self::feed::Feed;
use self::package::Format;
use super::cells::{Cells, Known};
use super::problem::{Place, Problem, SETTINGS_SHEET};
use super::specification::{ColumnSpecification, Kind, TableSpecification};
use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, PoisonError};

const fn column(name: &'static str, required: bool, meaning: &'static str, example: &'static str) -> ColumnSpecification {
    ColumnSpecification { name, also: None, kind: Kind::Text, required, filled: false, carried: false, meaning, example }
}

/// A sheet of settings, in place of `shop.toml`.
pub const SETTINGS: TableSpecification = TableSpecification {
    name: SETTINGS_SHEET,
    is_log: false,
    meaning: "one row for each setting",
    everyday: &[],
    columns: &[
        column("setting", true, "its key, with a point after each section", "wage.target"),
        column("value", true, "its value", "20.00"),
        column("meaning", false, "what it means", "pay per hour aimed at"),
    ],
};

/// A setting as a sheet writes it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Setting {
    /// Its row.
    pub place: Place,
    /// Its key; never blank.
    pub key: String,
    /// Its value as text; never blank.
    pub value: String,
}

/// A sheet of a workbook.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sheet {
    /// Its name.
    pub name: String,
    /// Whether it is hidden.
    pub is_hidden: bool,
}

/// An open workbook: opened once, and each sheet read once for each way of reading it, however often its cells are asked for.
///
/// What is kept of a sheet is its [`Cells`], in which nothing stands of headings that are of no column. Clones share all of it.
#[derive(Clone)]
pub struct Workbook {
    shared: Arc<Shared>,
}

struct Shared {
    bytes: Arc<[u8]>,
    sheets: Vec<Sheet>,
    opened: Mutex<Opened>,
    read: Mutex<BTreeMap<Read, Arc<Cells>>>,
}

/// A way of reading a sheet: its name, the table it holds, what to call it, and the headings that stand for columns.
type Read = (String, &'static str, String, BTreeMap<String, String>);

enum Opened {
    Xlsx(Box<number_format::Book>),
    Ods,
}

impl Workbook {
    /// Opens a workbook; `file` is what to call it in a problem.
    ///
    /// # Errors
    /// The problem of a file that is no workbook, is broken, protected by a password, or beyond the bounds.
    pub fn open(file: &str, bytes: &Arc<[u8]>) -> Result<Self, Box<Problem>> {
        let opened = package::check(bytes).and_then(|format| match format {
            Format::Xlsx => xlsx::open(bytes).map(|(xlsx, sheets)| (Opened::Xlsx(Box::new(xlsx)), sheets)),
            Format::Ods => Ok((Opened::Ods, ods::sheets(bytes)?)),
        });
        let (opened, sheets) = opened.map_err(|fault| Box::new(fault.problem(file)))?;
        let (bytes, opened, read) = (Arc::clone(bytes), Mutex::new(opened), Mutex::default());
        Ok(Self { shared: Arc::new(Shared { bytes, sheets, opened, read }) })
    }

    /// Its sheets, in the order of their tabs.
    #[must_use]
    pub fn sheets(&self) -> &[Sheet] {
        &self.shared.sheets
    }

    /// The cells of a sheet, read as a table; `file` is what to call the sheet in a problem. What is wrong is among the problems of the
    /// cells, each with the sheet's row and, of one cell, the letter of its column.
    #[must_use]
    pub fn cells(&self, sheet: &str, file: &str, known: Known) -> Arc<Cells> {
        let key = (sheet.to_owned(), known.specification.name, file.to_owned(), known.columns.clone());
        let mut kept = self.shared.read.lock().unwrap_or_else(PoisonError::into_inner);
        let cells = kept.entry(key).or_insert_with(|| {
            let mut feed = Feed::new(file, known);
            let read = self.rows(sheet, &mut feed);
            Arc::new(feed.finish(read))
        });
        Arc::clone(cells)
    }

    /// Feeds the rows of a sheet.
    fn rows(&self, sheet: &str, feed: &mut Feed) -> Result<(), package::Fault> {
        match &mut *self.shared.opened.lock().unwrap_or_else(PoisonError::into_inner) {
            Opened::Xlsx(xlsx) => xlsx::rows(xlsx, &self.shared.bytes, sheet, feed),
            Opened::Ods => ods::rows(&self.shared.bytes, sheet, feed),
        }
    }

    /// The settings of a sheet with the headings setting, value and meaning, in the order of rows, and what is wrong with it. A setting
    /// without a value is not set.
    #[must_use]
    pub fn settings(&self, sheet: &str, file: &str) -> (Vec<Setting>, Vec<Problem>) {
        let cells = self.cells(sheet, file, Known { specification: &SETTINGS, columns: &BTreeMap::new() });
        let column = |name: &str| {
            let at = cells.headings.iter().position(|heading| SETTINGS.column(heading) == SETTINGS.column(name));
            at.map(|at| cells.column(at).map(str::to_owned).collect::<Vec<String>>()).unwrap_or_default()
        };
        let rows = cells.places().iter().zip(column("setting")).zip(column("value"));
        let settings = rows.map(|((place, key), value)| Setting { place: *place, key, value });
        (settings.filter(|setting| !setting.key.is_empty() && !setting.value.is_empty()).collect(), cells.problems.clone())
    }
}

impl std::fmt::Debug for Workbook {
    /// Its sheets; never what is in them.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Workbook").field("sheets", &self.shared.sheets).finish_non_exhaustive()
    }
}

/// The letters of a column, counted from 0: A, B, … Z, AA, …
#[must_use]
pub fn letters(column: usize) -> String {
    let last = char::from(b'A' + u8::try_from(column % 26).unwrap_or(0));
    if column < 26 { last.to_string() } else { format!("{}{last}", letters(column / 26 - 1)) }
}

#[cfg(test)]
mod tests;
