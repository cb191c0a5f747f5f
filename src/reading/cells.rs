//! Cells: the text of one file or sheet, each row with its place.
//!
//! Columns of spans into one arena, so that a million rows cost no million strings. A text file (RFC 4180, and what spreadsheets make of
//! it) is decoded, its separator found, and split by the csv crate; rows and lines are counted here, because that crate's own count is one
//! too low on CRLF files and wrong after blank lines. The sheets of a workbook go through the same [`CellsBuilder`].
//!
//! Only cells of known columns are kept: what stands under other headings may be a customer's name or address, and is gone with its row.

mod builder;
mod rows;
mod spanning;
mod totals;
#[cfg(test)]
pub(super) mod trial;

pub use super::known::{HEADINGS_WITHIN, Known};
pub use builder::CellsBuilder;

use self::builder::{broken_letters, is_broken, unknown_separator};
use self::rows::{RowCounter, never_closed};
use super::encoding::{self, Encoding};
use super::problem::{Place, Problem};
use super::problem_kind::{EMPTY_FILE, FILE_TOO_LARGE, NOT_TEXT, ProblemKind, Severity, UNCLOSED_QUOTE};
use super::separator::{self, Separator};
use crate::ids::{Id, Source};
use std::cmp::Ordering;

/// What is read otherwise in a sheet of a workbook than in a text file: known columns and the rows that count.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct SheetCounts {
    /// Rows that are hidden, and were read all the same.
    pub hidden_rows: usize,
    /// Columns that are hidden, and were read all the same.
    pub hidden_columns: usize,
    /// Cells that hold the value of a cell merged downwards over them.
    pub merged: usize,
    /// Amounts that had more than six decimals and were rounded to six.
    pub rounded: usize,
    /// Numbers of which the sheet shows fewer digits than the cell holds; all of them count.
    pub shortened: usize,
}

/// The cells of one file or sheet. Cells have no white space around them; blank rows are left out.
#[derive(Debug, Clone, Default)]
pub struct Cells {
    /// What to call the source in a problem.
    pub file: String,
    /// The headings, as written.
    pub headings: Vec<String>,
    /// What is wrong with the file or its rows, before any cell is looked at, in the order of rows.
    pub problems: Vec<Problem>,
    /// How the letters of a text file were written; `None` in a workbook.
    pub encoding: Option<Encoding>,
    /// What stands between the columns of a text file; `None` in a workbook.
    pub separator: Option<Separator>,
    /// Rows above the headings that are not blank, as a title.
    pub titles: usize,
    /// TOTAL rows, which were left out.
    pub left_out: Vec<Place>,
    /// Rows whose writer left out the blank cells at their end.
    pub ended_early: usize,
    /// Example rows, which were left out.
    pub examples: usize,
    /// What only a sheet has.
    pub sheet: SheetCounts,
    arena: String,
    columns: Vec<Vec<(u32, u32)>>,
    /// Which headings stand for a column.
    kept: Vec<bool>,
    places: Vec<Place>,
    has_broken_letters: bool,
}

impl Cells {
    /// Splits a text file into cells. Ragged rows and broken text become problems, and their rows are left out.
    #[must_use]
    pub fn of_csv(file: &str, bytes: &[u8], known: Known) -> Self {
        let of_problem = |problem| Self::unreadable(file, problem);
        let error = |kind: &'static ProblemKind, what: &str| Problem::of_file(kind, file, what);
        let Some(decoded) = encoding::decode(bytes) else {
            let problem = error(&NOT_TEXT, "the file holds bytes that are no text");
            return of_problem(problem.instead("save it as CSV UTF-8 from your spreadsheet"));
        };
        if u32::try_from(decoded.text.len()).is_err() {
            return of_problem(error(&FILE_TOO_LARGE, "the file is larger than 4 GB").instead("keep only the latest years in it"));
        }
        let said = separator::said(&decoded.text);
        let text = &decoded.text[said.map_or(0, |(_, length)| length)..];
        let separator = match said {
            None => separator::choose(text, &known),
            Some((sign, _)) => match Separator::of(sign) {
                Some(separator) => separator,
                None => return of_problem(unknown_separator(file, sign)),
            },
        };
        let mut builder = CellsBuilder::new(file, known);
        let cells = builder.cells_mut();
        (cells.encoding, cells.separator) = (Some(decoded.encoding), Some(separator));
        cells.has_broken_letters = decoded.is_broken;
        if let Err(problem) = read(text, u32::from(said.is_some()) + 1, separator, &known, &mut builder) {
            builder.cells_mut().problems.push(*problem);
        }
        builder.finish()
    }

    /// No cells, because of a problem of the whole source.
    #[must_use]
    pub(crate) fn unreadable(file: &str, problem: Problem) -> Self {
        Self { file: file.to_owned(), problems: vec![problem], ..Self::default() }
    }

    /// Whether nothing is written below the headings, if there are any, and nothing is wrong.
    #[must_use]
    pub(crate) fn is_blank(&self) -> bool {
        self.places.is_empty() && self.problems.iter().all(|problem| *problem.kind == EMPTY_FILE)
    }

    /// The place of each row.
    #[must_use]
    pub fn places(&self) -> &[Place] {
        &self.places
    }

    /// The cells under a heading, row by row; none where the heading stands for no column.
    pub fn column(&self, index: usize) -> impl Iterator<Item = &str> + Clone {
        let spans = self.columns.get(index).map_or(&[][..], Vec::as_slice);
        spans.iter().map(|&(start, length)| &self.arena[start as usize..(start + length) as usize])
    }

    /// Whether the cells under a heading are kept, because it stands for a column.
    #[must_use]
    pub(crate) fn is_kept(&self, index: usize) -> bool {
        self.kept.get(index).copied().unwrap_or(false)
    }

    /// Sets which of several sources the rows are of, in every place.
    #[must_use]
    pub(crate) fn of_source(mut self, source: Id<Source>) -> Self {
        let places = self.problems.iter_mut().filter_map(|problem| problem.place.as_mut());
        for place in self.places.iter_mut().chain(&mut self.left_out).chain(places) {
            place.source = source;
        }
        self
    }

    /// Adds a cell; false where the arena is full.
    fn push(&mut self, column: usize, cell: &str) -> bool {
        let (Ok(start), Ok(length)) = (u32::try_from(self.arena.len()), u32::try_from(cell.len())) else { return false };
        if start.checked_add(length).is_none() {
            return false;
        }
        self.arena.push_str(cell);
        self.columns[column].push((start, length));
        true
    }

    /// Removes rows, by their rising indices.
    fn remove(&mut self, rows: &[usize]) {
        if rows.is_empty() {
            return;
        }
        let stays: Vec<bool> = (0..self.places.len()).map(|row| rows.binary_search(&row).is_err()).collect();
        let mut at = stays.iter();
        self.places.retain(|_| *at.next().unwrap_or(&true));
        for column in self.columns.iter_mut().filter(|column| !column.is_empty()) {
            let mut at = stays.iter();
            column.retain(|_| *at.next().unwrap_or(&true));
        }
    }
}

/// Reads the records of a text that begins on a line of its file.
///
/// # Errors
/// The problem that keeps the rest of the file from being read.
fn read(text: &str, line: u32, separator: Separator, known: &Known, builder: &mut CellsBuilder) -> Result<(), Box<Problem>> {
    let file = builder.cells().file.clone();
    let error = |kind: &'static ProblemKind, what: &str| Problem::of_file(kind, &file, what);
    let headings = known.headings(&rows_to_search(text, separator));
    let mut counter = RowCounter::new(text.as_bytes(), line);
    let mut reader = separator::reader(text, separator);
    let mut record = csv::StringRecord::new();
    let mut records = 0;
    // Reading text from memory cannot fail, and flexible records cannot be unequal.
    while reader.read_record(&mut record).unwrap_or(false) {
        let start = record.position().map_or(0, |position| usize::try_from(position.byte()).unwrap_or(usize::MAX));
        let end = usize::try_from(reader.position().byte()).unwrap_or(usize::MAX);
        let place = counter.place(start, end);
        // A problem of the file and not of the row: leaving the row out would leave out all that follows.
        if end >= text.len() && never_closed(&text.as_bytes()[counter.started..], separator.byte()) {
            return Err(Box::new(
                error(&UNCLOSED_QUOTE, &spanning::never_closed(place, counter.breaks)).instead("close the quote, or remove it"),
            ));
        }
        let row: Vec<&str> = record.iter().map(str::trim).collect();
        let doubtful = spanning::doubtful(builder.cells(), place, counter.breaks, &record, separator).filter(|_| records > headings);
        let swallows_rows = doubtful.as_ref().is_some_and(|problem| problem.severity == Severity::Error);
        builder.cells_mut().problems.extend(doubtful);
        match records.cmp(&headings) {
            Ordering::Greater if swallows_rows => {}
            Ordering::Greater => builder.push_row(place, &row),
            Ordering::Less => builder.cells_mut().titles += usize::from(row.iter().any(|cell| !cell.is_empty())),
            Ordering::Equal if builder.cells().has_broken_letters && row.iter().any(|cell| is_broken(cell)) => {
                return Err(Box::new(broken_letters(&file).at(place)));
            }
            Ordering::Equal => builder.set_headings(row.into_iter()),
        }
        records += 1;
    }
    if builder.cells().headings.iter().all(String::is_empty) {
        *builder.cells_mut() = Cells { file: file.clone(), ..Cells::default() };
        return Err(Box::new(error(&EMPTY_FILE, "the file is empty").instead("write the headings in its first row")));
    }
    Ok(())
}

/// The first records, up to the last that may hold the headings.
fn rows_to_search(text: &str, separator: Separator) -> Vec<Vec<String>> {
    let (mut rows, mut filled) = (Vec::new(), 0);
    for row in separator::reader(text, separator).records().map_while(Result::ok) {
        filled += usize::from(row.iter().any(|cell| !cell.trim().is_empty()));
        rows.push(row.iter().map(|cell| cell.trim().to_owned()).collect());
        if filled == HEADINGS_WITHIN {
            break;
        }
    }
    rows
}

#[cfg(test)]
mod tests;
