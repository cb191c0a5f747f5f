//! How a table is specified. Reading, validation and the docs follow the specification.

use super::folding;
use super::format::word::Forms;

/// What a cell may hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// Any text.
    Text,
    /// What names orders: ids, or a hand-over date in the column's format.
    Orders,
    /// A day, `2026-09-03`.
    Day,
    /// A time of day, `18:30`.
    Time,
    /// A time of day, or a start and an end in one cell, `18:30-20:05`.
    TimeOrSpan,
    /// Money, at most six decimals.
    Money(Least),
    /// Minutes, at most six decimals.
    Minutes,
    /// A plain decimal number.
    Number(Least),
    /// A number that may have its unit in the same cell, `4 lb`.
    Size(Least),
    /// The unit of the sizes, where it does not stand in their own cells.
    Unit,
    /// A price a piece, or by the dozen.
    Price(Least),
    /// Whole pieces, or dozens.
    Pieces(Least),
    /// A small whole number.
    Whole,
    /// A percentage.
    Percent,
    /// A small whole number of card charges, or how an order was paid, in words.
    Payments,
    /// One of a few words, or an everyday form of one.
    Choice(&'static [&'static str], Forms),
}

/// The least value a number may take.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Least {
    /// Negative numbers are fine.
    Any,
    /// 0 or more.
    Nil,
    /// Above 0.
    AboveNil,
    /// Anything but 0.
    NotNil,
}

/// One column.
#[derive(Debug, Clone, Copy)]
pub struct ColumnSpecification {
    /// Its heading.
    pub name: &'static str,
    /// Another spelling of the heading that is understood.
    pub also: Option<&'static str>,
    /// What its cells hold.
    pub kind: Kind,
    /// Whether the table is useless without it; its cells may still be blank.
    pub required: bool,
    /// Whether a blank cell is an error.
    pub filled: bool,
    /// Whether a blank cell is as the one above it, in a file that writes each of its texts once.
    pub carried: bool,
    /// What it means, to the maker.
    pub meaning: &'static str,
    /// An example of a cell.
    pub example: &'static str,
}

/// One table.
#[derive(Debug, Clone, Copy)]
pub struct TableSpecification {
    /// Its name; the file is this with `.csv`.
    pub name: &'static str,
    /// Whether it is a log, which grows with time, or a card, which is edited.
    pub is_log: bool,
    /// What it holds, to the maker.
    pub meaning: &'static str,
    /// Everyday words for its columns, which a heading may be proposed by: each column with its words.
    pub everyday: &'static [(&'static str, &'static [&'static str])],
    /// Its columns, in the order templates list them.
    pub columns: &'static [ColumnSpecification],
}

impl TableSpecification {
    /// The file's name.
    #[must_use]
    pub fn file(&self) -> String {
        format!("{}.csv", self.name)
    }

    /// Its headings, joined by commas as in the first line of a file.
    #[must_use]
    pub fn headings(&self) -> String {
        self.columns.iter().map(|column| column.name).collect::<Vec<_>>().join(",")
    }

    /// The column a heading names, regardless of case, spaces, underscores, points and hyphens.
    #[must_use]
    pub fn column(&self, heading: &str) -> Option<usize> {
        let heading = folding::word(heading);
        self.columns
            .iter()
            .position(|column| folding::word(column.name) == heading || column.also.is_some_and(|also| folding::word(also) == heading))
    }
}
