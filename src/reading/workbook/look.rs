//! Which tables a sheet of another name looks like, by its headings.

use super::Workbook;
use super::feed::Feed;
use crate::reading::cells::{Cells, Known};
use crate::reading::specification::TableSpecification;
use std::collections::BTreeMap;

/// How far a sheet's headings are those of a table.
#[derive(Debug, Clone)]
pub struct Look {
    /// The table.
    pub table: &'static TableSpecification,
    /// The columns that its headings name, if only by an everyday word, in the order of the table.
    pub columns: Vec<&'static str>,
}

impl Look {
    /// Whether no column is missing that the table is useless without.
    #[must_use]
    pub fn is_whole(&self) -> bool {
        self.table.columns.iter().all(|column| !column.required || self.columns.contains(&column.name))
    }
}

impl Look {
    /// How far the headings of a text file are those of each of some tables. Nothing else of its cells is returned or kept.
    #[must_use]
    pub fn of_csv(bytes: &[u8], tables: &'static [TableSpecification]) -> Vec<Self> {
        let none = BTreeMap::new();
        let look = |table: &'static TableSpecification| {
            let known = Known { specification: table, columns: &none };
            let headings = Cells::of_csv("", bytes, known).headings;
            Self { table, columns: known.named(&headings).into_iter().map(|at| table.columns[at].name).collect() }
        };
        tables.iter().map(look).collect()
    }
}

impl Workbook {
    /// How far the headings of a sheet are those of each of some tables. Nothing else of its cells is returned or kept.
    #[must_use]
    pub fn looks(&self, sheet: &str, tables: &'static [TableSpecification]) -> Vec<Look> {
        let none = BTreeMap::new();
        let Some(first) = tables.first() else { return Vec::new() };
        let mut feed = Feed::of_headings(Known { specification: first, columns: &none });
        // What keeps the sheet from being read is said where it is read as a table.
        let rows = self.rows(sheet, &mut feed).map_or_else(|_| Vec::new(), |()| feed.first_rows());
        let look = |table: &'static TableSpecification| {
            let known = Known { specification: table, columns: &none };
            let named = rows.get(known.headings(&rows)).map(|row| known.named(row)).unwrap_or_default();
            Look { table, columns: named.into_iter().map(|at| table.columns[at].name).collect() }
        };
        tables.iter().map(look).collect()
    }
}
