//! What a table's files suggest for `shop.toml`: headings of her own.

use super::kinds::{HEADING_UNCLEAR, NO_SUCH_HEADING};
use super::settings::{self, Proposal};
use crate::reading::folding;
use crate::reading::headings::{Candidates, candidates, quoted};
use crate::reading::nearest::nearest;
use crate::reading::table::Reading;
use crate::reading::{Problem, Table, TableSpecification};
use std::collections::{BTreeMap, BTreeSet};

/// One file of a table, as far as its headings go.
pub(super) struct Headed<'a> {
    /// What to call it.
    pub file: &'a str,
    /// Its headings; none where they could not be read.
    pub headings: Vec<String>,
    /// Reads it anew in another way.
    pub reread: Box<dyn Fn(&Reading) -> Table + 'a>,
}

/// Of ten cells under a heading that is proposed, at most so many cannot be read as its column's.
const UNREADABLE_IN_TEN: usize = 1;

/// Headings that are surely a column of the table in each of its files that has them; the others are asked about.
pub(super) fn heading_proposals(
    table: &TableSpecification,
    files: &[Headed<'_>],
    reading: &Reading,
    problems: &mut Vec<Problem>,
) -> Vec<Proposal> {
    let found: Vec<Candidates> = files.iter().map(|file| candidates(table, &file.headings, &reading.columns)).collect();
    let mut sure: BTreeMap<&str, BTreeSet<&str>> = BTreeMap::new();
    for (heading, column) in found.iter().flat_map(|found| &found.sure) {
        sure.entry(heading).or_default().insert(column);
    }
    let with = |file: &Headed<'_>, heading: &str| file.headings.iter().any(|other| folding::word(other) == folding::word(heading));
    let is_sure = |heading: &str, column: &str| {
        let is_sure =
            |found: &Candidates| found.sure.iter().any(|(other, of)| folding::word(other) == folding::word(heading) && *of == column);
        files.iter().zip(&found).all(|(file, found)| !with(file, heading) || is_sure(found))
    };
    let sure: BTreeMap<&str, &str> = sure
        .into_iter()
        .filter_map(|(heading, columns)| Some((heading, columns.first().copied().filter(|_| columns.len() == 1)?)))
        .filter(|(heading, column)| is_sure(heading, column))
        .collect();
    let mut mapped = reading.clone();
    mapped.columns.extend(sure.iter().map(|(heading, column)| ((*heading).to_owned(), (*column).to_owned())));
    // Each file that has some of them is read once more, with all of them.
    let reread: Vec<Option<Table>> =
        files.iter().map(|file| sure.keys().any(|heading| with(file, heading)).then(|| (file.reread)(&mapped))).collect();
    let mut proposals: Vec<Proposal> = Vec::new();
    for (heading, column) in sure {
        // One line is enough for headings that are read alike, as `Qty` and `Qty.`.
        if proposals.iter().any(|proposal| folding::word(&proposal.key) == folding::word(heading)) {
            continue;
        }
        let mut tables = files.iter().zip(&reread).filter(|(file, _)| with(file, heading)).filter_map(|(_, table)| table.as_ref());
        if tables.all(|table| is_readable(table, column)) {
            let because = format!(
                "no other heading of {} could be {column}",
                files.iter().find(|file| with(file, heading)).map_or("", |file| file.file)
            );
            let section = format!("columns.{}", table.name);
            proposals.push(Proposal { section, key: heading.to_owned(), value: column.to_owned(), because });
        }
    }
    for (file, found) in files.iter().zip(&found) {
        problems.extend(found.open.iter().filter_map(|(headings, columns)| question(table, file.file, headings, columns)));
    }
    proposals
}

fn is_readable(table: &Table, column: &str) -> bool {
    let read = table.understood.iter().find(|read| read.column == column);
    // Cells whose format is open can be read once she says which it is.
    read.is_some_and(|read| read.is_open || table.wrong_cells(column) * 10 <= read.cells * UNREADABLE_IN_TEN)
}

/// Asks which heading, or which column, is meant; a required column is asked about where it is missed.
fn question(table: &TableSpecification, file: &str, headings: &[String], columns: &[&'static str]) -> Option<Problem> {
    let is_required = |name: &str| table.columns.iter().any(|column| column.name == name && column.required);
    if let ([column], true) = (columns, columns.iter().all(|column| is_required(column))) {
        debug_assert!(headings.len() > 1, "one heading for {column} would be no question");
        return None;
    }
    let lines: Vec<String> =
        headings.iter().flat_map(|heading| columns.iter().map(move |column| format!("{} = \"{column}\"", quoted(heading)))).collect();
    let what = match headings {
        [_] => format!("could be the column {}", columns.join(" or ")),
        _ => format!("could each be the column {}, so none is used", columns.join(" or ")),
    };
    let problem = Problem::of_file(&HEADING_UNCLEAR, file, what).found(&headings.join("', '"));
    Some(problem.instead(format!("write the one you mean under [columns.{}] in shop.toml: {}", table.name, lines.join(" or "))))
}

/// A heading mapped in the settings must be in one of the table's files.
pub(super) fn check_mapped(table: &TableSpecification, files: &[Headed<'_>], reading: &Reading, problems: &mut Vec<Problem>) {
    if files.is_empty() || files.iter().any(|file| file.headings.is_empty()) {
        return;
    }
    let all = || files.iter().flat_map(|file| &file.headings);
    for mapped in reading.columns.keys().filter(|mapped| all().all(|heading| folding::word(heading) != folding::word(mapped))) {
        let whose = if let [only] = files { only.file.to_owned() } else { format!("any file of {}", table.name) };
        let problem = Problem::of_file(&NO_SUCH_HEADING, settings::FILE, format!("is not a heading of {whose}"));
        let problem = problem.column(&format!("columns.{}", table.name)).found(mapped);
        problems.push(match nearest(mapped, all().map(String::as_str)) {
            Some(near) => problem.did_you_mean(near),
            None => problem.instead("remove the line, or write the heading as the file does"),
        });
    }
}
