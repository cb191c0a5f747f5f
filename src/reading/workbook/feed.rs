//! Feeds the rows of a sheet to the builder of cells: it finds the headings, turns each value into text by the kind of its column, and
//! gives every row below a cell merged downwards that cell's value.

use super::letters;
use super::package::{Fault, MOST_CELLS, MOST_COLUMNS, MOST_ROWS};
use super::value::{Epoch, Value};
use crate::reading::cells::{Cells, CellsBuilder, HEADINGS_WITHIN, Known};
use crate::reading::problem::{Place, Problem};
use crate::reading::problem_kind::{EMPTY_FILE, ERROR_CELL, UNWORKED_FORMULA};
use crate::reading::specification::Kind;

/// A cell of a sheet.
#[derive(Debug, Clone)]
pub(super) struct SheetCell {
    /// Its column, from 0.
    pub(super) column: u32,
    pub(super) value: Value,
    /// How many rows it is merged over, its own included.
    pub(super) rows: u32,
    /// Whether it shows fewer digits of a number than it holds.
    pub(super) is_shortened: bool,
}

/// A row of a sheet.
#[derive(Debug, Clone, Default)]
pub(super) struct SheetRow {
    /// Its number, from 0.
    pub(super) number: u32,
    /// Its cells that are not blank, from left to right.
    pub(super) cells: Vec<SheetCell>,
    pub(super) is_hidden: bool,
}

/// A cell merged downwards over rows that are yet to come.
struct Merged {
    column: usize,
    last_row: u32,
    value: Value,
}

/// What becomes of a sheet's rows.
pub(super) struct Feed<'a> {
    known: Known<'a>,
    builder: CellsBuilder<'a>,
    /// The rows that may hold the headings, until these are found.
    first: Option<Vec<SheetRow>>,
    /// Whether the rows below them are of no interest.
    only_headings: bool,
    merged: Vec<Merged>,
    cells: usize,
    last_row: Option<u32>,
    /// How days are counted.
    pub(super) epoch: Epoch,
    /// The columns that are hidden, as ranges from the first to the last.
    pub(super) hidden_columns: Vec<(u32, u32)>,
}

impl<'a> Feed<'a> {
    pub(super) fn new(file: &str, known: Known<'a>) -> Self {
        Self {
            known,
            builder: CellsBuilder::new(file, known),
            first: Some(Vec::new()),
            only_headings: false,
            merged: Vec::new(),
            cells: 0,
            last_row: None,
            epoch: Epoch::default(),
            hidden_columns: Vec::new(),
        }
    }

    /// A feed that takes no more rows than may hold the headings.
    pub(super) fn of_headings(known: Known<'a>) -> Self {
        Self { only_headings: true, ..Self::new("", known) }
    }

    /// Whether no further row is of interest.
    pub(super) fn is_sated(&self) -> bool {
        self.only_headings && self.first.as_ref().is_some_and(|first| first.len() >= HEADINGS_WITHIN)
    }

    /// The first rows as text.
    pub(super) fn first_rows(&self) -> Vec<Vec<String>> {
        self.first.iter().flatten().map(|row| self.texts(row, None).0).collect()
    }

    /// Takes the next row; rows come from the top down, and rows that say nothing need not come.
    ///
    /// # Errors
    /// Where the sheet is beyond the bounds or its rows are out of order.
    pub(super) fn row(&mut self, mut row: SheetRow) -> Result<(), Fault> {
        row.cells.retain(|cell| !cell.value.is_blank());
        let Some(last) = row.cells.last() else { return Ok(()) };
        self.cells += row.cells.len();
        if row.number >= MOST_ROWS || last.column >= MOST_COLUMNS || self.cells > MOST_CELLS {
            return Err(Fault::TooManyCells);
        }
        if self.last_row.is_some_and(|last| last >= row.number) {
            return Err(Fault::Broken);
        }
        self.last_row = Some(row.number);
        match &mut self.first {
            None => self.data(&row),
            Some(first) => {
                first.push(row);
                if first.len() >= HEADINGS_WITHIN && !self.only_headings {
                    self.find_headings();
                }
            }
        }
        Ok(())
    }

    fn find_headings(&mut self) {
        let first = self.first.take().unwrap_or_default();
        let rows: Vec<Vec<String>> = first.iter().map(|row| self.texts(row, None).0).collect();
        let at = self.known.headings(&rows);
        self.builder.cells_mut().titles = at.min(rows.len());
        if let Some(headings) = rows.get(at) {
            self.builder.set_headings(headings.iter().map(String::as_str));
        }
        for row in first.get(at + 1..).unwrap_or_default() {
            self.data(row);
        }
    }

    /// The text of each cell up to the last or to a width, by the kinds of their columns, and how many were rounded.
    fn texts(&self, row: &SheetRow, width: Option<usize>) -> (Vec<String>, usize) {
        let own = row.cells.last().map_or(0, |cell| cell.column as usize + 1);
        let (mut texts, mut rounded) = (vec![String::new(); width.unwrap_or(own)], 0);
        for cell in &row.cells {
            if let Some(text) = texts.get_mut(cell.column as usize) {
                let (written, is_rounded) = cell.value.text(self.builder.kind(cell.column as usize), self.epoch);
                *text = written;
                rounded += usize::from(is_rounded);
            }
        }
        (texts, rounded)
    }

    fn data(&mut self, row: &SheetRow) {
        let width = self.builder.cells().headings.len();
        let (mut texts, rounded) = self.texts(row, Some(width));
        let place = Place::of_row(row.number + 1, row.number + 1);
        if texts.iter().all(String::is_empty) {
            return;
        }
        self.merged.retain(|merged| merged.last_row >= row.number);
        let mut held = 0;
        for merged in self.merged.iter().filter(|merged| texts[merged.column].is_empty()).collect::<Vec<_>>() {
            texts[merged.column] = merged.value.text(self.builder.kind(merged.column), self.epoch).0;
            held += 1;
        }
        for cell in row.cells.iter().filter(|cell| cell.rows > 1 && self.builder.kind(cell.column as usize).is_some()) {
            let last_row = row.number.saturating_add(cell.rows - 1);
            self.merged.push(Merged { column: cell.column as usize, last_row, value: cell.value.clone() });
        }
        let slices: Vec<&str> = texts.iter().map(String::as_str).collect();
        let faults: Vec<Problem> = row.cells.iter().filter_map(|cell| self.fault(cell, place)).collect();
        if !faults.is_empty() && !self.builder.is_total(&slices) {
            self.builder.cells_mut().problems.extend(faults);
            return;
        }
        let before = self.builder.cells().places().len();
        self.builder.push_row(place, &slices);
        let shortened = row.cells.iter().filter(|cell| cell.is_shortened && self.is_counted(cell)).count();
        let cells = self.builder.cells_mut();
        if cells.places().len() > before {
            cells.sheet.hidden_rows += usize::from(row.is_hidden);
            cells.sheet.merged += held;
            cells.sheet.rounded += rounded;
            cells.sheet.shortened += shortened;
        }
    }

    /// Whether a cell is of a known column in which a number is a number, and no day or text.
    fn is_counted(&self, cell: &SheetCell) -> bool {
        self.builder
            .kind(cell.column as usize)
            .is_some_and(|kind| !matches!(kind, Kind::Text | Kind::Unit | Kind::Day | Kind::Time | Kind::TimeOrSpan))
    }

    /// The problem of a cell in a known column whose formula failed or was never worked out; it names the column by heading and letter.
    fn fault(&self, cell: &SheetCell, place: Place) -> Option<Problem> {
        let column = cell.column as usize;
        self.builder.kind(column)?;
        let cells = self.builder.cells();
        let problem = match &cell.value {
            Value::Error(shown) => {
                let problem = Problem::of_file(&ERROR_CELL, &cells.file, "is a formula that failed").found(shown);
                problem.instead("correct the formula, or type the value in its place")
            }
            Value::Unworked => {
                let problem = Problem::of_file(&UNWORKED_FORMULA, &cells.file, "the formula was saved without its value");
                problem.instead("open the workbook in your spreadsheet and save it, so that the values are kept")
            }
            _ => return None,
        };
        Some(problem.at(place).column(&format!("{} ({})", letters(column), cells.headings[column])))
    }

    /// The cells, or what kept the sheet from being read.
    pub(super) fn finish(mut self, read: Result<(), Fault>) -> Cells {
        if self.first.is_some() {
            self.find_headings();
        }
        let file = self.builder.cells().file.clone();
        let of_problem = |problem| Cells::unreadable(&file, problem);
        if let Err(fault) = read {
            return of_problem(fault.problem(&file));
        }
        if self.builder.cells().headings.is_empty() {
            let problem = Problem::of_file(&EMPTY_FILE, &file, "the sheet is empty");
            return of_problem(problem.instead("write the headings in its first row"));
        }
        let is_hidden = |at: u32| self.hidden_columns.iter().any(|(first, last)| (*first..=*last).contains(&at));
        let width = u32::try_from(self.builder.cells().headings.len()).unwrap_or(0);
        let hidden = (0..width).filter(|at| is_hidden(*at) && self.builder.kind(*at as usize).is_some()).count();
        self.builder.cells_mut().sheet.hidden_columns = hidden;
        self.builder.finish()
    }
}
