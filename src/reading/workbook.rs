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
mod ods;
mod package;
mod value;
mod xlsx;

use self::feed::Feed;
use self::package::Format;
use super::cells::{Cells, Known};
use super::problem::{Place, Problem};
use super::specification::{ColumnSpecification, Kind, TableSpecification};
use std::collections::BTreeMap;
use std::io::Cursor;

const fn column(name: &'static str, required: bool, meaning: &'static str, example: &'static str) -> ColumnSpecification {
    ColumnSpecification { name, also: None, kind: Kind::Text, required, filled: false, carried: false, meaning, example }
}

/// A sheet of settings, in place of `shop.toml`.
pub const SETTINGS: TableSpecification = TableSpecification {
    name: "settings",
    is_log: false,
    meaning: "one row for each setting",
    everyday: &[],
    columns: &[
        column("setting", true, "its key, as in shop.toml", "wage.target"),
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

/// An open workbook.
pub struct Workbook<'a> {
    bytes: &'a [u8],
    sheets: Vec<Sheet>,
    opened: Opened<'a>,
}

enum Opened<'a> {
    Xlsx(Box<calamine::Xlsx<Cursor<&'a [u8]>>>),
    Ods,
}

impl<'a> Workbook<'a> {
    /// Opens a workbook; `file` is what to call it in a problem.
    ///
    /// # Errors
    /// The problem of a file that is no workbook, is broken, protected by a password, or beyond the bounds.
    pub fn open(file: &str, bytes: &'a [u8]) -> Result<Self, Box<Problem>> {
        let opened = package::check(bytes).and_then(|format| match format {
            Format::Xlsx => xlsx::open(bytes).map(|(xlsx, sheets)| (Opened::Xlsx(Box::new(xlsx)), sheets)),
            Format::Ods => Ok((Opened::Ods, ods::sheets(bytes)?)),
        });
        opened.map(|(opened, sheets)| Self { bytes, sheets, opened }).map_err(|fault| Box::new(fault.problem(file)))
    }

    /// Its sheets, in the order of their tabs.
    #[must_use]
    pub fn sheets(&self) -> &[Sheet] {
        &self.sheets
    }

    /// The cells of a sheet, read as a table; `file` is what to call the sheet in a problem. What is wrong is among the problems of the
    /// cells, each with the sheet's row and, of one cell, the letter of its column.
    pub fn cells(&mut self, sheet: &Sheet, file: &str, known: Known) -> Cells {
        let mut feed = Feed::new(file, known);
        let read = match &mut self.opened {
            Opened::Xlsx(xlsx) => xlsx::rows(xlsx, self.bytes, &sheet.name, &mut feed),
            Opened::Ods => ods::rows(self.bytes, &sheet.name, &mut feed),
        };
        feed.finish(read)
    }

    /// The settings of a sheet with the headings setting, value and meaning, in the order of rows, and what is wrong with it. A setting
    /// without a value is not set.
    pub fn settings(&mut self, sheet: &Sheet, file: &str) -> (Vec<Setting>, Vec<Problem>) {
        let cells = self.cells(sheet, file, Known { specification: &SETTINGS, columns: &BTreeMap::new() });
        let column = |name: &str| {
            let at = cells.headings.iter().position(|heading| SETTINGS.column(heading) == SETTINGS.column(name));
            at.map(|at| cells.column(at).map(str::to_owned).collect::<Vec<String>>()).unwrap_or_default()
        };
        let rows = cells.places().iter().zip(column("setting")).zip(column("value"));
        let settings = rows.map(|((place, key), value)| Setting { place: *place, key, value });
        (settings.filter(|setting| !setting.key.is_empty() && !setting.value.is_empty()).collect(), cells.problems)
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
