//! Loads a shop from its folder: every table by its specification, then all of them checked against each other.

pub use super::assemble::Shop;
use super::assemble::assemble;
use super::beliefs::Beliefs;
pub use super::folder::Folder;
use super::follow_on::{is_of_lost_row, retain_of_known_orders, retain_own};
use super::formats;
use super::hours;
use super::kinds::{NO_FOLDER, NOT_TOML};
use super::read_table::Reader;
use super::repeats::{Kept, overlaps};
use super::settings::Proposal;
pub use super::sources::Skipped;
use super::sources::Source;
use super::specification::{self as spec, TABLES};
use super::spelling;
pub use super::table_read::{FileRead, TableRead};
use crate::reading::problem_kind::{AMBIGUOUS_FORMAT, CHANGED_FORMAT};
use crate::reading::{Problem, Severity, Table};
use std::collections::{BTreeMap, BTreeSet};

/// What reading a folder gave.
#[derive(Debug)]
pub struct Loaded {
    /// The shop; `None` where the folder, its settings or its orders cannot be read at all.
    pub shop: Option<Shop>,
    /// The tables.
    pub tables: Vec<TableRead>,
    /// Errors, warnings and what was assumed; each names its file.
    pub problems: Vec<Problem>,
    /// What the tables suggest for `shop.toml`.
    pub proposals: Vec<Proposal>,
}

impl Folder {
    /// Reads the shop as it is believed to be written, passing over the rows in `skipped`.
    pub(super) fn load_believing(&self, skipped: &Skipped, believed: &Beliefs) -> Loaded {
        let mut problems = self.problems().to_vec();
        if problems.iter().any(|problem| *problem.kind == NO_FOLDER) {
            return Loaded { shop: None, tables: Vec::new(), problems, proposals: Vec::new() };
        }
        let mut settings = self.settings(&mut problems);
        // Without her headings and words, every table would look wrong.
        if problems.iter().any(|problem| *problem.kind == NOT_TOML) {
            return Loaded { shop: None, tables: Vec::new(), problems, proposals: Vec::new() };
        }
        if let Some(settings) = &mut settings {
            believed.apply(settings);
        }
        let sources = self.sources();
        if let Some(settings) = &settings {
            self.check_named_sheets(settings, &mut problems);
            formats::check_sections(settings, &sources, &mut problems);
        }
        let proposals = self.sheet_proposals(settings.as_ref(), &sources, &mut problems);
        let kept = Kept::of(settings.as_ref().map_or(&[], |settings| &settings.repeats));
        let mut reader = Reader {
            folder: self,
            sources: &sources,
            settings: settings.as_ref(),
            skipped,
            read: Vec::new(),
            proposals,
            kept,
            problems: &mut problems,
        };
        let mut tables: BTreeMap<&str, Option<Table>> = TABLES.iter().map(|table| (table.name, reader.table(table))).collect();
        let Reader { read: mut found, proposals, kept, .. } = reader;
        kept.warn_of_unmet(&mut problems);
        // A card without rows, as a new shop has it, lists nothing to keep to; one whose rows are passed over does.
        let passes_over = |source: &Source<'_>| skipped.contains_key(&source.id);
        if !sources.of_table(&spec::DESIGNS).iter().any(passes_over) {
            tables.entry(spec::DESIGNS.name).and_modify(|card| drop(card.take_if(|card| card.rows() == 0)));
        }
        if let Some(settings) = &settings {
            spelling::unify(&mut tables, settings);
            if let Some(Some(hours)) = tables.get_mut(spec::HOURS.name) {
                hours::respell(hours, settings);
            }
            for read in &mut found {
                if let Some(Some(table)) = tables.get(read.table) {
                    read.note(table);
                }
            }
        }
        // What looks into a table that could not be read whole would look wrong, and there is no shop to work with.
        // A column that asks for its format counts as one of wrong cells, but where its rows are to be compared with another file's.
        let is_compared = found.iter().any(|read| read.files.len() > 1 && read.files.iter().any(FileRead::is_open));
        let is_whole = |problem: &Problem| {
            let asks = *problem.kind == AMBIGUOUS_FORMAT || *problem.kind == CHANGED_FORMAT;
            let is_of_cells = problem.place.is_some() || (asks && !is_compared);
            problem.severity != Severity::Error || is_of_cells || !problem.is_of_table()
        };
        let table_of = |problem: &Problem| {
            let source = sources.iter().find(|source| source.name == problem.file).map(|source| source.table);
            source.or_else(|| TABLES.iter().find(|table| table.file() == problem.file)).map(|table| table.name)
        };
        let broken: Option<BTreeSet<&str>> = problems.iter().filter(|problem| !is_whole(problem)).map(table_of).collect();
        let has_lost_rows = problems.iter().any(|problem| table_of(problem) == Some(spec::ORDERS.name) && is_of_lost_row(problem));
        let mut of_shop = Vec::new();
        let shop = settings.filter(|_| broken.is_some()).and_then(|settings| assemble(settings, tables, &mut found, &mut of_shop));
        if let Some(shop) = &shop {
            overlaps::warn(shop, &sources, &mut of_shop);
        }
        if has_lost_rows {
            retain_of_known_orders(&mut of_shop);
        }
        let broken = broken.unwrap_or_default();
        retain_own(&mut of_shop, &broken, table_of);
        let shop = shop.filter(|_| broken.is_empty());
        problems.append(&mut of_shop);
        // Those of the folder name the file that is meant.
        self.name_problems(&mut problems[self.problems().len()..]);
        Loaded { shop, tables: found, problems, proposals }
    }
}
