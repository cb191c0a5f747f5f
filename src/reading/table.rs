//! A table: typed columns, read from cells by a specification.

use super::cell::{Wrong, choice, minutes, money, number_cell, pieces, price, time, whole};
use super::cells::Cells;
use super::day_hint;
use super::formula::unguarded;
use super::headings::match_headings;
use super::problem::{Place, Problem};
use super::problem_kind::{BLANK_CELL, EMPTY_FILE, NOT_A_DATE, NOT_A_PERCENTAGE, NOT_A_TIME, ProblemKind};
use super::specification::{ColumnSpecification, Kind, TableSpecification};
use crate::ids::{Id, Names, Text};
use crate::quantity::{Day, Percent, Price};
use rust_decimal::Decimal;
use std::collections::{BTreeMap, BTreeSet};

/// A typed column; a blank cell is `None`.
#[derive(Debug, Clone)]
pub enum Column {
    /// Interned text.
    Text(Vec<Option<Id<Text>>>, Names<Text>),
    /// Days.
    Day(Vec<Option<Day>>),
    /// Money or minutes in millionths.
    Millionths(Vec<Option<i64>>),
    /// Plain numbers.
    Number(Vec<Option<Decimal>>),
    /// Prices a piece.
    Price(Vec<Option<Price>>),
    /// Pieces, small whole numbers, minutes after midnight, or places in a list of words.
    Whole(Vec<Option<i64>>),
    /// Percentages.
    Percent(Vec<Option<Percent>>),
}

/// How a shop writes its tables, where it says so.
#[derive(Debug, Clone, Default)]
pub struct Reading {
    /// The shop's own headings of this table, each with the column it stands for.
    pub columns: BTreeMap<String, String>,
    /// The formats of this table's columns, each the name of a [`super::format::Style`].
    pub formats: BTreeMap<String, String>,
    /// The shop's own words, each with the word of ours it stands for.
    pub words: BTreeMap<String, String>,
    /// ISO 4217 code of its currency; blank where no sign of a currency may stand in a cell.
    pub currency: String,
}

/// How one column was read.
#[derive(Debug, Clone, PartialEq, Eq)]
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
}

/// The typed columns of one file, by the specification's column names.
#[derive(Debug, Default)]
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
        let kept: Vec<bool> = cells.places().iter().map(|place| !skipped.contains(&place.row)).collect();
        let places: Vec<Place> = cells.places().iter().zip(&kept).filter(|(_, kept)| **kept).map(|(place, _)| *place).collect();
        let (mut columns, mut wrong) = (BTreeMap::new(), BTreeSet::new());
        let (mut lacking, mut understood) = (BTreeSet::new(), Vec::new());
        for (column, source) in specification.columns.iter().zip(sources) {
            let Some(source) = source else {
                lacking.insert(column.name);
                continue;
            };
            let texts = cells.column(source).zip(&kept).filter(|(_, kept)| **kept).map(|(text, _)| text);
            let filled = cells.column(source).zip(&kept).filter(|(text, kept)| **kept && !text.is_empty()).count();
            let heading = cells.headings[source].clone();
            understood.push(ColumnRead { heading, column: column.name, format: None, cells: filled, deciding: 0 });
            let mut reader = CellReader { file: &file, column, places: &places, problems, wrong: &mut wrong };
            columns.insert(column.name, reader.column(texts));
        }
        Self { file, places, ignored, understood, columns, wrong, lacking }
    }

    /// A table without rows, for a file the shop does not have.
    #[must_use]
    pub fn without_rows(specification: &TableSpecification) -> Self {
        Self { file: specification.file(), ..Self::default() }
    }

    /// How many rows there are.
    #[must_use]
    pub fn rows(&self) -> usize {
        self.places.len()
    }

    /// Whether a cell is blank only because what was written in it could not be read, which is a problem already.
    #[must_use]
    pub fn is_wrong(&self, row: usize, column: &'static str) -> bool {
        self.wrong.contains(&(row, column))
    }

    /// How many cells of a column could not be read.
    #[must_use]
    pub fn wrong_cells(&self, column: &str) -> usize {
        self.wrong.iter().filter(|(_, of)| *of == column).count()
    }

    /// Whether the file has no such column.
    #[must_use]
    pub fn lacks(&self, column: &str) -> bool {
        self.lacking.contains(column)
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
    pub fn wholes(&mut self, name: &str) -> Vec<Option<i64>> {
        match self.columns.remove(name) {
            Some(Column::Whole(values)) => values,
            other => self.blank(name, other.as_ref()),
        }
    }

    /// Takes a column of percentages.
    pub fn percents(&mut self, name: &str) -> Vec<Option<Percent>> {
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

/// Reads the cells of one column.
struct CellReader<'a> {
    file: &'a str,
    column: &'a ColumnSpecification,
    places: &'a [Place],
    problems: &'a mut Vec<Problem>,
    wrong: &'a mut BTreeSet<(usize, &'static str)>,
}

impl CellReader<'_> {
    fn column<'t>(&mut self, texts: impl Iterator<Item = &'t str>) -> Column {
        match self.column.kind {
            Kind::Text => {
                let mut names = Names::default();
                let values = self.values(texts, |text| Ok(names.intern(unguarded(text))));
                Column::Text(values, names)
            }
            Kind::Day => Column::Day(
                self.values(texts, |text| Day::parse(text).ok_or_else(|| (&NOT_A_DATE, "is not a date", day_hint::advice(text)))),
            ),
            Kind::Time => Column::Whole(
                self.values(texts, |text| time(text).ok_or_else(|| (&NOT_A_TIME, "is not a time of day", "write it as 18:30".into()))),
            ),
            Kind::Money(least) => Column::Millionths(self.values(texts, |text| money(text, least))),
            Kind::Minutes => Column::Millionths(self.values(texts, minutes)),
            Kind::Number(least) => Column::Number(self.values(texts, |text| number_cell(text, least))),
            Kind::Price => Column::Price(self.values(texts, price)),
            Kind::Pieces(least) => Column::Whole(self.values(texts, |text| pieces(text, least))),
            Kind::Whole => Column::Whole(self.values(texts, whole)),
            Kind::Percent => Column::Percent(self.values(texts, |text| {
                let advice = if text.starts_with('-') { "write it without a minus" } else { "write it with its sign, as 10 %" };
                Percent::parse(text).ok_or_else(|| (&NOT_A_PERCENTAGE, "is not a percentage", advice.into()))
            })),
            Kind::Choice(words) => Column::Whole(self.values(texts, |text| choice(text, words))),
        }
    }

    fn values<'t, T>(&mut self, texts: impl Iterator<Item = &'t str>, mut read: impl FnMut(&'t str) -> Result<T, Wrong>) -> Vec<Option<T>> {
        let mut values = Vec::with_capacity(self.places.len());
        for (row, (text, place)) in texts.zip(self.places).enumerate() {
            if text.is_empty() {
                if self.column.filled {
                    let advice = format!("fill it in, for example {}", self.column.example);
                    self.problems.push(self.problem(&BLANK_CELL, *place, "the cell is blank").instead(advice));
                }
                values.push(None);
                continue;
            }
            match read(text) {
                Ok(value) => values.push(Some(value)),
                Err((kind, what, advice)) => {
                    self.problems.push(self.problem(kind, *place, what).found(text).instead(advice));
                    self.wrong.insert((row, self.column.name));
                    values.push(None);
                }
            }
        }
        values
    }

    fn problem(&self, kind: &'static ProblemKind, place: Place, what: &str) -> Problem {
        Problem::of_file(kind, self.file, what).at(place).column(self.column.name)
    }
}

#[cfg(test)]
mod tests {
    use super::super::cells::Known;
    use super::super::specification::Least;
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
                meaning: "",
                example: "2026-09-03",
            },
            ColumnSpecification {
                name: "paid",
                also: None,
                kind: Kind::Money(Least::Any),
                required: false,
                filled: false,
                meaning: "",
                example: "4.50",
            },
            ColumnSpecification {
                name: "colours",
                also: Some("colors"),
                kind: Kind::Whole,
                required: false,
                filled: false,
                meaning: "",
                example: "5",
            },
            ColumnSpecification {
                name: "kind",
                also: None,
                kind: Kind::Choice(&["cookie", "set"]),
                required: false,
                filled: false,
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
            "day,paid,colours,kind\n9/3/2026,\"1,200.50\",5.5,cokie\n,1e5,-1,Set\n2026-09-03,0.0000001,,\n2026-09-03,9999999999,,\n",
            &[],
        );
        let expected = [
            "trial.csv, row 2, column day: '9/3/2026' is not a date; write 2026-09-03 or 2026-03-09, whichever you mean",
            "trial.csv, row 3, column day: the cell is blank; fill it in, for example 2026-09-03",
            "trial.csv, row 2, column paid: '1,200.50' is not an amount of money; write 1200.50",
            "trial.csv, row 3, column paid: '1e5' is not an amount of money; write digits alone, with a point for decimals, as 1234.50",
            "trial.csv, row 4, column paid: '0.0000001' has more than six decimals; round it to six decimals or fewer",
            "trial.csv, row 5, column paid: '9999999999' is more than a billion; check it for a typing slip",
            "trial.csv, row 2, column colours: '5.5' is not a whole number; write a whole number, as 5",
            "trial.csv, row 3, column colours: '-1' is less than 0; write it without a minus",
            "trial.csv, row 2, column kind: 'cokie' is not a word this column knows; write cookie",
            "trial.csv, row 3, column kind: 'Set' is not a word this column knows; write set",
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
