//! A table: cells turned into typed columns as a specification says.

use super::cell::{Wrong, choice, millionths, number_cell, pieces, price, time, whole};
use super::cells::Cells;
use super::day_hint;
use super::formula::unguarded;
use super::names::{Name, Names};
use super::nearest::nearest;
use super::problem::{Place, Problem, Severity};
use super::specification::{ColumnSpecification, Kind, Least, TableSpecification, fold};
use crate::quantity::{Day, Percent, Price};
use rust_decimal::Decimal;
use std::collections::{BTreeMap, BTreeSet};

/// A typed column; a blank cell is `None`.
#[derive(Debug, Clone)]
pub enum Column {
    /// Interned text.
    Text(Vec<Option<Name>>, Names),
    /// Days.
    Day(Vec<Option<Day>>),
    /// Money or minutes in millionths.
    Millionths(Vec<Option<i64>>),
    /// Plain numbers.
    Number(Vec<Option<Decimal>>),
    /// Prices a piece.
    Price(Vec<Option<Price>>),
    /// Pieces, small whole numbers, minutes after midnight, or the place in a list of choices.
    Whole(Vec<Option<i64>>),
    /// Percentages.
    Percent(Vec<Option<Percent>>),
}

/// The typed columns of one file, by the specification's column names.
#[derive(Debug, Default)]
pub struct Table {
    /// The file's name, for problems.
    pub file: String,
    /// The place of each row.
    pub places: Vec<Place>,
    /// Headings that no column of the table answers to: never kept, only named.
    pub ignored: Vec<String>,
    columns: BTreeMap<&'static str, Column>,
    /// Cells that could not be read: by row and column.
    wrong: BTreeSet<(usize, &'static str)>,
    /// Columns the file does not have.
    lacking: BTreeSet<&'static str>,
}

impl Table {
    /// Reads a file as its specification says.
    ///
    /// `renamed` maps the shop's own headings to ours; rows in `skipped` (by row number) are passed over.
    pub fn read(
        specification: &TableSpecification,
        bytes: &[u8],
        renamed: &BTreeMap<String, String>,
        skipped: &BTreeSet<u32>,
        problems: &mut Vec<Problem>,
    ) -> Self {
        let file = specification.file();
        let mut of_cells = Vec::new();
        let cells = Cells::split(&file, bytes, &mut of_cells);
        problems.extend(of_cells.into_iter().filter(|problem| problem.place.is_none_or(|place| !skipped.contains(&place.row))));
        let (sources, ignored) = match_headings(specification, &file, &cells.headings, renamed, problems);
        let kept: Vec<bool> = cells.places().iter().map(|place| !skipped.contains(&place.row)).collect();
        let places: Vec<Place> = cells.places().iter().zip(&kept).filter(|(_, kept)| **kept).map(|(place, _)| *place).collect();
        let (mut columns, mut wrong) = (BTreeMap::new(), BTreeSet::new());
        let mut lacking = BTreeSet::new();
        for (column, source) in specification.columns.iter().zip(sources) {
            let Some(source) = source else {
                lacking.insert(column.name);
                continue;
            };
            let texts = cells.column(source).zip(&kept).filter(|(_, kept)| **kept).map(|(text, _)| text);
            let mut reader = CellReader { file: &file, column, places: &places, problems, wrong: &mut wrong };
            columns.insert(column.name, reader.column(texts));
        }
        Self { file, places, ignored, columns, wrong, lacking }
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

    /// Whether a cell was written but could not be read, which was told of: it is blank now, but nothing follows from that.
    #[must_use]
    pub fn is_wrong(&self, row: usize, column: &'static str) -> bool {
        self.wrong.contains(&(row, column))
    }

    /// Whether the file has no such column.
    #[must_use]
    pub fn lacks(&self, column: &str) -> bool {
        self.lacking.contains(column)
    }

    /// An error at a cell of a row.
    #[must_use]
    pub fn error(&self, row: usize, column: &str, what: impl Into<String>) -> Problem {
        self.problem(Severity::Error, row, column, what)
    }

    /// A warning at a cell of a row.
    #[must_use]
    pub fn warning(&self, row: usize, column: &str, what: impl Into<String>) -> Problem {
        self.problem(Severity::Warning, row, column, what)
    }

    fn problem(&self, severity: Severity, row: usize, column: &str, what: impl Into<String>) -> Problem {
        let problem = Problem::of_file(severity, &self.file, what).column(column);
        match self.places.get(row) {
            Some(place) => problem.at(*place),
            None => problem,
        }
    }

    /// Takes a text column out of the table; all blank where the file has none.
    pub fn text(&mut self, name: &str) -> (Vec<Option<Name>>, Names) {
        match self.columns.remove(name) {
            Some(Column::Text(values, names)) => (values, names),
            other => (self.blank(name, other.as_ref()), Names::default()),
        }
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

/// Which heading feeds each column, and the headings that feed none.
pub(crate) fn match_headings(
    specification: &TableSpecification,
    file: &str,
    headings: &[String],
    renamed: &BTreeMap<String, String>,
    problems: &mut Vec<Problem>,
) -> (Vec<Option<usize>>, Vec<String>) {
    let renamed: BTreeMap<String, &String> = renamed.iter().map(|(theirs, ours)| (fold(theirs), ours)).collect();
    let mut sources = vec![None; specification.columns.len()];
    let mut ignored = Vec::new();
    for (index, heading) in headings.iter().enumerate() {
        let ours = renamed.get(&fold(heading)).map_or(heading, |ours| *ours);
        let Some(column) = specification.column(ours) else {
            if !heading.is_empty() {
                ignored.push(heading.clone());
            }
            continue;
        };
        if sources[column].replace(index).is_some() {
            let what = format!("two headings stand for column {}", specification.columns[column].name);
            problems.push(Problem::of_file(Severity::Error, file, what).instead("remove or rename one of them"));
        }
    }
    if !headings.is_empty() {
        for (column, source) in specification.columns.iter().zip(&sources) {
            if column.required && source.is_none() {
                let near = nearest(column.name, ignored.iter().map(String::as_str));
                let instead = match near {
                    Some(near) => format!("rename the heading '{near}', or map it in shop.toml under [columns.{}]", specification.name),
                    None => format!("add it, or map your own heading in shop.toml under [columns.{}]", specification.name),
                };
                let what = format!("there is no column {}", column.name);
                problems.push(Problem::of_file(Severity::Error, file, what).instead(instead));
            }
        }
    }
    (sources, ignored)
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
            Kind::Day => Column::Day(self.values(texts, |text| Day::parse(text).ok_or_else(|| ("is not a date", day_hint::advice(text))))),
            Kind::Time => {
                Column::Whole(self.values(texts, |text| time(text).ok_or_else(|| ("is not a time of day", "write it as 18:30".into()))))
            }
            Kind::Money(least) => Column::Millionths(self.values(texts, |text| millionths(text, least, "an amount of money"))),
            Kind::Minutes => Column::Millionths(self.values(texts, |text| millionths(text, Least::Nil, "a number of minutes"))),
            Kind::Number(least) => Column::Number(self.values(texts, |text| number_cell(text, least))),
            Kind::Price => Column::Price(self.values(texts, price)),
            Kind::Pieces(least) => Column::Whole(self.values(texts, |text| pieces(text, least))),
            Kind::Whole => Column::Whole(self.values(texts, whole)),
            Kind::Percent => Column::Percent(self.values(texts, |text| {
                Percent::parse(text).ok_or_else(|| ("is not a percentage", "write it with its sign, as 10 %".into()))
            })),
            Kind::Choice(words) => Column::Whole(self.values(texts, |text| choice(text, words))),
        }
    }

    fn values<'t, T>(&mut self, texts: impl Iterator<Item = &'t str>, mut read: impl FnMut(&'t str) -> Result<T, Wrong>) -> Vec<Option<T>> {
        let mut values = Vec::with_capacity(self.places.len());
        for (row, (text, place)) in texts.zip(self.places).enumerate() {
            if text.is_empty() {
                if self.column.filled {
                    let advice = format!("write it, for example {}", self.column.example);
                    self.problems.push(self.problem(*place, "the cell is blank").instead(advice));
                }
                values.push(None);
                continue;
            }
            match read(text) {
                Ok(value) => values.push(Some(value)),
                Err((what, advice)) => {
                    self.problems.push(self.problem(*place, what).found(text).instead(advice));
                    self.wrong.insert((row, self.column.name));
                    values.push(None);
                }
            }
        }
        values
    }

    fn problem(&self, place: Place, what: &str) -> Problem {
        Problem::of_file(Severity::Error, self.file, what).at(place).column(self.column.name)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const SPECIFICATION: TableSpecification = TableSpecification {
        name: "trial",
        is_log: true,
        meaning: "",
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
        let renamed = renamed.iter().map(|(a, b)| ((*a).to_owned(), (*b).to_owned())).collect();
        let table = Table::read(&SPECIFICATION, text.as_bytes(), &renamed, &BTreeSet::new(), &mut problems);
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
    fn every_wrong_cell_is_told_with_what_to_write() {
        let (_, problems) = read(
            "day,paid,colours,kind\n9/3/2026,\"1,200.50\",5.5,cokie\n,1e5,-1,Set\n2026-09-03,0.0000001,,\n2026-09-03,9999999999,,\n",
            &[],
        );
        let expected = [
            "trial.csv, row 2, column day: '9/3/2026' is not a date; write 2026-09-03 or 2026-03-09, whichever is meant",
            "trial.csv, row 3, column day: the cell is blank; write it, for example 2026-09-03",
            "trial.csv, row 2, column paid: '1,200.50' is not an amount of money; write 1200.50",
            "trial.csv, row 3, column paid: '1e5' is not an amount of money; write digits with a point for decimals, as 1234.50",
            "trial.csv, row 4, column paid: '0.0000001' has more than six decimals; round it",
            "trial.csv, row 5, column paid: '9999999999' is larger than a thousand million; look for a slip of the keyboard",
            "trial.csv, row 2, column colours: '5.5' is not a whole number; write it as 5",
            "trial.csv, row 3, column colours: '-1' is less than 0; write it without a minus",
            "trial.csv, row 2, column kind: 'cokie' is not a word this column knows; write cookie",
            "trial.csv, row 3, column kind: 'Set' is not a word this column knows; write set",
        ];
        assert_eq!(problems, expected);
    }

    #[test]
    fn a_missing_column_points_at_its_likely_heading() {
        let (_, problems) = read("dya\n2026-09-03\n", &[]);
        assert_eq!(problems, ["trial.csv: there is no column day; rename the heading 'dya', or map it in shop.toml under [columns.trial]"]);
        let (_, problems) = read("day,Day\n2026-09-03,2026-09-03\n", &[]);
        assert_eq!(problems, ["trial.csv: two headings stand for column day; remove or rename one of them"]);
    }
}
