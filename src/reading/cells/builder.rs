//! Builds the cells of a source, row by row, whatever it is written as.

use super::{Cells, Known, totals};
use crate::reading::example::is_example;
use crate::reading::problem::{Place, Problem};
use crate::reading::problem_kind::{FILE_TOO_LARGE, NOT_COMMAS, NOT_UTF8, RAGGED_ROW};
use crate::reading::separator::Separator;
use crate::reading::specification::{ColumnSpecification, Kind};

/// Builds [`Cells`]: the headings first, then each row.
///
/// Only cells of known columns are kept, and no problem repeats the text of a cell.
#[derive(Debug)]
pub struct CellsBuilder<'a> {
    known: Known<'a>,
    cells: Cells,
    /// What each heading stands for.
    columns: Vec<Option<&'static ColumnSpecification>>,
    /// The width without the headings that are blank at the end.
    width: usize,
    /// By heading: rows that have no text there.
    blanks: Vec<usize>,
    /// Whether some row is written with a blank cell at its end.
    writes_blank_ends: bool,
    /// Rows of a text file with fewer or more cells than headings: their index among the rows, and how many cells.
    uneven: Vec<(usize, usize)>,
    is_full: bool,
}

impl<'a> CellsBuilder<'a> {
    /// A builder without headings yet; `file` is what to call the source in a problem.
    #[must_use]
    pub fn new(file: &str, known: Known<'a>) -> Self {
        Self {
            known,
            cells: Cells { file: file.to_owned(), ..Cells::default() },
            columns: Vec::new(),
            width: 0,
            blanks: Vec::new(),
            writes_blank_ends: false,
            uneven: Vec::new(),
            is_full: false,
        }
    }

    /// The cells so far.
    #[must_use]
    pub fn cells(&self) -> &Cells {
        &self.cells
    }

    /// The cells so far, to fill in what else is known of the source.
    pub(crate) fn cells_mut(&mut self) -> &mut Cells {
        &mut self.cells
    }

    /// Sets the headings, in place of any before.
    pub(crate) fn set_headings<'t>(&mut self, headings: impl Iterator<Item = &'t str>) {
        self.cells.headings = headings.map(|heading| heading.trim().to_owned()).collect();
        let headings = &self.cells.headings;
        let columns: &'static [ColumnSpecification] = self.known.specification.columns;
        self.columns = headings.iter().map(|heading| self.known.column(heading).map(|at| &columns[at])).collect();
        self.width = headings.iter().rposition(|heading| !heading.is_empty()).map_or(0, |last| last + 1);
        self.blanks = vec![0; headings.len()];
        self.cells.columns = vec![Vec::new(); headings.len()];
        self.cells.kept = self.columns.iter().map(Option::is_some).collect();
    }

    /// What the cells under a heading hold; `None` where they are not kept.
    #[must_use]
    pub fn kind(&self, heading: usize) -> Option<Kind> {
        self.columns.get(heading).copied().flatten().map(|column| column.kind)
    }

    /// Whether a row would be left out as a TOTAL row.
    #[must_use]
    pub(crate) fn is_total(&self, row: &[&str]) -> bool {
        totals::is_total(row, &self.columns)
    }

    /// Adds a row of trimmed cells; a blank row and an example are none, and a TOTAL row is left out and listed.
    ///
    /// A row of a text file that holds something past the headings, or is broken in a known column, becomes a problem and is left out, and
    /// [`Self::finish`] judges rows of other widths. In a workbook, whose rows have no width of their own, they are notes that stand under no heading, and fewer cells than
    /// headings are blank ones. In a text file fewer are well only where [`Self::finish`] finds that its writer leaves blank cells out.
    pub(crate) fn push_row(&mut self, place: Place, row: &[&str]) {
        let is_text = self.cells.separator.is_some();
        let row = if is_text { row } else { &row[..row.len().min(self.cells.headings.len())] };
        let Some(last) = row.iter().rposition(|cell| !cell.is_empty()) else { return };
        if is_example(row) {
            self.cells.examples += 1;
            return;
        }
        if self.is_total(row) {
            self.cells.left_out.push(place);
            return;
        }
        if last >= self.cells.headings.len() {
            let problem = self.ragged(place, row.len());
            self.cells.problems.push(problem);
            return;
        }
        if self.cells.has_broken_letters && row.iter().zip(&self.columns).any(|(cell, column)| column.is_some() && is_broken(cell)) {
            let problem = broken_letters(&self.cells.file).at(place);
            self.cells.problems.push(problem);
            return;
        }
        if is_text && !(self.width..=self.cells.headings.len()).contains(&row.len()) {
            self.uneven.push((self.cells.places.len(), row.len()));
        }
        self.writes_blank_ends |= last + 1 < row.len();
        for (at, blanks) in self.blanks.iter_mut().enumerate() {
            let cell = row.get(at).copied().unwrap_or_default();
            *blanks += usize::from(cell.is_empty());
            if self.columns[at].is_some() {
                self.is_full |= !self.cells.push(at, cell);
            }
        }
        self.cells.places.push(place);
    }

    /// The cells.
    ///
    /// In a text file, a row with fewer or more cells than headings is well only where its writer writes such rows, because one alone is a
    /// slip that moves cells under other headings. A row may end early where no row of the file ends in a blank cell, and each column that
    /// the row lacks is blank in more than half of the other rows. A row may go on with blank cells where two rows or more do, and none
    /// is as wide as the headings. Any other is a problem.
    #[must_use]
    pub fn finish(mut self) -> Cells {
        let (rows, headings) = (self.cells.places.len(), self.cells.headings.len());
        let long = self.uneven.iter().filter(|(_, found)| *found > headings).count();
        let goes_on = long >= 2 && rows == self.uneven.len();
        let mostly_blank = |column: usize| 2 * (self.blanks[column] - 1) > rows - 1;
        let is_well = |found: usize| {
            if found > headings { goes_on } else { !self.writes_blank_ends && (found..self.width).all(mostly_blank) }
        };
        let cut: Vec<(usize, usize)> = self.uneven.iter().filter(|(_, found)| !is_well(*found)).copied().collect();
        let problems: Vec<Problem> = cut.iter().map(|(row, found)| self.ragged(self.cells.places[*row], *found)).collect();
        self.cells.problems.extend(problems);
        self.cells.remove(&cut.iter().map(|(row, _)| *row).collect::<Vec<usize>>());
        self.cells.ended_early = self.uneven.iter().filter(|(_, found)| *found < headings && is_well(*found)).count();
        self.cells.problems.sort_by_key(|problem| problem.place);
        if self.is_full {
            let problem = Problem::of_file(&FILE_TOO_LARGE, &self.cells.file, "its text is larger than 4 GB");
            let problem = problem.instead("keep only the latest years in it");
            self.cells = Cells { file: self.cells.file, problems: vec![problem], ..Cells::default() };
        }
        self.cells
    }

    fn ragged(&self, place: Place, found: usize) -> Problem {
        let expected = self.cells.headings.len();
        let cells = if found == 1 { "cell" } else { "cells" };
        let problem =
            Problem::of_file(&RAGGED_ROW, &self.cells.file, format!("the row has {found} {cells} and the headings have {expected}"));
        let separator = self.cells.separator.unwrap_or(Separator::Comma);
        let advice = format!("put double quotes around a cell that holds a {separator}, and write a {separator} for each blank cell");
        problem.at(place).instead(advice)
    }
}

/// Whether U+FFFD stands for letters that could not be decoded.
pub(super) fn is_broken(cell: &str) -> bool {
    cell.contains('\u{FFFD}')
}

/// The problem of letters that are not of the file's encoding.
pub(super) fn broken_letters(file: &str) -> Problem {
    let problem = Problem::of_file(&NOT_UTF8, file, "the row has letters that are not UTF-8");
    problem.instead("save the file as CSV UTF-8 from your spreadsheet")
}

/// The problem of a file whose separator is none of those that are read.
pub(super) fn unknown_separator(file: &str, sign: char) -> Problem {
    let problem = Problem::of_file(&NOT_COMMAS, file, format!("the columns are separated by '{sign}'"));
    problem.instead("save it as CSV with commas between columns")
}
