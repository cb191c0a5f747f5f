//! Reads a table from all its files and sheets, with the account of what was read and what that suggests for the settings.

use super::folder::Folder;
use super::formats::{self, Understood};
use super::hours;
use super::kinds::{HEADING_UNCLEAR, MISSING_FILE, ORDER_CHANGED, ORDER_IN_TWO_FILES, TWO_WORKBOOKS};
use super::repeats::{self, Kept};
use super::settings::{Proposal, Settings};
use super::sources::{Contents, Skipped, Source, Sources, is_settings};
use super::specification as spec;
use super::table_read::{FileRead, TableRead};
use super::understand::{self, Headed};
use crate::reading::headings::quoted;
use crate::reading::merge::{Differing, Groups, merge};
use crate::reading::problem_kind::{MISSING_COLUMN, TWO_HEADINGS};
use crate::reading::table::Reading;
use crate::reading::{Problem, ProblemKind, Table, TableSpecification};
use std::collections::BTreeSet;

/// Reads the tables of a folder, one after another.
pub(super) struct Reader<'a> {
    pub folder: &'a Folder,
    pub sources: &'a Sources<'a>,
    pub settings: Option<&'a Settings>,
    pub skipped: &'a Skipped,
    /// The tables so far.
    pub read: Vec<TableRead>,
    /// What the sheets and the tables so far suggest for the settings.
    pub proposals: Vec<Proposal>,
    /// Rows that stand twice and are meant to.
    pub kept: Kept,
    pub problems: &'a mut Vec<Problem>,
}

impl Reader<'_> {
    /// Reads a table from all its files. `None` where it has none.
    pub fn table(&mut self, specification: &'static TableSpecification) -> Option<Table> {
        let (none, reading) = (BTreeSet::new(), self.settings.map(|settings| settings.reading(specification.name)).unwrap_or_default());
        let is_needed = specification.name == spec::ORDERS.name;
        let before = self.problems.len();
        let (mut sources, mut tables, mut headed, mut files) = (Vec::new(), Vec::new(), Vec::new(), Vec::new());
        let all = self.sources.of_table(specification);
        let is_one_of_several = all.len() > 1;
        let mut readings = Vec::new();
        for source in all {
            let reading = self.reading_of(&source, is_one_of_several);
            let cells = source.cells(&reading);
            // A sheet that nothing is written in yet is no card.
            if source.workbook().is_some() && !is_needed && cells.is_blank() {
                continue;
            }
            let skipped = self.skipped.get(&source.id).unwrap_or(&none);
            let mut table = Table::read(specification, &cells, &reading, skipped, self.problems);
            // A row is one however its files write the stage.
            if let Some(settings) = self.settings.filter(|_| specification.name == spec::HOURS.name) {
                hours::respell(&mut table, settings);
            }
            files.push(FileRead::of(&source, &cells, &table));
            // Its words are listed with the file; what is respelt later is listed with the table.
            table.understood.iter_mut().for_each(|read| read.words.clear());
            tables.push(table);
            let none = &none;
            let of_file = reading.of_file.clone();
            let reread = move |mapped: &Reading| {
                let reading = Reading { of_file: of_file.clone(), ..mapped.clone() };
                let mut problems = Vec::new();
                (Table::read(specification, &source.cells(&reading), &reading, none, &mut problems), problems)
            };
            headed.push(Headed { file: source.name, headings: cells.headings, reread: Box::new(reread) });
            sources.push(source);
            readings.push(reading);
        }
        if sources.is_empty() {
            if is_needed && !self.folder.has_errors() {
                let problem = self.no_orders();
                self.problems.push(problem);
            }
            self.read.push(TableRead { table: specification.name, files: Vec::new(), rows: 0, repeated: 0, fuller: 0, words: Vec::new() });
            return None;
        }
        self.ask_which_workbook(&sources, &files);
        let mut proposals = understand::heading_proposals(specification, &headed, &reading, self.problems);
        understand::check_mapped(specification, &headed, &reading, self.problems);
        let keys = headed.iter().zip(&readings).map(|(file, reading)| (file.headings.as_slice(), reading));
        formats::check_keys(specification, &keys, self.problems);
        drop(headed);
        self.find_repeats(
            specification,
            &tables,
            &self.problems[before..].iter().map(|problem| problem.kind).collect::<Vec<_>>(),
            !proposals.is_empty(),
        );
        let read = sources.iter().zip(&tables).zip(&readings);
        let read: Vec<Understood<'_>> =
            read.map(|((source, table), reading)| Understood { file: source.name, columns: &table.understood, reading }).collect();
        let formats = formats::proposals(specification, &read, &proposals);
        proposals.extend(formats);
        let groups = (specification.name == spec::ORDERS.name).then_some(BY_ORDER);
        let merged = merge(specification, tables, groups);
        let names: Vec<&str> = sources.iter().map(|source| source.name).collect();
        // Until she says how a column is written, its cells are blank, and rows would seem to differ.
        if !files.iter().any(FileRead::is_open) {
            self.problems.extend(merged.differing.iter().map(|order| differing_order(order, &names)));
        }
        self.read.push(TableRead {
            table: specification.name,
            files,
            rows: merged.table.rows(),
            repeated: merged.repeated,
            fuller: merged.fuller,
            words: Vec::new(),
        });
        self.proposals.append(&mut proposals);
        Some(merged.table)
    }

    /// How a source is read; one of several may have formats of its own.
    fn reading_of(&self, source: &Source<'_>, is_one_of_several: bool) -> Reading {
        let Some(settings) = self.settings else { return Reading::default() };
        let is_named = || settings.formats.keys().any(|section| section.to_lowercase() == source.name.to_lowercase());
        if is_one_of_several || is_named() {
            settings.reading_of(source.table.name, source.name)
        } else {
            settings.reading(source.table.name)
        }
    }

    /// Looks in each file for rows that stand twice, where its columns are known. `kinds` are those of the table's problems so far; until she
    /// says which heading is which column, rows are compared in fewer.
    fn find_repeats(&mut self, specification: &TableSpecification, tables: &[Table], kinds: &[&ProblemKind], is_proposed: bool) {
        if kinds.iter().any(|kind| [&MISSING_COLUMN, &TWO_HEADINGS].contains(kind)) {
            self.kept.leave_open();
            return;
        }
        let is_open = is_proposed || kinds.contains(&&HEADING_UNCLEAR);
        for table in tables {
            repeats::find(specification, table, is_open, &mut self.kept, self.problems);
        }
    }

    /// That there are no orders, and what to do: a sheet of another name may hold them.
    fn no_orders(&self) -> Problem {
        let nameless: Vec<&str> = self
            .folder
            .found()
            .filter(|found| found.table.is_none())
            .filter_map(|found| if let Contents::Sheet { sheet, .. } = found.contents { Some(sheet) } else { None })
            .filter(|sheet| !is_settings(sheet))
            .collect();
        let problem = match self.folder.workbooks().next() {
            Some(workbook) => Problem::of_file(&MISSING_FILE, workbook, "has no sheet for orders"),
            None => Problem::of_file(&MISSING_FILE, &spec::ORDERS.file(), "is missing from the folder"),
        };
        if let Some(proposal) = self.proposals.iter().find(|proposal| proposal.value == spec::ORDERS.name) {
            let line = proposal.line();
            let sheet = &proposal.key;
            return problem.instead(format!("if {sheet} is it, write {line} under [sheets] in shop.toml, or let check --write do it"));
        }
        match (nameless.as_slice(), self.folder.workbooks().next()) {
            ([], None) => problem.instead(format!("create it with the headings {}", spec::ORDERS.headings())),
            ([], Some(_)) => problem.instead(format!("add a sheet orders with the headings {}", spec::ORDERS.headings())),
            (sheets, _) => {
                let lines: Vec<String> = sheets.iter().map(|sheet| format!("{} = \"orders\"", quoted(sheet))).collect();
                problem.instead(format!("write which sheet it is under [sheets] in shop.toml: {}", lines.join(" or ")))
            }
        }
    }

    /// Asks which of two workbooks is the shop, where both have rows of a table: one of them is perhaps an old copy.
    fn ask_which_workbook(&mut self, sources: &[Source<'_>], files: &[FileRead]) {
        let begun = sources.iter().zip(files).filter(|(_, file)| file.rows > 0);
        let workbooks: BTreeSet<&str> = begun.filter_map(|(source, _)| source.workbook()).collect();
        let is_asked = self.problems.iter().any(|problem| *problem.kind == TWO_WORKBOOKS);
        let mut workbooks = workbooks.into_iter();
        let (Some(one), Some(other), false) = (workbooks.next(), workbooks.next(), is_asked) else { return };
        let what = format!("has {table}, and so has {other}", table = sources[0].table.name);
        let problem = Problem::of_file(&TWO_WORKBOOKS, one, what);
        let path = self.folder.path().join(one);
        self.problems.push(problem.instead(format!(
            "take the one that is out of date out of the folder, or name the one to read in place of the folder, as {}",
            path.display()
        )));
    }
}

/// An order's rows are only whole together.
const BY_ORDER: Groups =
    Groups { group: "order", day: "date", agreed: &["date", "status", "channel"], first_word_if_blank: &["kind", "status"] };

/// That an order's rows differ between files: the later file decides, or she is asked where none is later.
fn differing_order(order: &Differing, files: &[&str]) -> Problem {
    let others: Vec<&str> = order.passed_over.iter().map(|at| files[*at]).collect();
    let (counted, others) = (files[order.counted], others.join(", "));
    let (kind, what, instead) = if order.is_open {
        let what = format!("has other rows in {others}, and both files end the same day");
        (&ORDER_IN_TWO_FILES, what, format!("take it out of {others} or out of {counted}, whichever is out of date"))
    } else {
        let what = format!("has other rows in {others}; those in {counted} count, because its orders run later");
        (&ORDER_CHANGED, what, "take it out of one of them if that is wrong".to_owned())
    };
    Problem::of_file(kind, &spec::ORDERS.file(), what).at(order.place).column("order").found_order(&order.group).instead(instead)
}
