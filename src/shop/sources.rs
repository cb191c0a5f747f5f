//! The files that a table's rows come from: one of its name, or several whose names begin with it.

use super::specification::TABLES;
use crate::ids::{self, Id, IdVec, Names};
use crate::reading::problem::{SETTINGS_SHEET, SHEET};
use crate::reading::table::Reading;
use crate::reading::workbook::Workbook;
use crate::reading::{Cells, Known, Problem, TableSpecification};
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

/// Rows to pass over, by the file they are in.
pub type Skipped = BTreeMap<Id<ids::Source>, BTreeSet<u32>>;

/// A file or sheet of one table.
#[derive(Debug, Clone, Copy)]
pub struct Source<'a> {
    /// Which of the shop's sources it is.
    pub id: Id<ids::Source>,
    /// The table it is of.
    pub table: &'static TableSpecification,
    /// What to call it: the file as the folder spells it, and the sheet of a workbook.
    pub name: &'a str,
    /// What is in it.
    pub contents: Contents<'a>,
}

/// What a source is made of.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Contents<'a> {
    /// A text file.
    Text(&'a [u8]),
    /// A sheet of a workbook.
    Sheet {
        /// The workbook.
        workbook: &'a Workbook,
        /// The workbook's file, as the folder spells it.
        file: &'a str,
        /// The sheet's name.
        sheet: &'a str,
    },
}

/// A file, or a sheet of a workbook, that may be a source.
#[derive(Debug, Clone, Copy)]
pub struct Found<'a> {
    /// What to call it.
    pub name: &'a str,
    /// The table it is of.
    pub table: Option<&'static TableSpecification>,
    /// What is in it.
    pub contents: Contents<'a>,
}

impl<'a> Source<'a> {
    /// Its cells, with its place in each.
    #[must_use]
    pub fn cells(&self, reading: &Reading) -> Cells {
        let known = Known { specification: self.table, columns: &reading.columns };
        let cells = match self.contents {
            Contents::Text(bytes) => Cells::of_csv(self.name, bytes, known),
            Contents::Sheet { workbook, sheet, .. } => (*workbook.cells(sheet, self.name, known)).clone(),
        };
        cells.of_source(self.id)
    }

    /// The workbook's file, where it is a sheet.
    #[must_use]
    pub fn workbook(&self) -> Option<&'a str> {
        match self.contents {
            Contents::Text(_) => None,
            Contents::Sheet { file, .. } => Some(file),
        }
    }
}

/// All sources of a shop, table by table.
#[derive(Debug, Clone, Default)]
pub(crate) struct Sources<'a> {
    names: Names<ids::Source>,
    tables: IdVec<ids::Source, &'static TableSpecification>,
    contents: IdVec<ids::Source, Found<'a>>,
}

/// Whether a file is a workbook, by its name.
#[must_use]
pub(crate) fn is_workbook(file: &str) -> bool {
    Path::new(file).extension().is_some_and(|extension| extension.eq_ignore_ascii_case("xlsx") || extension.eq_ignore_ascii_case("ods"))
}

/// What to call a sheet of a workbook.
#[must_use]
pub(crate) fn sheet_name(file: &str, sheet: &str) -> String {
    format!("{file}{SHEET}{sheet}")
}

/// Whether a sheet of this name holds settings.
#[must_use]
pub(crate) fn is_settings(sheet: &str) -> bool {
    sheet.trim().eq_ignore_ascii_case(SETTINGS_SHEET)
}

/// The table of a source, by what it is called.
#[must_use]
pub(crate) fn table_of_source(name: &str) -> Option<&'static TableSpecification> {
    name.split_once(SHEET).map_or_else(|| table_of_file(name), |(_, sheet)| table_named(sheet))
}

/// The table that a file is of, by its name: `orders.csv`, `Orders_2026.csv` or `orders 2026-10.csv`.
#[must_use]
pub(crate) fn table_of_file(file: &str) -> Option<&'static TableSpecification> {
    let path = Path::new(file);
    path.extension().filter(|extension| extension.eq_ignore_ascii_case("csv"))?;
    table_named(path.file_stem()?.to_str()?)
}

/// The table whose name a text is or begins with, whatever its letter case; `orderly` begins with none.
#[must_use]
pub(crate) fn table_named(text: &str) -> Option<&'static TableSpecification> {
    let text = text.trim().to_lowercase();
    let rest_of = |table: &TableSpecification| text.strip_prefix(table.name).map(|rest| rest.chars().next());
    TABLES.iter().find(|table| rest_of(table).is_some_and(|next| next.is_none_or(|next| !next.is_alphabetic())))
}

/// The table that a sheet holds: the one that the settings say, else the one that its name begins with.
#[must_use]
pub(crate) fn table_of_sheet(name: &str, named: &BTreeMap<String, String>) -> Option<&'static TableSpecification> {
    match named.iter().find(|(sheet, _)| is_same(sheet, name)) {
        Some((_, table)) => TABLES.iter().find(|known| known.name == table),
        None => table_named(name),
    }
}

/// Whether two texts name one sheet, as a spreadsheet has it.
#[must_use]
pub(crate) fn is_same(one: &str, other: &str) -> bool {
    one.trim().to_lowercase() == other.trim().to_lowercase()
}

impl<'a> Sources<'a> {
    /// The sources among files and sheets; those that are of no table are passed over.
    pub fn of(found: &(impl Iterator<Item = Found<'a>> + Clone)) -> Self {
        let mut sources = Self::default();
        for table in TABLES {
            for source in found.clone().filter(|found| found.table.is_some_and(|of| of.name == table.name)) {
                sources.names.intern(source.name);
                sources.tables.push(table);
                sources.contents.push(source);
            }
        }
        sources
    }

    /// All of them, table by table.
    pub fn iter(&self) -> impl Iterator<Item = Source<'a>> {
        let source =
            |(id, found): (Id<ids::Source>, &Found<'a>)| Source { id, table: self.tables[id], name: found.name, contents: found.contents };
        self.contents.pairs().map(source)
    }

    /// Those of one table.
    #[must_use]
    pub fn of_table(&self, table: &TableSpecification) -> Vec<Source<'a>> {
        self.iter().filter(|source| source.table.name == table.name).collect()
    }

    /// Names the file of each problem: the one its place is in, or its table's only one. A problem that names a file keeps it.
    pub(crate) fn name_problems(&self, problems: &mut [Problem]) {
        for problem in problems {
            let is_of = |id: &Id<ids::Source>| self.tables.get(*id).is_some_and(|table| table.file() == problem.file);
            let mut of_table = self.tables.ids().filter(is_of);
            match (problem.place, of_table.next(), of_table.next()) {
                (Some(place), ..) if is_of(&place.source) => problem.name_source(&self.names),
                (None, Some(only), None) => self.names.text(only).clone_into(&mut problem.file),
                _ => {}
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::reading::Place;
    use crate::reading::problem_kind::NOT_A_DATE;

    #[test]
    fn a_file_is_of_the_table_its_name_begins_with() {
        let tables = |name: &str| table_of_file(name).map(|table| table.name);
        for name in
            ["orders.csv", "Orders.CSV", "orders-2025.csv", "orders 2026-10.csv", "Orders_2026.csv", "orders2026.csv", "orders (1).csv"]
        {
            assert_eq!(tables(name), Some("orders"), "{name}");
        }
        for name in ["orderly.csv", "my orders.csv", "orders.tsv", "orders.txt", "orders", "order.csv", ".csv", "itemsold.csv"] {
            assert_eq!(tables(name), None, "{name}");
        }
    }

    #[test]
    fn a_sheet_is_of_the_table_its_name_begins_with() {
        let name = sheet_name("my shop.XLSX", "Orders 2026");
        assert!(is_workbook("my shop.XLSX") && is_workbook("a.ods") && !is_workbook("a.xls"));
        assert_eq!(table_of_source(&name).map(|table| table.name), Some("orders"));
    }

    #[test]
    fn a_problem_names_the_file_of_its_place() {
        let files = ["orders-2025.csv", "Orders 2026.csv", "Hours.csv"].map(|name| Found {
            name,
            table: table_of_file(name),
            contents: Contents::Text(b""),
        });
        let sources = Sources::of(&files.into_iter());
        let second = sources.of_table(&TABLES[0])[1];
        assert_eq!(second.name, "Orders 2026.csv");
        let problem = |file: &str| Problem::of_file(&NOT_A_DATE, file, "is not a date");
        let at = |file: &str, source| problem(file).at(Place { source, ..Place::of_row(4, 4) });
        let mut problems =
            [at("orders.csv", second.id), problem("orders.csv"), problem("hours.csv"), at("shop.toml", second.id), at("x.csv", second.id)];
        for _ in 0..2 {
            sources.name_problems(&mut problems);
            let files: Vec<&str> = problems.iter().map(|problem| problem.file.as_str()).collect();
            assert_eq!(files, ["Orders 2026.csv", "orders.csv", "Hours.csv", "shop.toml", "x.csv"]);
        }
    }
}
