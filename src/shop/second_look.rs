//! A second look at a shop that says too little of how it is written.
//!
//! Where a column is missing, its headings are believed to be what they surely seem, so that one check says all that is wrong. They stay
//! errors until `shop.toml` says so, and nothing is worked out before. Where the cells of a date column, and the other dates of its file,
//! leave the order of day and month open, it is that of all other dates of the shop, if these agree.

use super::beliefs::Beliefs;
use super::folder::Folder;
use super::kinds::UNMAPPED_HEADING;
use super::load::{Loaded, Skipped, TableRead};
use super::specification::TABLES;
use crate::reading::Problem;
use crate::reading::format::Style;
use crate::reading::format::date::DateStyle;
use crate::reading::problem_kind::MISSING_COLUMN;
use crate::reading::specification::Kind;
use std::collections::BTreeSet;

impl Folder {
    /// Reads the shop, passing over the rows in `skipped`.
    #[must_use]
    pub fn load(&self, skipped: &Skipped) -> Loaded {
        let mut believed = Beliefs::default();
        let mut found = self.load_believing(skipped, &believed);
        let missing: Vec<Problem> = found.problems.iter().filter(|problem| *problem.kind == MISSING_COLUMN).cloned().collect();
        // A heading that is believed has cells behind it, which may tell of another.
        while !missing.is_empty() && believed.add_headings(&found.proposals) {
            found = self.load_believing(skipped, &believed);
        }
        believed.dates = dates(&found.tables);
        if believed.dates.is_some() {
            found = self.load_believing(skipped, &believed);
        }
        let is_mended = |missing: &&Problem| !found.problems.contains(missing);
        let unmapped: Vec<Problem> = missing.iter().filter(is_mended).filter_map(|missing| self.unmapped(missing, &believed)).collect();
        found.problems.extend(unmapped);
        found.proposals.splice(0..0, believed.headings);
        found
    }

    /// The error in place of a missing column whose heading is believed.
    fn unmapped(&self, missing: &Problem, believed: &Beliefs) -> Option<Problem> {
        let column = missing.column.as_deref()?;
        let table = self.sources().iter().find(|source| source.name == missing.file)?.table;
        let heading = believed.heading_of(table.name, column)?;
        let what = "seems to be this column, but shop.toml does not say so";
        let problem = Problem::of_file(&UNMAPPED_HEADING, &missing.file, what).column(column).found(&heading.key);
        Some(problem.instead(format!("run check --write, or write {} under [{}] in shop.toml", heading.line(), heading.section)))
    }
}

/// The order of day and month in which all dates of the shop are written whose cells tell; `None` where they differ, or where no column
/// asks.
fn dates(tables: &[TableRead]) -> Option<DateStyle> {
    let is_date = |table: &str, column: &str| {
        TABLES.iter().filter(|of| of.name == table).flat_map(|of| of.columns).any(|of| of.name == column && of.kind == Kind::Day)
    };
    let files = || tables.iter().flat_map(|table| table.files.iter().map(move |file| (table.table, file)));
    let columns = || files().flat_map(|(table, file)| file.understood.iter().filter(move |read| is_date(table, read.column)));
    let told: BTreeSet<&str> = columns().filter_map(|read| read.format.as_deref()).collect();
    let mut told = told.into_iter().map(DateStyle::named);
    let only = told.next().flatten().filter(|_| told.next().is_none());
    only.filter(|_| columns().any(|read| read.is_open))
}
