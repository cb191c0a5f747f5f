//! Rows of one table that hold the same values in every known column.

use super::column::Column;
use super::table::Table;
use crate::ids::{Id, Names, Text};
use crate::quantity::Day;
use std::hash::{DefaultHasher, Hash, Hasher};

impl Table {
    /// The first row that each row is like, by index: itself where no earlier row is like it. A row with a cell that could not be read,
    /// or without any value, is like none.
    ///
    /// Fingerprints of the rows are sorted, and only rows of one fingerprint are compared (Karp and Rabin 1987), so that a million rows
    /// cost a million numbers.
    #[must_use]
    pub fn alike(&self) -> Vec<usize> {
        let mut hashers = vec![DefaultHasher::new(); self.rows()];
        let mut filled = vec![false; self.rows()];
        for column in self.columns.values() {
            column.fold_into(&mut hashers, &mut filled);
        }
        for (row, _) in &self.wrong {
            filled[*row] = false;
        }
        let mut rows: Vec<(u64, usize)> =
            hashers.iter().map(Hasher::finish).enumerate().map(|(row, print)| (print, row)).filter(|(_, row)| filled[*row]).collect();
        rows.sort_unstable();
        let mut first: Vec<usize> = (0..self.rows()).collect();
        for same in rows.chunk_by(|one, other| one.0 == other.0).filter(|same| same.len() > 1) {
            // Rows of one fingerprint are nearly always alike: one row to compare with, seldom two.
            let mut distinct: Vec<usize> = Vec::new();
            for (_, row) in same {
                match distinct.iter().find(|known| self.are_alike(**known, *row)) {
                    Some(known) => first[*row] = *known,
                    None => distinct.push(*row),
                }
            }
        }
        first
    }

    fn are_alike(&self, one: usize, other: usize) -> bool {
        self.columns.values().all(|column| column.is_same(one, other))
    }

    /// A text column that stays in the table, with its distinct texts.
    #[must_use]
    pub(crate) fn text_of(&self, column: &str) -> Option<(&[Option<Id<Text>>], &Names<Text>)> {
        match self.columns.get(column)? {
            Column::Text(values, names) => Some((values, names)),
            _ => None,
        }
    }

    /// A column of days that stays in the table.
    #[must_use]
    pub(crate) fn days_of(&self, column: &str) -> Option<&[Option<Day>]> {
        match self.columns.get(column)? {
            Column::Day(days) => Some(days),
            _ => None,
        }
    }
}

impl Column {
    /// Adds each row's value to its hash, and notes which rows have one.
    fn fold_into(&self, hashers: &mut [DefaultHasher], filled: &mut [bool]) {
        fn fold<T, H: Hash>(values: &[Option<T>], key: impl Fn(&T) -> H, hashers: &mut [DefaultHasher], filled: &mut [bool]) {
            for ((value, hasher), filled) in values.iter().zip(hashers).zip(filled) {
                value.as_ref().map(&key).hash(hasher);
                *filled |= value.is_some();
            }
        }
        match self {
            Self::Text(values, _) => fold(values, |id| id.number(), hashers, filled),
            Self::Day(values) => fold(values, |day| day.0, hashers, filled),
            Self::Millionths(values) | Self::Whole(values) => fold(values, |number| *number, hashers, filled),
            Self::Span(values) => fold(values, |span| *span, hashers, filled),
            Self::Number(values) => fold(values, |number| *number, hashers, filled),
            Self::Price(values) => fold(values, |price| (price.amount.0, price.pieces), hashers, filled),
            Self::Percent(values) => fold(values, |percent| percent.0, hashers, filled),
        }
    }

    fn is_same(&self, one: usize, other: usize) -> bool {
        match self {
            Self::Text(values, _) => values[one] == values[other],
            Self::Day(values) => values[one] == values[other],
            Self::Millionths(values) | Self::Whole(values) => values[one] == values[other],
            Self::Span(values) => values[one] == values[other],
            Self::Number(values) => values[one] == values[other],
            Self::Price(values) => values[one] == values[other],
            Self::Percent(values) => values[one] == values[other],
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::table::Reading;
    use super::super::{Cells, Known};
    use super::*;
    use crate::shop::specification::{ORDERS, PURCHASES};
    use std::collections::BTreeSet;

    fn alike(specification: &'static crate::reading::TableSpecification, text: &str) -> Vec<usize> {
        let reading = Reading::default();
        let cells = Cells::of_csv("t.csv", text.as_bytes(), Known { specification, columns: &reading.columns });
        Table::read(specification, &cells, &reading, &BTreeSet::new(), &mut Vec::new()).alike()
    }

    #[test]
    fn rows_are_compared_as_read_in_known_columns() {
        let text = "date,item,size,unit,paid,note\n2026-03-01,butter,1,lb,4.50,a\n2026-03-01,butter,1.0,lb,$4.5,b\n\
                    2026-03-01,butter,1,lb,4.51,a\n2026-03-08,butter,1,lb,4.50,a\n2026-03-01,butter,1 lb,,4.50,\n";
        assert_eq!(alike(&PURCHASES, text), [0, 0, 2, 3, 0]);
    }

    #[test]
    fn a_row_that_could_not_be_read_is_like_none() {
        let text = "order,date,design,quantity,price\nA1,2026-03-01,moon,many,4\nA1,2026-03-01,moon,some,4\nA1,2026-03-01,moon,12,4\n\
                    A1,2026-03-01,moon,1 dozen,4\nA1,2026-03-01,moon,12,48/dozen\n";
        assert_eq!(alike(&ORDERS, text), [0, 1, 2, 2, 4]);
    }
}
