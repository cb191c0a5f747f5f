//! A table: typed columns, read from cells by a specification.

use super::carry::{Filled, OF_A_RECEIPT, RECEIPT, Written, carried};
use super::cells::Cells;
pub use super::column::Column;
use super::column::ColumnReader;
pub use super::column_read::{ColumnRead, WordRead};
use super::format::size::unit;
use super::headings::{match_headings, missing_column};
use super::problem::{Place, Problem};
use super::problem_kind::{EMPTY_FILE, ProblemKind, Severity, TWO_UNITS};
use super::specification::{Kind, TableSpecification};
pub use super::table_settings::{FileFormats, Reading};
use crate::ids::{Id, IdVec, Names, Text};
use crate::quantity::unit::Unit;
use crate::quantity::{Day, Percent, Price};
use rust_decimal::Decimal;
use std::collections::{BTreeMap, BTreeSet};

/// The typed columns of one file, by the specification's column names.
#[derive(Debug, Clone, Default)]
pub struct Table {
    /// The file's name, for problems.
    pub file: String,
    /// The place of each row.
    pub places: Vec<Place>,
    /// Headings that stand for no column; their cells are not kept.
    pub ignored: Vec<String>,
    /// How its columns were read, in the order of the specification.
    pub understood: Vec<ColumnRead>,
    pub(super) columns: BTreeMap<&'static str, Column>,
    /// Cells that could not be read: by row and column.
    pub(super) wrong: BTreeSet<(usize, &'static str)>,
    /// Columns the file does not have.
    pub(super) lacking: BTreeSet<&'static str>,
}

impl Table {
    /// Reads a file by its specification; a cell that cannot be read is blank, with a problem.
    ///
    /// Rows in `skipped`, by row number, are left out.
    pub fn read(
        specification: &TableSpecification,
        cells: &Cells,
        reading: &Reading,
        skipped: &BTreeSet<u32>,
        problems: &mut Vec<Problem>,
    ) -> Self {
        let file = cells.file.clone();
        for problem in cells.problems.iter().filter(|problem| problem.place.is_none_or(|place| !skipped.contains(&place.row))) {
            let headings = || format!("write its headings in the first row: {}", specification.headings());
            problems.push(if *problem.kind == EMPTY_FILE { problem.clone().instead(headings()) } else { problem.clone() });
        }
        let (sources, ignored) = match_headings(specification, &file, &cells.headings, &reading.columns, problems);
        let section = if reading.table.is_empty() { specification.name } else { &reading.table };
        let kept: Vec<bool> = cells.places().iter().map(|place| !skipped.contains(&place.row)).collect();
        let places: Vec<Place> = cells.places().iter().zip(&kept).filter(|(_, kept)| **kept).map(|(place, _)| *place).collect();
        let texts_of = |source: usize| cells.column(source).zip(&kept).filter(|(_, kept)| **kept).map(|(text, _)| text);
        let of_errors = cells.problems.iter().filter(|problem| problem.severity == Severity::Error);
        let mut lost: Vec<u32> = of_errors.filter_map(|problem| problem.place).map(|place| place.row).collect();
        lost.sort_unstable();
        // Where the rows of the last receipt are written, all rows counted; none where the file writes its date on each.
        let mut receipts: Option<Vec<Written>> = None;
        let mut table = Self { file, places, ignored, ..Self::default() };
        // The unit in each cell of the size column read last; none where the size cannot be read.
        let mut in_sizes: Vec<Option<&str>> = Vec::new();
        for (column, source) in specification.columns.iter().zip(sources.iter().copied()) {
            let units = (column.kind == Kind::Unit).then(|| {
                let own = source.map_or_else(|| vec![""; table.rows()], |source| texts_of(source).collect());
                table.units(column.name, own, &in_sizes, problems)
            });
            let lacks = |(row, unit): (usize, &&str)| unit.is_empty() && !table.wrong.contains(&(row, column.name));
            let lacks_units = units.as_ref().is_some_and(|units| units.iter().enumerate().any(lacks));
            if source.is_none() && (units.is_none() || lacks_units) {
                table.lacking.insert(column.name);
                if lacks_units && !cells.headings.is_empty() {
                    problems.push(missing_column(specification, &table.file, column.name, &table.ignored));
                }
                continue;
            }
            let heading = source.map_or_else(String::new, |source| cells.headings[source].clone());
            let mut understood = ColumnRead { heading, column: column.name, ..ColumnRead::default() };
            let may_carry = column.carried || (receipts.is_some() && column.name == RECEIPT);
            let filled = source.filter(|_| may_carry).and_then(|source| {
                let beside = || OF_A_RECEIPT.iter().filter_map(|name| sources[specification.column(name)?]);
                let own: Vec<&str> = cells.column(source).collect();
                let written = match column.kind {
                    Kind::Day if column.carried => {
                        let beside: Vec<Vec<&str>> = beside().map(|source| cells.column(source).collect()).collect();
                        receipts = carried(&own, cells.places(), &lost, &beside);
                        receipts.clone()
                    }
                    _ if column.carried => carried(&own, cells.places(), &lost, &[]),
                    _ => receipts.clone(),
                };
                Some(Filled::of(&own, &written?, &kept))
            });
            if let Some(filled) = &filled {
                // A row that could not be read is a problem already, until it is passed over.
                let of_lost = filled.rows().filter(|(_, written)| matches!(*written, Written::Lost(row) if !skipped.contains(&row)));
                table.wrong.extend(of_lost.map(|(row, _)| (row, column.name)));
            }
            let before = problems.len();
            let mut reader = ColumnReader {
                file: &table.file,
                table: section,
                column,
                reading,
                places: &table.places,
                problems,
                wrong: &mut table.wrong,
                understood: &mut understood,
                kept: String::new(),
            };
            let values = match (units.as_ref().or(filled.as_ref().map(|filled| &filled.texts)), source) {
                (Some(texts), _) => reader.column(texts.iter().copied()),
                (None, Some(source)) => reader.column(texts_of(source)),
                (None, None) => continue,
            };
            if let Some(source) = source {
                understood.cells = texts_of(source).filter(|text| !text.is_empty()).count();
                if let Some(filled) = filled {
                    understood.carried = filled.carried;
                    // A format is found from all dates that are read.
                    understood.cells += if understood.format.is_some() { filled.carried } else { 0 };
                    // What is wrong with a text is said in the row that has it, not in those that carry it.
                    let repeats = |problem: &Problem| {
                        problem.column.as_deref() == Some(column.name)
                            && problem.place.is_some_and(|place| filled.is_carried(&table.places, place))
                    };
                    let said = problems.split_off(before);
                    problems.extend(said.into_iter().filter(|problem| !repeats(problem)));
                }
                table.understood.push(understood);
                if let (Kind::Size(_), Column::Number(sizes)) = (column.kind, &values) {
                    in_sizes = texts_of(source).zip(sizes).map(|(text, size)| size.map(|_| unit(text))).collect();
                }
            }
            table.columns.insert(column.name, values);
        }
        table
    }

    /// The unit of each row: as its own cell has it, else as the size's cell has it; a problem where the two differ.
    fn units<'t>(
        &mut self,
        column: &'static str,
        mut own: Vec<&'t str>,
        in_sizes: &[Option<&'t str>],
        problems: &mut Vec<Problem>,
    ) -> Vec<&'t str> {
        for (row, (own, in_size)) in own.iter_mut().zip(in_sizes).enumerate() {
            match in_size {
                // What is wrong with the size is a problem already.
                None if own.is_empty() => _ = self.wrong.insert((row, column)),
                Some(in_size) if own.is_empty() => *own = in_size,
                Some(in_size) if !in_size.is_empty() && !is_same_unit(own, in_size) => {
                    let what = format!("is not the unit in the size's own cell, '{in_size}'");
                    problems.push(self.problem(&TWO_UNITS, row, column, what).found(own).instead("keep one of the two"));
                    self.wrong.insert((row, column));
                    *own = "";
                }
                _ => {}
            }
        }
        own
    }

    /// A table without rows, for a file the shop does not have.
    #[must_use]
    pub(crate) fn without_rows(specification: &TableSpecification) -> Self {
        Self { file: specification.file(), ..Self::default() }
    }

    /// How many rows there are.
    #[must_use]
    pub fn rows(&self) -> usize {
        self.places.len()
    }

    /// Whether a cell is blank only because what was written in it could not be read, which is a problem already.
    #[must_use]
    pub(crate) fn is_wrong(&self, row: usize, column: &'static str) -> bool {
        self.wrong.contains(&(row, column))
    }

    /// Leaves a cell out that was read, but cannot stand; what is wrong with it is a problem already.
    pub(crate) fn mark_wrong(&mut self, row: usize, column: &'static str) {
        self.wrong.insert((row, column));
    }

    /// How many cells of a column could not be read.
    #[must_use]
    pub(crate) fn wrong_cells(&self, column: &str) -> usize {
        self.wrong.iter().filter(|(_, of)| *of == column).count()
    }

    /// Whether the file has no such column.
    #[must_use]
    pub fn lacks(&self, column: &str) -> bool {
        self.lacking.contains(column)
    }

    /// The name of the style that a column was found to have, or that `shop.toml` fixes for it.
    #[must_use]
    pub(crate) fn format_of(&self, column: &str) -> Option<&str> {
        self.understood.iter().find(|read| read.column == column).and_then(|read| read.format.as_deref())
    }

    /// How often each text of a text column stands in it.
    #[must_use]
    pub(crate) fn tally(&self, name: &str) -> BTreeMap<&str, usize> {
        let mut tally = BTreeMap::new();
        if let Some(Column::Text(values, names)) = self.columns.get(name) {
            for id in values.iter().flatten() {
                *tally.entry(names.text(*id)).or_default() += 1;
            }
        }
        tally
    }

    /// Replaces the texts of a text column by those that `respelt` gives for them, and notes each that differs.
    pub(crate) fn respell<'a>(&mut self, name: &str, respelt: impl Fn(&str) -> Option<&'a str>) {
        let changed: Vec<(String, &str, usize)> = self
            .tally(name)
            .into_iter()
            .filter_map(|(text, cells)| Some((text.to_owned(), respelt(text).filter(|respelt| *respelt != text)?, cells)))
            .collect();
        if changed.is_empty() {
            return;
        }
        if let Some(Column::Text(values, names)) = self.columns.get_mut(name) {
            let mut respelt_names = Names::default();
            let ids: IdVec<Text, Id<Text>> = names.iter().map(|text| respelt_names.intern(respelt(text).unwrap_or(text))).collect();
            values.iter_mut().flatten().for_each(|id| *id = ids[*id]);
            *names = respelt_names;
        }
        for (found, read_as, cells) in changed {
            self.note_word(name, &found, read_as, cells);
        }
    }

    /// Notes that cells of a column hold a word which was read as another.
    pub(crate) fn note_word(&mut self, column: &str, found: &str, read_as: &str, cells: usize) {
        if let Some(understood) = self.understood.iter_mut().find(|understood| understood.column == column) {
            understood.words.push(WordRead { found: found.to_owned(), read_as: read_as.to_owned(), cells });
            understood.words.sort();
        }
    }

    /// A problem at a cell.
    #[must_use]
    pub fn problem(&self, kind: &'static ProblemKind, row: usize, column: &str, what: impl Into<String>) -> Problem {
        let problem = Problem::of_file(kind, &self.file, what).column(column);
        match self.places.get(row) {
            Some(place) => problem.at(*place),
            None => problem,
        }
    }

    /// Takes a text column out of the table, with its distinct texts as first met; all blank if the file has no such column.
    pub fn text(&mut self, name: &str) -> (Vec<Option<Id<Text>>>, Names<Text>) {
        match self.columns.remove(name) {
            Some(Column::Text(values, names)) => (values, names),
            other => (self.blank(name, other.as_ref()), Names::default()),
        }
    }

    /// Takes a text column whose texts name a `T`, with its distinct texts as first met.
    pub fn names<T>(&mut self, name: &str) -> (Vec<Option<Id<T>>>, Names<T>) {
        let (values, names) = self.text(name);
        (values.into_iter().map(|value| value.map(|id| Id::new(id.number()))).collect(), names.of())
    }

    /// Takes a column of days.
    pub fn days(&mut self, name: &str) -> Vec<Option<Day>> {
        match self.columns.remove(name) {
            Some(Column::Day(values)) => values,
            other => self.blank(name, other.as_ref()),
        }
    }

    /// Takes a column of money or minutes, in millionths.
    pub fn millionths(&mut self, name: &str) -> Vec<Option<i64>> {
        match self.columns.remove(name) {
            Some(Column::Millionths(values)) => values,
            other => self.blank(name, other.as_ref()),
        }
    }

    /// Takes a column of plain numbers.
    pub fn numbers(&mut self, name: &str) -> Vec<Option<Decimal>> {
        match self.columns.remove(name) {
            Some(Column::Number(values)) => values,
            other => self.blank(name, other.as_ref()),
        }
    }

    /// Takes a column of prices.
    pub fn prices(&mut self, name: &str) -> Vec<Option<Price>> {
        match self.columns.remove(name) {
            Some(Column::Price(values)) => values,
            other => self.blank(name, other.as_ref()),
        }
    }

    /// Takes a column of whole numbers, times or choices.
    pub(crate) fn wholes(&mut self, name: &str) -> Vec<Option<i64>> {
        match self.columns.remove(name) {
            Some(Column::Whole(values)) => values,
            other => self.blank(name, other.as_ref()),
        }
    }

    /// A cell of a column of whole numbers that has not been taken yet.
    #[must_use]
    pub(crate) fn whole_at(&self, name: &str, row: usize) -> Option<i64> {
        match self.columns.get(name) {
            Some(Column::Whole(values)) => values[row],
            _ => None,
        }
    }

    /// Takes a column of starts in seconds after midnight, each with its end where the cell has one too.
    pub fn spans(&mut self, name: &str) -> Vec<Option<(i64, Option<i64>)>> {
        match self.columns.remove(name) {
            Some(Column::Span(values)) => values,
            other => self.blank(name, other.as_ref()),
        }
    }

    /// Takes a column of percentages.
    pub(crate) fn percents(&mut self, name: &str) -> Vec<Option<Percent>> {
        match self.columns.remove(name) {
            Some(Column::Percent(values)) => values,
            other => self.blank(name, other.as_ref()),
        }
    }

    fn blank<T: Clone>(&self, name: &str, found: Option<&Column>) -> Vec<Option<T>> {
        debug_assert!(found.is_none(), "column {name} was asked for as another kind");
        vec![None; self.rows()]
    }
}

/// Whether two texts name one unit.
fn is_same_unit(one: &str, other: &str) -> bool {
    let unit = Unit::parse(one);
    one.eq_ignore_ascii_case(other) || (unit.is_some() && unit == Unit::parse(other))
}

#[cfg(test)]
mod tests {
    use super::super::cells::Known;
    use super::super::format::word::Forms;
    use super::super::specification::{ColumnSpecification, Least};
    use super::*;

    const SPECIFICATION: TableSpecification = TableSpecification {
        name: "trial",
        is_log: true,
        meaning: "",
        everyday: &[],
        columns: &[
            ColumnSpecification {
                name: "day",
                also: None,
                kind: Kind::Day,
                required: true,
                filled: true,
                carried: false,
                meaning: "",
                example: "2026-09-03",
            },
            ColumnSpecification {
                name: "paid",
                also: None,
                kind: Kind::Money(Least::Any),
                required: false,
                filled: false,
                carried: false,
                meaning: "",
                example: "4.50",
            },
            ColumnSpecification {
                name: "colours",
                also: Some("colors"),
                kind: Kind::Whole,
                required: false,
                filled: false,
                carried: false,
                meaning: "",
                example: "5",
            },
            ColumnSpecification {
                name: "kind",
                also: None,
                kind: Kind::Choice(&["cookie", "set"], Forms::NONE),
                required: false,
                filled: false,
                carried: false,
                meaning: "",
                example: "set",
            },
        ],
    };

    fn read(text: &str, renamed: &[(&str, &str)]) -> (Table, Vec<String>) {
        let mut problems = Vec::new();
        let columns = renamed.iter().map(|(a, b)| ((*a).to_owned(), (*b).to_owned())).collect();
        let reading = Reading { columns, ..Reading::default() };
        let cells = Cells::of_csv("trial.csv", text.as_bytes(), Known { specification: &SPECIFICATION, columns: &reading.columns });
        let table = Table::read(&SPECIFICATION, &cells, &reading, &BTreeSet::new(), &mut problems);
        (table, problems.iter().map(ToString::to_string).collect())
    }

    #[test]
    fn headings_are_forgiven_and_unknown_ones_named() {
        let (mut table, problems) = read("D_ay, COLORS ,customer\n2026-09-03,5,someone\n", &[]);
        assert_eq!((problems.len(), table.ignored.as_slice()), (0, &["customer".to_owned()][..]));
        assert_eq!((table.wholes("colours"), table.millionths("paid")), (vec![Some(5)], vec![None]));
        let (table, problems) = read("Pick-up day\n2026-09-03\n", &[("pick-up day", "day")]);
        assert_eq!((problems.len(), table.rows()), (0, 1));
    }

    #[test]
    fn every_wrong_cell_comes_with_what_to_write() {
        let (_, problems) = read(
            "day,paid,colours,kind\n9/31/2026,\"12,00.50\",5.5,cokie\n,1e5,-1,Set\n2026-09-03,0.0000001,,\n2026-09-03,9999999999,,\n",
            &[],
        );
        let expected = [
            "trial.csv, row 2, column day: '9/31/2026' is not a date; there is no such day: check the month and the day",
            "trial.csv, row 3, column day: the cell is blank; fill it in, for example 2026-09-03",
            "trial.csv, row 2, column paid: '12,00.50' is not an amount of money; write digits alone, with a point for decimals, as 1234.50",
            "trial.csv, row 3, column paid: '1e5' is not an amount of money; write digits alone, with a point for decimals, as 1234.50",
            "trial.csv, row 4, column paid: '0.0000001' has more than six decimals; round it to six decimals or fewer",
            "trial.csv, row 5, column paid: '9999999999' is more than a billion; check it for a typing slip",
            "trial.csv, row 2, column colours: '5.5' is not a whole number; write a whole number, as 5",
            "trial.csv, row 3, column colours: '-1' is less than 0; write it without a minus",
            "trial.csv, row 2, column kind: 'cokie' is not a word this column knows; write cookie, or cokie = \"cookie\" under [words] in shop.toml",
        ];
        assert_eq!(problems, expected);
    }

    #[test]
    fn a_missing_column_points_at_its_likely_heading() {
        let (_, problems) = read("dya\n2026-09-03\n", &[]);
        assert_eq!(
            problems,
            [
                "trial.csv, column day: the column is missing; rename the heading 'dya', or write \"dya\" = \"day\" under [columns.trial] in shop.toml"
            ]
        );
        let (_, problems) = read("day,Day\n2026-09-03,2026-09-03\n", &[]);
        assert_eq!(problems, ["trial.csv, column day: two headings stand for this column; remove or rename one of them"]);
    }
}
