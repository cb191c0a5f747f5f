//! Formats of columns in `shop.toml`: those proposed for what a table's files show, and those that fit no file.

use super::kinds::UNKNOWN_SETTING;
use super::settings::{self, Proposal, Settings};
use super::sources::Sources;
use super::specification::TABLES;
use crate::reading::folding;
use crate::reading::headings::quoted;
use crate::reading::nearest::nearest;
use crate::reading::problem_kind::UNKNOWN_FORMAT;
use crate::reading::specification::Kind;
use crate::reading::table::{ColumnRead, Reading};
use crate::reading::{ColumnSpecification, Problem, TableSpecification};
use std::collections::{BTreeMap, BTreeSet};

/// Formats that a cell shows by itself.
const PLAIN: [&str; 2] = ["decimal point", "minutes"];

/// How one file of a table was read.
pub(super) struct Understood<'a> {
    /// What to call the file.
    pub file: &'a str,
    /// Its columns.
    pub columns: &'a [ColumnRead],
    /// How it was read.
    pub reading: &'a Reading,
}

/// Whether a column was read otherwise than its cells show by themselves.
#[must_use]
pub(crate) fn is_telling(read: &ColumnRead) -> bool {
    read.format.as_deref().is_some_and(|format| format.split(", ").any(|style| !PLAIN.contains(&style)))
}

/// Formats that were found in columns and are not fixed yet: one for the column where all files agree, else one for each heading, and where
/// files differ under one heading, or one of them asks, one for each file. None of a column to which a heading is proposed, for its cells are not read yet.
pub(super) fn proposals(table: &TableSpecification, files: &[Understood<'_>], headings: &[Proposal]) -> Vec<Proposal> {
    let has_styles = |kind: Kind| !matches!(kind, Kind::Text | Kind::Orders | Kind::Unit | Kind::Payments | Kind::Choice(..));
    let is_awaited = |column: &ColumnSpecification| headings.iter().any(|proposal| proposal.value == column.name);
    let columns = table.columns.iter().filter(|column| has_styles(column.kind) && !is_awaited(column));
    columns.flat_map(|column| of_column(table, column, files)).collect()
}

/// A column of one file.
#[derive(Clone, Copy)]
struct InFile<'a> {
    file: &'a str,
    read: &'a ColumnRead,
    /// Whether `shop.toml` fixes its format.
    is_fixed: bool,
}

impl InFile<'_> {
    fn proposal(&self, section: &str, key: &str) -> Option<Proposal> {
        let because = format!("{}, {}, is written so", self.file, self.read.heading);
        let value = self.read.format.clone()?;
        Some(Proposal { section: format!("formats.{section}"), key: key.to_owned(), value, because })
    }
}

fn of_column(table: &TableSpecification, column: &ColumnSpecification, files: &[Understood<'_>]) -> Vec<Proposal> {
    let in_files = files.iter().flat_map(|of| {
        let reads = of.columns.iter().filter(|read| read.column == column.name && (read.format.is_some() || read.is_open));
        reads.map(|read| InFile { file: of.file, read, is_fixed: of.reading.fixed(column, &read.heading).is_some() })
    });
    let mut by_heading: BTreeMap<String, Vec<InFile<'_>>> = BTreeMap::new();
    for read in in_files {
        by_heading.entry(folding::word(&read.read.heading)).or_default().push(read);
    }
    let known = |reads: &[InFile<'_>]| -> BTreeSet<String> { reads.iter().filter_map(|of| of.read.format.clone()).collect() };
    let all: Vec<InFile<'_>> = by_heading.values().flatten().copied().collect();
    let formats = known(&all);
    let is_plain = formats.len() == 1 && all.iter().all(|of| !is_telling(of.read));
    let Some(first) = unfixed(&all).first().copied().filter(|_| !is_plain) else { return Vec::new() };
    // A file that asks must not be answered by what another shows.
    let asks = |reads: &[InFile<'_>]| reads.iter().any(|of| of.read.is_open);
    if formats.len() == 1 && !asks(&all) {
        return first.proposal(table.name, column.name).into_iter().collect();
    }
    let is_of_column = |heading: &str| [Some(column.name), column.also].into_iter().flatten().any(|name| folding::word(name) == heading);
    let mut proposals = Vec::new();
    for (heading, reads) in &by_heading {
        let unfixed = unfixed(reads);
        let is_common = known(reads).len() == 1 && !asks(if is_of_column(heading) { &all } else { reads });
        match unfixed.first().filter(|_| is_common) {
            Some(first) => {
                let key = if is_of_column(heading) { column.name } else { &first.read.heading };
                proposals.extend(first.proposal(table.name, key));
            }
            None => proposals.extend(unfixed.iter().filter_map(|of| of.proposal(&quoted(of.file), column.name))),
        }
    }
    proposals
}

/// The columns whose format was found and is not fixed.
fn unfixed<'a>(reads: &[InFile<'a>]) -> Vec<InFile<'a>> {
    reads.iter().filter(|of| !of.is_fixed && of.read.format.is_some()).copied().collect()
}

/// A format in the settings must be of a column, or of a heading of the table's files.
pub(super) fn check_keys<'h>(
    table: &TableSpecification,
    files: &(impl Iterator<Item = (&'h [String], &'h Reading)> + Clone),
    problems: &mut Vec<Problem>,
) {
    let is_of = |key: &str, headings: &[String]| {
        table.column(key).is_some() || headings.iter().any(|heading| folding::word(heading) == folding::word(key))
    };
    let mut refuse = |key: &str, section: &str, headings: &[&str]| {
        let problem = Problem::of_file(&UNKNOWN_FORMAT, settings::FILE, format!("is not a column of {}", table.name)).found(key);
        let problem = problem.column(&format!("formats.{section}"));
        let columns = table.columns.iter().map(|column| column.name);
        problems.push(match nearest(key, columns.chain(headings.iter().copied())) {
            Some(near) => problem.did_you_mean(near),
            None => problem.instead(format!("write one of: {}", table.headings().replace(',', ", "))),
        });
    };
    let Some((_, common)) = files.clone().next() else { return };
    let all: Vec<&str> = files.clone().flat_map(|(headings, _)| headings).map(String::as_str).collect();
    for key in common.formats.keys().filter(|key| files.clone().all(|(headings, _)| !is_of(key, headings))) {
        refuse(key, table.name, &all);
    }
    for (headings, of) in files.clone().filter_map(|(headings, reading)| Some((headings, reading.of_file.as_ref()?))) {
        for key in of.formats.keys().filter(|key| !is_of(key, headings)) {
            refuse(key, &of.section, &headings.iter().map(String::as_str).collect::<Vec<_>>());
        }
    }
}

/// A section of formats in the settings must be of a table, or of one of the shop's files.
pub(super) fn check_sections(settings: &Settings, sources: &Sources<'_>, problems: &mut Vec<Problem>) {
    let known = || TABLES.iter().map(|table| table.name).chain(sources.iter().map(|source| source.name));
    for section in settings.formats.keys().filter(|section| known().all(|known| known.to_lowercase() != section.to_lowercase())) {
        let problem = Problem::of_file(&UNKNOWN_SETTING, settings::FILE, "is neither a table nor a file of the shop");
        let problem = problem.column("formats").found(section);
        problems.push(match nearest(section, known().collect::<Vec<_>>()) {
            Some(near) => problem.did_you_mean(near),
            None => problem.instead("remove the section, or name a table or a file of the folder"),
        });
    }
}
