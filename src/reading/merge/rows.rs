//! The rows of several tables, made comparable cell by cell.

use super::{Groups, Kept};
use crate::ids::{Id, Text};
use crate::quantity::Day;
use crate::reading::folding;
use crate::reading::specification::{Kind, TableSpecification};
use crate::reading::table::{Column, Table};
use rust_decimal::Decimal;
use std::collections::HashMap;

/// A row, by its table's place among those merged.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct At {
    pub table: usize,
    pub row: usize,
}

/// A cell as it was read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub(super) enum Cell {
    Blank,
    /// The number of the folded text among those of its column in all tables.
    Text(usize),
    Day(Day),
    Whole(i64),
    Span(i64, Option<i64>),
    Number(Decimal),
    /// Of twelve pieces, in millionths.
    Price(i128),
    /// In millionths.
    Percent(i64),
}

/// The rows of several tables of one specification. A set of columns is a number with a bit for each, in the specification's order.
pub(super) struct Rows<'a> {
    specification: &'a TableSpecification,
    pub tables: &'a [Table],
    /// By table and column: what stands for each of its texts.
    texts: Vec<Vec<Vec<usize>>>,
    /// The columns of each table.
    columns: Vec<u32>,
    /// Columns in which a blank says the first word.
    first_word_if_blank: &'static [&'static str],
}

impl<'a> Rows<'a> {
    pub fn of(specification: &'a TableSpecification, tables: &'a [Table], groups: Option<Groups>) -> Self {
        let mut texts = vec![vec![Vec::new(); specification.columns.len()]; tables.len()];
        let mut columns = vec![0; tables.len()];
        for (at, column) in specification.columns.iter().enumerate() {
            let mut numbers: HashMap<String, usize> = HashMap::new();
            for (table, found) in tables.iter().enumerate().filter_map(|(table, of)| Some((table, of.columns.get(column.name)?))) {
                columns[table] |= 1 << at;
                if let Column::Text(_, names) = found {
                    let number = |name: &str| {
                        let next = numbers.len();
                        *numbers.entry(folding::name(name)).or_insert(next)
                    };
                    texts[table][at] = names.iter().map(number).collect();
                }
            }
        }
        let first_word_if_blank = groups.map_or(&[][..], |groups| groups.first_word_if_blank);
        Self { specification, tables, texts, columns, first_word_if_blank }
    }

    /// The columns that a table has.
    pub(crate) fn columns_of(&self, table: usize) -> u32 {
        self.columns[table]
    }

    /// The place of a column in the specification.
    pub fn place(&self, column: &str) -> Option<usize> {
        self.specification.columns.iter().position(|of| of.name == column)
    }

    /// The columns of a set.
    pub(crate) fn in_columns(&self, columns: u32) -> impl Iterator<Item = usize> {
        (0..self.specification.columns.len()).filter(move |column| columns >> column & 1 == 1)
    }

    /// Whether rows of files with these columns can be told apart by what both have: one has all that the other has, or what only one of
    /// them has are words and small counts.
    pub(crate) fn may_be_compared(&self, one: u32, other: u32) -> bool {
        let is_amount = |column: usize| {
            !matches!(self.specification.columns[column].kind, Kind::Text | Kind::Orders | Kind::Choice(..) | Kind::Payments | Kind::Whole)
        };
        one & !other == 0 || other & !one == 0 || !self.in_columns(one ^ other).any(is_amount)
    }

    /// Where a kept row has a column: in the first of its files with it.
    pub(crate) fn source(&self, kept: &Kept, column: usize) -> At {
        let has = |at: &&At| self.columns[at.table] >> column & 1 == 1;
        *std::iter::once(&kept.first).chain(&kept.more).find(has).unwrap_or(&kept.first)
    }

    /// What a row says in some columns.
    pub fn values(&self, at: At, columns: u32) -> Vec<Cell> {
        self.in_columns(columns).map(|column| self.cell(at, column)).collect()
    }

    /// What a row says in a column; blank where its table lacks the column.
    pub fn cell(&self, At { table, row }: At, column: usize) -> Cell {
        let name = self.specification.columns[column].name;
        let text = |id: Id<Text>| Cell::Text(self.texts[table][column][id.index()]);
        let cell = match self.tables[table].columns.get(name) {
            None => return Cell::Blank,
            Some(Column::Text(values, _)) => values[row].map(text),
            Some(Column::Day(values)) => values[row].map(Cell::Day),
            Some(Column::Millionths(values) | Column::Whole(values)) => values[row].map(Cell::Whole),
            Some(Column::Span(values)) => values[row].map(|(start, end)| Cell::Span(start, end)),
            Some(Column::Number(values)) => values[row].map(Cell::Number),
            Some(Column::Price(values)) => values[row].map(|price| Cell::Price(price.amount.0 * 12 / i128::from(price.pieces))),
            Some(Column::Percent(values)) => values[row].map(|percent| Cell::Percent(percent.0)),
        };
        let if_blank = if self.first_word_if_blank.contains(&name) { Cell::Whole(0) } else { Cell::Blank };
        cell.unwrap_or(if_blank)
    }

    /// Whether something is written in a cell.
    pub(crate) fn is_filled(&self, At { table, row }: At, column: usize) -> bool {
        match self.tables[table].columns.get(self.specification.columns[column].name) {
            Some(Column::Day(values)) => values[row].is_some(),
            Some(Column::Text(values, _)) => values[row].is_some(),
            Some(Column::Whole(values)) => values[row].is_some(),
            _ => self.cell(At { table, row }, column) != Cell::Blank,
        }
    }

    /// Whether two rows say the same: what only one of their files has a column for is blank there.
    pub(crate) fn say_the_same(&self, one: At, other: At, but_for: &[usize]) -> bool {
        let both = self.columns_of(one.table) & self.columns_of(other.table);
        let mut columns = (0..self.specification.columns.len()).filter(|column| !but_for.contains(column));
        columns.all(|column| {
            if both >> column & 1 == 1 {
                self.cell(one, column) == self.cell(other, column)
            } else {
                ![one, other].iter().any(|at| self.is_filled(*at, column))
            }
        })
    }

    /// The text of a cell, as it was read.
    pub fn text(&self, At { table, row }: At, column: &str) -> Option<&str> {
        match self.tables[table].columns.get(column)? {
            Column::Text(values, names) => values[row].map(|id| names.text(id)),
            _ => None,
        }
    }
}
